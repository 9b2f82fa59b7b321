import type { Face, Job } from '../../src/job/job.ts';
import { type Cause, spotKey } from './causes.ts';
import type { Effects } from './effects.ts';
import { type Pass, wrongWith } from './hidden.ts';
import type { Lots } from './lots.ts';

/** What shows of what went wrong: which kind, on which faces, on which coat it is seen. */

export type Shown = { face: string; coat: number; kind: string; cause: Cause };

/** Paint runs down what stands upright. */
const runs: readonly string[] = ['run', 'sag'];
/** Lies in a coat and shows in the one laid over it: trade facts, *as the next coat goes on*. */
const above: readonly string[] = ['wrinkling', 'lifting'];
/** Of a soft coat, or of one on a fault under it: what is laid over it is what shows. */
const soft: readonly string[] = ['no-hardener', 'wrong-ratio', 'wrong-can'];
const latent: readonly string[] = ['solvent-pop', 'pinholes'];

const faceOf = (job: Job, id: string): Face | undefined => job.faces.find(face => face.id === id);

const canShow = (job: Job, kind: string, { face }: Pass): boolean =>
	!runs.includes(kind) || faceOf(job, face)?.attitude === 'upright';

/** The coat that it is seen on. */
function seenOn({ coat }: Pass, kind: string, cause: Cause, last: number, lots: Lots): number {
	const isAbove = above.includes(kind) && soft.includes(cause.code);
	const isLatent = latent.includes(kind) && lots.is(0.3, 'latent');
	return isAbove || isLatent ? Math.min(last, coat + 1) : coat;
}

/** One kind of a cause by its weight. */
export function kindBy(effects: ReturnType<Effects>, share: number): string {
	const all = effects.reduce((sum, { weight }) => sum + weight, 0);
	let left = share * all;
	const found = effects.find(({ weight }) => {
		left -= weight;
		return left < 0;
	});
	return found?.kind ?? effects.at(-1)?.kind ?? 'other';
}

/** How many of the passes of a cause show it: somewhere from half to all of them, one figure a day. No source. */
export const showing = { low: 0.5, high: 1, secondKind: 0.25 } as const;

function shownOf(cause: Cause, passes: readonly Pass[], job: Job, effects: Effects, lots: Lots): Shown[] {
	const own = passes.filter(pass => wrongWith(pass).some(({ code }) => code === cause.code));
	const possible = effects(cause).filter(({ kind }) => own.some(pass => canShow(job, kind, pass)));
	if (possible.length === 0) return [];
	const isMixed = lots.is(showing.secondKind, 'second', cause.code);
	const kinds = ['first', 'second']
		.slice(0, isMixed ? 2 : 1)
		.map(nth => kindBy(possible, lots.at('kind', cause.code, nth)));
	const share = lots.between(showing.low, showing.high, 'share', cause.code);
	return own.flatMap(pass =>
		kinds
			.filter(
				(kind, nth) =>
					canShow(job, kind, pass) &&
					lots.is(nth === 0 ? share : share / 2, 'shows', cause.code, nth, spotKey(pass)),
			)
			.map(kind => {
				const last = Math.max(...passes.filter(({ face }) => face === pass.face).map(({ coat }) => coat));
				return { face: pass.face, coat: seenOn(pass, kind, cause, last, lots), kind, cause };
			}),
	);
}

export function shownOn(passes: readonly Pass[], job: Job, effects: Effects, lots: Lots): Shown[] {
	const found = new Map(passes.flatMap(wrongWith).map(cause => [cause.code, cause]));
	return [...found.values()].flatMap(cause => shownOf(cause, passes, job, effects, lots));
}
