import { expect, test } from 'vitest';
import { noHistory } from '../../src/day/history.ts';
import { openingRecord } from '../../src/day/open.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { settingsSchema } from '../../src/day/settings.ts';
import { type Corner, corners } from '../../src/day/view.ts';
import { painterOf } from '../../src/painter/painter.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { byKeys } from './by-keys.ts';

const start = Date.parse('2027-03-02T08:00:00Z');
const keyOf: Record<Corner, string> = { topLeft: 'e', topRight: 'i', bottomLeft: 'x', bottomRight: ',' };

/** A day in memory, answered by keys up to the air, which is outside the limits. */
function inBadAir() {
	const opening = { job: smallJob(), lists: smallLists(), settings: settingsSchema.parse({}) };
	const about = { clock: 'moved' as const, program: '0.0.0', before: noHistory, zone: 'UTC' };
	const records: DayRecord[] = [openingRecord({ ...opening, ...about }, { wall: start, mono: 0 })];
	const sink = {
		records: [...records],
		append: (made: readonly DayRecord[]) => void records.push(...made),
		close() {},
	};
	const day = byKeys(() => sink, start);
	const painter = painterOf(opening.job, () => day.session().state());
	for (let line = day.first(); line.state !== 'air.airC'; ) line = day.take(painter.answer(line) ?? 'hold');
	for (const number of [16, 71, 13]) day.take(`number ${number}`);
	/** Strikes the key of the corner that shows a code, a page at a time. */
	const strike = (code: string) => {
		for (let page = 0; page < 3; page++) {
			const { corners: shown } = day.session().view();
			const at = corners.find(corner => shown[corner]?.code === code);
			const more = corners.find(corner => shown[corner]?.code === 'more');
			day.pass(510);
			day.type(keyOf[at ?? more ?? 'topLeft']);
			day.pass(60);
			if (at) return;
		}
	};
	return { day, strike, given: () => records.filter(({ type }) => type === 'override.given') };
}

test('a reason in the painter’s own words goes from the keys into the record, and is asked for in full view', async () => {
	const { day, strike, given } = inBadAir();
	strike('go-on');
	strike('own-words');
	expect(await day.screen()).toContain('_ parts words, Enter keeps it.');
	day.pass(510);
	day.type('two_heaters_run_since_six\r');
	expect(given()).toMatchObject([
		{ rule: 'air', reason: 'two heaters run since six' },
		{ rule: 'air' },
		{ rule: 'air' },
	]);
});

test('hold in the middle of it holds, and nothing is overridden', () => {
	const { day, strike, given } = inBadAir();
	strike('go-on');
	strike('own-words');
	day.pass(510);
	day.type('two_heaters ');
	expect(day.session().view().state).toBe('hold');
	expect(given()).toEqual([]);
});
