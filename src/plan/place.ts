import type { Job } from '../job/job.ts';

/**
 * The part standing farthest from the extractor among `parts`, or null where the sheet does not say. With only the
 * nearest part known, there is no farthest.
 */
export function farthestPart(job: Job, parts: readonly string[]): string | null {
	let farthest: { name: string; place: number } | null = null;
	for (const { name, place } of job.parts)
		if (place !== null && parts.includes(name) && (farthest === null || place > farthest.place))
			farthest = { name, place };
	return farthest?.name ?? null;
}

/**
 * Ranks parts from the farthest from the extractor to the nearest. Parts whose place the sheet does not say come
 * after those whose place it does, the smaller `score` first, then as in the sheet; the part at the extractor
 * comes last.
 * @returns a part's place in that ranking, from 0
 */
export function placeRank(job: Job, score: (part: string) => number): (part: string) => number {
	const order = job.parts
		.map((part, index) => ({
			...part,
			index,
			last: part.place === null && part.name === job.shop.extractorAt,
		}))
		.sort(
			(one, other) =>
				Number(one.last) - Number(other.last) ||
				(other.place ?? Number.NEGATIVE_INFINITY) - (one.place ?? Number.NEGATIVE_INFINITY) ||
				score(one.name) - score(other.name) ||
				one.index - other.index,
		);
	const ranks = new Map(order.map((part, rank) => [part.name, rank]));
	return part => ranks.get(part) ?? order.length;
}
