import { describe, expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import { nowAfter } from '../../src/day/now.ts';
import { notesOf } from '../../src/job/notes.ts';
import { freshEar, hears } from '../../src/voice/ear.ts';
import { rehearsed, start } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/**
 * A surface beyond the rows of the sheet's recoat table, 15 to 30 °C, and inside what the material allows: the windows are
 * the careful ones, and that is said.
 */

const told = { warnEarly_min: 10, warnLate_min: 2, overdue: false };
const notice = (side: string) => `Surface ${side} the sheet's recoat table: the careful times hold.`;

/** A day on parts of a temperature, at its first wait for a coat. */
function atWait(surface_C: number) {
	const day = rehearsed({ job: smallJob() });
	day.painter.world.air.C = surface_C;
	day.painter.world.air.surface_C = surface_C;
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	return day;
}

describe.each([
	['above', 33],
	['below', 13],
] as const)('a surface %s the table, %d °C', (side, surface_C) => {
	test('is said on the screen of the wait and by the voice, whole', () => {
		const line = atWait(surface_C).line();
		expect(line.say).toMatch(
			new RegExp(`^Wait \\d+ .*, extractor on: surface ${side} the sheet's table\\.$`),
		);
		expect(line.say.split(' ').length).toBeLessThanOrEqual(12);
		const { heard } = hears(freshEar, { ...line, rehearsal: true }, told);
		expect(heard.say).toBe(line.say);
	});

	test('opens nothing sooner and closes nothing later than the nearest row says', () => {
		const day = atWait(surface_C);
		const [set] = day.ofType('window.set').slice(-1);
		const laid = day.ofType('face.ended').find(({ face }) => face === set?.face);
		const hours = (iso: string | null | undefined) =>
			(Date.parse(iso ?? '') - Date.parse(laid?.at ?? '')) / 3_600_000;
		const spray = set?.windows.find(({ does }) => does === 'spray');
		expect(hours(spray?.from)).toBeGreaterThanOrEqual(0.75 - 1e-6);
		expect(hours(spray?.until)).toBeLessThanOrEqual(3 + 1e-6);
	});

	test('is told by `now` of each face that has more to come', () => {
		const day = atWait(surface_C);
		const at = Date.parse(day.line().at);
		expect(nowAfter(day.records(), at).map(({ beyond }) => beyond)).toEqual([side, side, side]);
		day.toEnd();
		const after = nowAfter(day.records(), Date.parse(day.line().at));
		expect(after.map(({ beyond, next }) => [next.may, beyond])).toEqual(after.map(() => ['nothing', null]));
	});

	test('is said by `check` where the shop is planned so', () => {
		const job = smallJob();
		const notes = notesOf({ ...job, shop: { ...job.shop, air_C: surface_C } }, 'metric');
		expect(notes).toContain(
			`shop: ${surface_C} °C is ${side} the recoat table of topcoat over topcoat, 15–30 °C: planned by its nearest row, nothing sooner`,
		);
	});
});

test('inside the table nothing of it is said', () => {
	const day = atWait(21);
	expect(day.line().say).toMatch(/: the coat flashes\.$/);
	expect(nowAfter(day.records(), Date.parse(day.line().at)).map(({ beyond }) => beyond)).toEqual([
		null,
		null,
		null,
	]);
	expect(notesOf(smallJob(), 'metric').filter(note => note.includes('recoat table'))).toEqual([]);
});

test('a reading that puts coats of yesterday beyond the table says so once, beside the next question', () => {
	const first = atWait(21);
	first.send('hold');
	first.pick('close');
	first.toEnd();
	const second = rehearsed({ before: historyAfter(first.records()), at: start + 60 * 60_000 });
	second.toState('air.surfaceC');
	expect(second.line().lines).not.toContain(notice('above'));
	const line = second.send('number 33');
	expect(line.lines[0]).toBe(notice('above'));
	const seen = [line];
	second.until(next => seen.push(next) > 12 || next.ask === 'closed');
	expect(seen.filter(({ lines, state }) => lines.includes(notice('above')) && state !== line.state)).toEqual(
		[],
	);
});
