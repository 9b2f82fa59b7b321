import { expect, test } from 'vitest';
import type { DayRecord } from '../../src/day/records.ts';
import { trace } from '../../src/trace/trace.ts';
import { builtIn } from './built-in.ts';
import { makeCase } from './generator/case.ts';
import { tuning } from './generator/seeds.ts';

const started = (
	day: readonly DayRecord[],
	{ face, coat, seq }: { face: string; coat: number; seq: number },
) =>
	day.findLast(one => one.type === 'face.started' && one.face === face && one.coat === coat && one.seq < seq);

/** The same day, FINISHED keyed after a share of the time that it was keyed after. */
const sooner = (day: readonly DayRecord[], share: number): DayRecord[] =>
	day.map(record => {
		if (record.type !== 'face.ended' || record.estimated) return record;
		const from = Date.parse(started(day, record)?.at ?? record.at);
		return { ...record, at: new Date(from + share * (Date.parse(record.at) - from)).toISOString() };
	});

test('without a trigger line the seconds from START to FINISHED never tell of a film', () => {
	let compared = 0;
	for (let seed = tuning.from; seed < tuning.from + 24; seed++) {
		const { days, ...ask } = makeCase(seed);
		if (days.flat().some(({ type }) => type === 'trigger.on')) continue;
		const found = (on: DayRecord[][]) => {
			const { candidates } = trace({ ...ask, days: on }, builtIn);
			const film = candidates.filter(({ code }) => code.startsWith('film-too'));
			return film.map(({ code, told }) => [code, told]).sort();
		};
		for (const share of [0.02, 0.5])
			expect(found(days.map(day => sooner(day, share))), `seed ${seed}`).toEqual(found(days));
		compared++;
	}
	expect(compared).toBeGreaterThan(8);
});
