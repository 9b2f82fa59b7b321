import { describe, expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import { parseJob } from '../../src/job/load.ts';
import { planJob } from '../../src/plan/job-plan.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { sheetOf, standardLists } from './courses/sheets.ts';
import { rehearsed } from './rehearsed.ts';

/** What waits until a coat is dry to handle or to tape, by the times of its data sheet, at the coldest read since. */

const [head = ''] = sheetOf({
	primer: { order: 'stir, base, hardener, cup' },
	stages: '  - { spray: primer, coats: [medium] }\n',
}).split('order: as written');
const lid = 'parts: [{ part: lid, shape: "panel, 50 x 30 x 2 cm", held: on points }]\n';
const sheet = (dry: string, more = '') =>
	`${head.replace('    sand after:', `    dry to: { ${dry} }\n    sand after:`)}${more}${lid}`;
function jobOf(text: string) {
	const loaded = parseJob(text, 'lid.yaml');
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	return loaded.job;
}
const lists = await standardLists();
const dayOf = (text: string) => rehearsed({ job: jobOf(text), lists, settings: { by: 'face' } });
type Day = ReturnType<typeof dayOf>;
const laidAt = (day: Day, id: string) =>
	Date.parse(day.ofType('face.ended').find(({ face }) => face === id)?.at ?? '');
const doneAt = (day: Day, step: string) =>
	Date.parse(day.ofType('stage.done').find(({ stage }) => stage === step)?.at ?? '');
const hours = (from: number, to: number) => (to - from) / 3_600_000;

describe('a coat is dry to handle when its data sheet says so', () => {
	test('no part is turned over before', () => {
		const day = dayOf(sheet('handle: 3 h at 21 °C'));
		day.toEnd();
		expect(hours(laidAt(day, 'lid/underside'), doneAt(day, 'turn over'))).toBeGreaterThanOrEqual(3);
		expect(day.findings()).toEqual([]);
	});

	test('longer where it was colder', () => {
		const day = dayOf(sheet('handle: [4 h at 16 °C, 2 h at 21 °C]'));
		Object.assign(day.painter.world.air, { C: 16, surface_C: 16 });
		day.toEnd();
		expect(hours(laidAt(day, 'lid/underside'), doneAt(day, 'turn over'))).toBeGreaterThanOrEqual(4);
	});

	test('nor in the plan', () => {
		const { stages } = planJob({ job: jobOf(sheet('handle: 3 h at 21 °C')), start: 0 });
		const turn = stages.find(({ name }) => name === 'turn over')?.faces[0]?.earliest_s ?? 0;
		const first = stages.find(({ verdict }) => verdict)?.verdict?.plan.end_s ?? 0;
		expect(turn).toBeGreaterThan(3 * 3600);
		expect(turn).toBeLessThan(first + 3 * 3600);
	});

	test.each([
		['tape comes off behind it', 'handle: 5 h at 21 °C', 'unmask: dry to handle', 'unmask', 5],
		['tape is laid on it no sooner', 'tape: 4 h at 21 °C', 'mask: yes', 'mask', 4],
	])('%s', (_, dry, step, done, dries_h) => {
		const text = sheet(dry).replace('[medium] }\n', `[medium] }\n  - { ${step} }\n`);
		const job = jobOf(text.replace('held: on points', 'held: hanging'));
		const day = rehearsed({ job, lists });
		day.toEnd();
		expect(day.ofType('stage.done').filter(({ stage }) => stage === done)).toEqual([]);
		const doneAfter = (after_h: number) => {
			const at = laidAt(day, 'lid/top') + after_h * 3_600_000;
			const later = rehearsed({ job, lists, at, before: historyAfter(day.records()) });
			later.toEnd();
			expect(checkDayFile(later.bytes(), [day.bytes()])).toEqual([]);
			return later.ofType('stage.done').some(({ stage }) => stage === done);
		};
		expect(doneAfter(dries_h - 1)).toBe(false);
		expect(doneAfter(dries_h + 0.5)).toBe(true);
	});

	test('parts are looked at where the sheet has it', () => {
		const text = sheet('handle: 3 h at 21 °C').replace('[medium] }\n', '[medium] }\n  - inspect\n');
		const day = dayOf(text.replace('held: on points', 'held: hanging'));
		day.until(({ state }) => state === 'prep.inspect');
		expect(day.line().say).toBe('Lid: inspect, 3 faces.');
		expect(day.line().corners.topLeft?.text).toBe('INSPECTED');
		day.toEnd();
		expect(day.ofType('stage.done').filter(({ stage }) => stage === 'inspect')).toHaveLength(3);
		expect(day.findings()).toEqual([]);
	});
});
