import { describe, expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { airVerdict } from '../../src/trade/air.ts';
import { rehearsed } from './rehearsed.ts';

/** What is said where it is due, and asked nowhere. Sources: `src/day/asks/cautions.ts`. */

const sheet = 'checklists/example/coffee-cart.yaml';

async function cart() {
	const loaded = await loadJob(sheet);
	const listed = await loadLists({ lists: [] }, sheet);
	if (!loaded.ok || !listed.ok) throw new Error('the example does not load');
	return { job: loaded.job, lists: listed.lists };
}

const shown = ({ say, lines }: Line): string => [say, ...lines].join(' ');

describe('extract', () => {
	test('it stays on: said at the start of a wait, and where the day is closed', () => {
		const day = rehearsed();
		expect(shown(day.toState('wait'))).toMatch(/^Wait \d+ min, extractor on: the coat flashes\./);
		expect(shown(day.toState('finish.close'))).toContain('Extractor: on until the parts give off no vapour.');
	});

	test('said too where a day is closed early', () => {
		const day = rehearsed();
		day.toState('ready');
		day.send('hold');
		expect(shown(day.pick('close'))).toContain('Extractor: on until the parts give off no vapour.');
	});

	test('on at degreasing and at mixing', async () => {
		const day = rehearsed(await cart());
		const wiped = shown(day.toState('prep.wipe'));
		expect(wiped).toContain('Extractor and gloves on: a degreaser gives off vapour.');
		expect(wiped).toContain('Plastic: wipe it damp, never dry.');
		const mixed = shown(day.toState('mix.begin'));
		expect(mixed).toContain('Filter mask with A2-P3, goggles, gloves, extractor on; eye wash in reach.');
		expect(mixed).toMatch(/Tape the pot A\./);
	});
});

test('where a sheet names no gear for mixing, breathing gear is said all the same', () => {
	const said = shown(rehearsed().toState('mix.begin'));
	expect(said).toContain('Breathing gear, goggles, gloves, extractor on; eye wash in reach.');
});

test('can and pot are bonded while they are poured from: said at every pour', async () => {
	const pours: string[] = [];
	const watch = (line: Line) => void (line.state === 'mix.pour' && pours.push(shown(line)));
	const day = rehearsed({ ...(await cart()), watch });
	day.toState('ready');
	expect(pours.length).toBeGreaterThan(2);
	for (const said of pours) expect(said).toContain('Metal can and pot: bonded to earth while you pour.');
});

test('ear plugs are said at suit up, ten minutes before a wait ends', () => {
	const day = rehearsed();
	day.toState('wait');
	expect(shown(day.line())).not.toContain('ear plugs');
	for (let count = 0; count < 60 && !/Suit up/.test(shown(day.line())); count++) day.send('wait 1 min');
	expect(shown(day.line())).toContain('Suit up, mix: the batch takes');
	day.pick('mix');
	day.until(({ state }) => state === 'wait');
	expect(shown(day.line())).toContain('Suit up, ear plugs in.');
	expect(shown(day.line())).toMatch(/^Wait \d+ min, extractor on: /);
});

test('old paint counts as leaded or chromated at the first sanding of a job, and at no later one', async () => {
	const { job, lists } = await cart();
	const first = rehearsed({ job, lists });
	first.toEnd();
	const at = Date.parse(first.records().at(-1)?.at ?? '') + 72 * 3_600_000;
	const sandings: string[] = [];
	const watch = (line: Line) => void (line.state === 'prep.sand' && sandings.push(shown(line)));
	const second = rehearsed({ job, lists, before: historyAfter(first.records()), at, watch });
	watch(second.line());
	second.toState('prep.sand');
	second.pick('part-by-part');
	second.pick(job.parts[0]?.name ?? '');
	second.pick('done');
	second.toEnd();
	expect(sandings.length).toBeGreaterThan(1);
	expect(sandings[0]).toContain('Old paint: leaded or chromated until tested.');
	expect(sandings[0]).toContain('Vacuum or wet: no air hose, no dry broom.');
	expect(sandings.at(-1)).not.toContain('Old paint');
	expect(sandings.every(said => said.includes('Dust protection on: filter mask with P3.'))).toBe(true);
});

describe('every no for damp or cold says that no flame heater comes in', () => {
	const heater = 'No flame heater: spark, CO, water.';

	test.each([
		['damp', { humidity: 0.9 }],
		['cold air', { C: 5 }],
		['cold parts', { surface_C: 2 }],
	])('%s', (_what, air) => {
		const day = rehearsed();
		Object.assign(day.painter.world.air, air);
		expect(day.toState('air.no').lines).toContain(heater);
	});

	test('heat alone does not', () => {
		const day = rehearsed();
		Object.assign(day.painter.world.air, { C: 45, surface_C: 40, humidity: 0.2 });
		const { lines } = day.toState('air.no');
		expect(lines.length).toBeGreaterThan(0);
		expect(lines).not.toContain(heater);
	});

	test('the verdict tells damp and cold from hot', () => {
		const limits = { air_C: [15, 30], humidity_max: 0.8, margin_C: 3 } as const;
		const of = (airC: number, humidity: number, surfaceC: number) =>
			airVerdict({ airC, humidity, surfaceC }, { ...limits, air_C: [15, 30] }).dampOrCold;
		expect([of(20, 0.5, 20), of(35, 0.2, 35), of(10, 0.3, 20), of(20, 0.9, 29), of(20, 0.5, 10)]).toEqual([
			...[false, false, true, true, true],
		]);
	});
});
