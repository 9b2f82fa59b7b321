import type { Job } from '../job/job.ts';
import { type Pass, sameGun } from './gun.ts';
import { type Rates, sprayOf_s } from './pace.ts';

/**
 * Cuts a row of faces into stretches: faces that follow each other with nothing on the gun to touch between them.
 * @param faces `part/face` in the order sprayed
 * @param coatOf the coat that each gets, counted on its own face
 * @param maxSeconds longest stretch, s; a single face may be longer
 * @returns the stretches, in order, together exactly the faces given (unknown ones and uncoated ones left out)
 */
export function stretches(
	faces: readonly string[],
	job: Job,
	coatOf: (face: string) => number,
	maxSeconds = 240,
	rates: Rates = {},
): string[][] {
	const cut: { faces: string[]; last: Pass; seconds: number }[] = [];
	for (const id of faces) {
		const face = job.faces.find(each => each.id === id);
		const coat = face?.coats[coatOf(id) - 1];
		if (!face || !coat) continue;
		const pass = { face, coat, count: coatOf(id) };
		const seconds = sprayOf_s(pass, rates);
		const open = cut.at(-1);
		if (open && sameGun(open.last, pass) && open.seconds + seconds <= maxSeconds) {
			open.faces.push(id);
			open.seconds += seconds;
			open.last = pass;
		} else cut.push({ faces: [id], last: pass, seconds });
	}
	return cut.map(stretch => stretch.faces);
}
