import { type Job, leavesOut } from './job.ts';

/**
 * The materials that lie on top of parts when they are turned over, and of which no sheet says when they are dry to handle:
 * the plan counts their flash for it.
 * @param which stages are meant, by their place; all if left out
 * @returns their ids, each once
 */
export function turnedByFlash(
	{ stages, faces, materials }: Job,
	which: Iterable<number> = stages.keys(),
): string[] {
	const on = [...which].flatMap(at => {
		const stage = stages[at];
		if (stage?.kind !== 'prep' || stage.step !== 'turn over') return [];
		const parts = new Set(faces.filter(({ id }) => !leavesOut(stage, id)).map(({ part }) => part));
		const turned = faces.filter(({ part }) => parts.has(part));
		return turned.flatMap(({ coats }) => coats.findLast(coat => coat.stage < at)?.material ?? []);
	});
	return [...new Set(on)].filter(id => materials[id]?.dryTo?.handle === undefined);
}
