import { expect, test } from 'vitest';
import { parseJob } from '../../../src/job/load.ts';
import { coats, dayOf, type Paint, sheetOf } from './sheets.ts';

/** Paint that could not be what its data sheet says, or not live until it is sprayed. */

test('ten to one in small amounts: no batch is offered of which the marks give a third too little hardener', async () => {
	const primer: Paint = {
		ratio: '10:1 by volume',
		reducer: '5%',
		order: 'stir, base, hardener, reducer, cup',
	};
	const day = await dayOf({ units: 'us', primer, stages: coats(1), parts: 'shelf' });
	day.toState('ready');
	const poured = day.ofType('batch.poured');
	const level = (component: string) => poured.findLast(one => one.component === component)?.level_mL ?? 0;
	const share = (level('hardener') - level('base')) / level('base');
	expect(Math.abs(share / 0.1 - 1)).toBeLessThanOrEqual(0.05 + 1e-6);
});

test('paint that stands longer than it lives is an error of the sheet', () => {
	const primer: Paint = {
		order: 'stir, base, hardener, stand, cup',
		potLife: '15 min at 21 °C',
		standing: '30 min',
	};
	const checked = parseJob(sheetOf({ primer, stages: coats(1) }), 'hatch.yaml');
	expect(checked.ok).toBe(false);
	expect(!checked.ok && checked.errors.map(({ says }) => says)).toEqual([
		expect.stringContaining('stands 30 min and lives 15 min'),
	]);
});

test('paint that dies in the heat of the day before it can be sprayed is not offered, with the reason, nor again and again', async () => {
	const primer: Paint = {
		order: 'stir, base, hardener, stand, cup',
		potLife: '20 min at 21 °C',
		standing: '15 min',
	};
	const day = await dayOf({ primer, stages: coats(1) });
	Object.assign(day.painter.world.air, { C: 30, surface_C: 30 });
	day.until(({ state }) => state.startsWith('mix.'));
	expect(day.line()).toMatchObject({ state: 'mix.too-short-lived', say: expect.stringContaining('lives') });
	expect(Object.values(day.line().corners).map(({ code }) => code)).toEqual(['read-again', 'clean-up']);
	expect(day.ofType('batch.started')).toEqual([]);
	day.pick('clean-up');
	day.toEnd();
	expect(day.ofType('batch.discarded')).toEqual([]);
	expect(day.findings()).toEqual([]);
});

test('a surface warmer than the recoat table does not shorten the wait that the table gives', async () => {
	const day = await dayOf({ stages: coats(2) });
	Object.assign(day.painter.world.air, { surface_C: 40 });
	day.toState('air.no');
	expect(day.line().lines.join()).toMatch(/^Surface 40 °C is over the 35 °C allowed/);
	for (const code of ['go-on', 'test-piece']) day.pick(code);
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	const ended = Date.parse(day.ofType('face.ended')[0]?.at ?? '');
	const [timer] = day.line().timers;
	expect(Date.parse(timer?.due ?? '') - ended).toBeGreaterThanOrEqual(20 * 60_000);
});
