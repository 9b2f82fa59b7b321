import { trace } from '../../src/trace/trace.ts';
import { builtIn } from './built-in.ts';
import { makeCase } from './generator/case.ts';

/** How the trace does on invented days whose one true cause is known. */
export type Score = {
	cases: number;
	causes: number;
	/** Cases in which the records can tell, by the generator's own word. */
	told: number;
	first: number;
	inThree: number;
	/** Cases whose truly affected faces are all in the exposed list. */
	held: number;
	/** … in the short list of the likeliest cause, where the records can tell. */
	heldByLikely: number;
	/** Mean of exposed ÷ affected, of likely ÷ affected, and of exposed ÷ all coats laid. */
	excess: number;
	excessOfLikely: number;
	shareOfAll: number;
	/** Cases in which the records cannot tell; said outright; naming what was not read, or right all the same. */
	untold: number;
	saidSo: number;
	named: number;
};

const key = ({ face, coat }: { face: string; coat: number }) => `${face}#${coat}`;

export function score({ from, count }: { from: number; count: number }): Score {
	const sum: Score = {
		cases: 0,
		causes: 0,
		told: 0,
		first: 0,
		inThree: 0,
		held: 0,
		heldByLikely: 0,
		excess: 0,
		excessOfLikely: 0,
		shareOfAll: 0,
		untold: 0,
		saidSo: 0,
		named: 0,
	};
	const causes = new Set<string>();
	for (let seed = from; seed < from + count; seed++) {
		const made = makeCase(seed);
		const found = trace({ days: made.days, fault: made.fault, face: made.face, coat: made.coat }, builtIn);
		const place = found.candidates.findIndex(({ code }) => code === made.cause);
		const within = (spots: typeof found.exposed) => {
			const all = new Set(spots.map(key));
			return made.affected.every(spot => all.has(key(spot)));
		};
		const laid = new Set(made.days.flat().flatMap(one => (one.type === 'face.started' ? [key(one)] : [])));
		sum.cases++;
		causes.add(made.cause);
		if (within(found.exposed)) sum.held++;
		sum.excess += found.exposed.length / made.affected.length / count;
		sum.shareOfAll += found.exposed.length / laid.size / count;
		if (made.tells) {
			sum.told++;
			if (place === 0) sum.first++;
			if (place >= 0 && place < 3) sum.inThree++;
			if (within(found.likely)) sum.heldByLikely++;
			sum.excessOfLikely += found.likely.length / made.affected.length;
		} else {
			sum.untold++;
			if (!found.told) sum.saidSo++;
			if (found.missing.length > 0 || place === 0) sum.named++;
		}
	}
	return { ...sum, causes: causes.size, excessOfLikely: sum.excessOfLikely / Math.max(1, sum.told) };
}
