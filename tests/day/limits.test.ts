import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** Where a rule begins to hold, on its very edge. */

type Day = ReturnType<typeof rehearsed>;

const withTopcoat = (more: object) => {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	return { ...job, materials: { topcoat: { ...topcoat, ...more } } };
};

/** A hold so long that the air is read again, and what is read. */
function airReadAgain(day: Day, airC: number): void {
	day.send('hold', 'wait 31 min');
	day.pick('back');
	day.toState('air.airC');
	day.send(`number ${airC}`, 'number 40', `number ${airC}`);
}

test.each([
	[210, true],
	[190, true],
	[212, false],
	[188, false],
])('a gauge wanted at 200 kPa may differ by five in a hundred: %d kPa fits, %j', (value, fits) => {
	const day = rehearsed({ settings: { readingTolerance: 0.05 } });
	day.toState('gunCheck.gauge');
	day.send(`number ${value}`);
	expect(day.ofType('reading.taken').at(-1)).toMatchObject({ feature: 'gauge', matched: fits });
});

test('pot life goes by the air in force when the hardener went in, and by any warmer read since', () => {
	const lifeAfter = (...airs: number[]) => {
		const day = rehearsed();
		day.until(({ state }) => state === 'mix.begin');
		for (const airC of airs) airReadAgain(day, airC);
		day.toState('ready');
		return day.line().timers.find(({ code }) => code === 'pot-life')?.left_s ?? 0;
	};
	const [cool, warm, between] = [lifeAfter(21), lifeAfter(31), lifeAfter(31, 21)];
	// A third for 10 °C warmer, where the sheet writes no factor.
	expect(warm / cool).toBeCloseTo(1 / 3, 1);
	expect(between / cool).toBeCloseTo(1, 1);
});

test('a cup that dies before the face is done is emptied, and the face sprayed from a fresh one', () => {
	const day = rehearsed({ job: withTopcoat({ potLife: { at_C: 21, hours: 0.5 } }) });
	day.toState('ready');
	day.send('hold', 'wait 26 min');
	day.toEnd();
	expect(day.ofType('cup.emptied').map(({ why }) => why)).toContain('too-old');
	for (const { facts } of day.ofType('face.started')) expect(facts?.lasts).toBe(true);
	expect(day.findings()).toEqual([]);
});

test.each([
	[3.9, 'wait'],
	[4.1, 'finish'],
])('a window that opens in %d h is %s: beyond four hours the day may end', (hours, leads) => {
	const windows = [
		{ does: 'wait' as const, from_h: 0, until_h: hours },
		{ does: 'spray' as const, from_h: hours, until_h: null },
	];
	const day = rehearsed({
		job: withTopcoat({ recoat: [{ under: 'topcoat', rows: [{ from_C: 15, to_C: 30, windows }] }] }),
	});
	day.until(({ state }) => state === 'wait' || state === 'finish');
	expect(day.line().state).toBe(leads);
});

test('the rest of a face broken off wants the strokes that are left, and the whole coat no more than one', () => {
	const day = rehearsed();
	day.toState('ready');
	const face = 'left door/flat';
	day.until(line => line.state === 'spraying' && line.face === face);
	const before_mL = day.state().book.cup_mL;
	day.send('wait 20 s', 'hold');
	day.pick('back');
	day.pick('part');
	// 700 mm across, 125 mm from stroke to stroke at the most, on both edges: seven strokes, two of them on.
	day.send('number 2');
	expect(day.state().book.cup_mL).toBeCloseTo(before_mL - 90 * (2 / 7), 6);
	day.until(line => line.state === 'spraying' && line.face === face);
	expect(day.ofType('face.started').at(-1)?.from).toBe('part');
	expect(day.ofType('face.started').at(-1)?.spray_s).toBeCloseTo((60 * 5) / 7, 6);
	day.send('wait 30 s');
	const loaded_mL = day.ofType('batch.loaded').reduce((sum, { volume_mL }) => sum + volume_mL, 0);
	day.pick('finished');
	const laid = day.ofType('face.ended').filter(({ extent }) => extent === 'all').length;
	expect(day.state().book.cup_mL).toBeCloseTo(loaded_mL - laid * 90, 6);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a surface hotter than the recoat table is given for shortens no wait', () => {
	const windows = [
		{ does: 'wait' as const, from_h: 0, until_h: 1 },
		{ does: 'spray' as const, from_h: 1, until_h: 8 },
		{ does: 'sand' as const, from_h: 8, until_h: null },
	];
	const rows = [{ from_C: 10, to_C: 25, windows }];
	const day = rehearsed({ job: withTopcoat({ recoat: [{ under: 'topcoat', rows }] }) });
	day.painter.world.air.surface_C = 35;
	day.until(({ state }) => state === 'wait');
	const { at } = day.ofType('face.ended').find(({ face }) => face === 'left door/edges') ?? { at: '' };
	const set = day.ofType('window.set').find(({ face }) => face === 'left door/edges');
	const hours = (iso: string | null | undefined) => (Date.parse(iso ?? '') - Date.parse(at)) / 3_600_000;
	expect(set?.windows.map(({ does, until }) => [does, until && hours(until)])).toEqual([
		['wait', 1],
		['spray', expect.closeTo(8 / 3, 5)],
		['sand', null],
	]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});
