import type { Job } from '../job/job.ts';
import { reducerFor, sameCoat } from './batches.ts';
import type { Pass } from './gun.ts';
import type { Coming, Later } from './paint-rule.ts';
import { openings } from './windows.ts';

/** The least wait before a coat over one of its own stage, s; Infinity: no window opens, or the sheet cannot say for such a surface. */
function waitFor_s(job: Job, { face, coat, count }: Pass, surface_C: number): number {
	if (face.coats[count - 2]?.stage !== coat.stage) return 0;
	try {
		const [first] = openings(job, face, count - 1, surface_C);
		return first ? first.from_h * 3600 : Number.POSITIVE_INFINITY;
	} catch (error) {
		if (error instanceof RangeError) return Number.POSITIVE_INFINITY;
		throw error;
	}
}

/**
 * The coats of a stage behind the one of a pass, as far as one mix serves them.
 * @param behind their passes, coat by coat in order
 * @param surface_C what the waits between them are taken at
 * @param wants what a pass takes
 */
export function coatsBehind(
	job: Job,
	{ coat: { material, kind } }: Pass,
	behind: readonly Pass[],
	surface_C: number,
	wants: (pass: Pass) => Coming,
): Later[] {
	const rounds: Pass[][] = [];
	for (const pass of behind) {
		const last = rounds.at(-1);
		if (last && sameCoat(last[0], pass)) last.push(pass);
		else rounds.push([pass]);
	}
	const reducer = reducerFor(job, { material, kind });
	const isSameMix = ({ coat }: Pass) => coat.material === material && reducerFor(job, coat) === reducer;
	const other = rounds.findIndex(passes => !passes.every(isSameMix));
	return rounds.slice(0, other < 0 ? rounds.length : other).map(passes => ({
		faces: passes.map(wants),
		wait_s: Math.max(...passes.map(pass => waitFor_s(job, pass, surface_C))),
	}));
}
