import { encodeKey } from '../../src/day/file/keep.ts';
import type { DayRecord } from '../../src/day/records.ts';
import type { Checklist } from '../../src/job/checklist.ts';
import { type Cause, codes, formsOf, type Spot } from './causes.ts';
import { type Effects, effectsFor } from './effects.ts';
import { type Pass, wrongWith } from './hidden.ts';
import { inspected, type Mark } from './inspecting.ts';
import { lotsOf } from './lots.ts';
import { playing } from './playing.ts';
import type { Shown } from './showing.ts';
import { recordThatSays } from './tells.ts';

/** One cause that was really there, where, and the record that says it. */
export type Planted = { cause: Cause; extent: Spot[]; saidBy: number | null };

export type PlantedDay = {
	seed: number;
	/** As the day file has it, the marks of the inspection behind it. */
	records: DayRecord[];
	/** The day file, byte by byte. */
	bytes: Uint8Array;
	passes: Pass[];
	truth: Planted[];
	/** What really shows, seen or not. */
	shown: Shown[];
	/** What the inspecting painter asks about first. */
	question: Mark;
	marks: Mark[];
};

/** Ways of one day that does not come to its cause are drawn again. */
const mostTries = 40;

/** One day in ten has two causes, one in ten has none. */
export function causesOf(seed: number): Cause[] {
	const lots = lotsOf(seed * 31 + 5);
	const drawn = lots.at('how many');
	const count = drawn < 0.1 ? 0 : drawn < 0.2 ? 2 : 1;
	const first = lots.below(codes.length, 'first');
	const second = (first + 1 + lots.below(codes.length - 1, 'second')) % codes.length;
	return [first, second].slice(0, count).flatMap(nth => {
		const code = codes[nth];
		return code ? [{ code, form: lots.pick<string>(formsOf[code], 'form', nth) }] : [];
	});
}

/** @throws Error where no way of the day comes to all its causes */
export function plantedDay(
	seed: number,
	lists: Checklist[],
	effects: Effects = effectsFor('faa'),
): PlantedDay {
	const causes = causesOf(seed);
	for (let attempt = 0; attempt < mostTries; attempt++) {
		const lots = lotsOf(seed * 64 + attempt);
		const { day, passes, isWhole, job } = playing(lots, causes, lists, seed);
		if (!isWhole) continue;
		const found = causes.map(cause => ({
			cause,
			extent: passes.filter(pass => wrongWith(pass).some(one => one.code === cause.code)),
		}));
		if (found.some(({ extent }) => extent.length === 0)) continue;
		const seen = inspected({ lots, job, passes, records: day.records(), effects });
		if (!seen) continue;
		const truth = found.map(({ cause, extent }) => ({
			cause,
			extent: extent.map(({ face, coat }) => ({ face, coat })),
			saidBy: recordThatSays(cause, extent, seen.records),
		}));
		const { added, ...looked } = seen;
		const bytes = Buffer.concat([day.bytes(), encodeKey(added, day.records().at(-1))]);
		return { seed, bytes, passes, truth, ...looked };
	}
	throw new Error(`seed ${seed} never came to ${causes.map(({ code }) => code).join(' and ')}`);
}
