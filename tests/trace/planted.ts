import { trace } from '../../src/trace/trace.ts';
import { builtIn } from './built-in.ts';
import { makeCase } from './generator/case.ts';

/** How the trace does on invented days whose one true cause is known. */
export type Score = {
	cases: number;
	causes: number;
	first: number;
	inThree: number;
	/** Cases whose true cause is no candidate at all. */
	absent: number;
	/** By the word used: how often, and how often right. */
	words: Record<string, { said: number; right: number }>;
	/** Cases whose truly affected faces are all among those exposed. */
	held: number;
};

export function score({ from, count }: { from: number; count: number }): Score {
	const sum: Score = { cases: 0, causes: 0, first: 0, inThree: 0, absent: 0, words: {}, held: 0 };
	const causes = new Set<string>();
	for (let seed = from; seed < from + count; seed++) {
		const made = makeCase(seed);
		const found = trace({ days: made.days, fault: made.fault, face: made.face, coat: made.coat }, builtIn);
		const place = found.candidates.findIndex(({ code }) => code === made.cause);
		const faces = new Set(found.faces.map(({ face }) => face));
		const word = sum.words[found.word] ?? { said: 0, right: 0 };
		sum.cases++;
		causes.add(made.cause);
		word.said++;
		if (place === 0) word.right++;
		sum.words[found.word] = word;
		if (place === 0) sum.first++;
		if (place >= 0 && place < 3) sum.inThree++;
		if (place < 0) sum.absent++;
		if (made.affected.every(({ face }) => faces.has(face))) sum.held++;
	}
	return { ...sum, causes: causes.size };
}
