import { expect, test } from 'vitest';
import type { Line } from '../../src/day/rehearsal.ts';
import type { Job } from '../../src/job/job.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** The level that a pour reached, keyed as a line of the pot. */

type Day = ReturnType<typeof rehearsed>;

const at = (component: string, options: Parameters<typeof rehearsed>[0] = {}): Day => {
	const day = rehearsed(options);
	day.toState(`mix.level.${component}`);
	return day;
};
const codes = (day: Day) => {
	const { topLeft, topRight, bottomLeft, bottomRight } = day.line().corners;
	return [topLeft, topRight, bottomLeft, bottomRight].map(corner => corner?.code);
};
const poured = (day: Day) =>
	day.ofType('batch.poured').map(({ component, level_mL, found }) => [component, level_mL, found]);

test('three lines in their order, the level before among them, and BETWEEN: one key, and the record of the figure', () => {
	const day = at('hardener');
	expect(day.line()).toMatchObject({ ask: 'level', of: 'level_mL', unit: 'mL' });
	expect([
		['150', '218', '225', 'between'],
		['150', '225', '233', 'between'],
	]).toContainEqual(codes(day));
	expect(day.line().corners.topLeft?.text).toBe('150 mL');
	day.pick('225');
	expect(poured(day).at(-1)).toEqual(['hardener', 225, 'right']);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('POURED struck twice keys the level before the pour, and nothing goes on without the hardener', () => {
	const day = at('hardener');
	day.send('top-left');
	expect(poured(day).at(-1)).toEqual(['hardener', 150, 'short']);
	expect(day.line()).toMatchObject({ state: 'mix.pour', do: [{ code: 'pour', to: 225 }] });
});

test('of the three lines one alone passes: the one that was told', () => {
	for (const seed of [0, 1])
		for (const component of ['base', 'hardener', 'reducer'])
			for (const nth of [0, 1, 2]) {
				let told = '';
				const watch = (line: Line) => {
					for (const { code, to } of line.do) if (code === 'pour') told = String(to);
				};
				const day = at(component, { seed, watch });
				const line = codes(day)[nth] ?? '';
				const [asked, before] = [told, poured(day).length];
				day.pick(line);
				const passed = poured(day)[before]?.[2] === 'right';
				expect([line, passed]).toEqual([line, line === asked]);
			}
});

test('BETWEEN asks for the figure, and there the pot may be discarded', () => {
	const day = at('base');
	day.pick('between');
	expect(day.line()).toMatchObject({
		ask: 'number',
		of: 'level_mL',
		corners: { topLeft: { code: 'discard' } },
	});
	day.send('number 149');
	expect(poured(day).at(-1)).toEqual(['base', 149, 'right']);
});

test('the figure may be keyed at once; a weight always is', () => {
	const day = at('base');
	day.send('number 149');
	expect(poured(day).at(-1)).toEqual(['base', 149, 'right']);
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has a topcoat');
	const density_kg_per_L = { base: 1.2, hardener: 1, reducer: 0.9 };
	const byWeight: Job = {
		...job,
		materials: { topcoat: { ...topcoat, ratio: { ...topcoat.ratio, by: 'weight' }, density_kg_per_L } },
	};
	expect(at('base', { job: byWeight }).line()).toMatchObject({ ask: 'number', of: 'mass_g' });
});
