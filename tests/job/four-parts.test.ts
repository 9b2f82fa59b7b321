import { expect, test } from 'vitest';
import { parseJob } from '../../src/job/load.ts';
import { solidsOf } from '../../src/job/on-work.ts';
import { altered, complaintsOf } from './altered.ts';

/** A topcoat of four parts and of five, in the example sheet. */
const order = '[stir, base, hardener, reducer, strain, cup]';
const withParts = (ratio: string, steps: string) =>
	altered('2:1:1 by volume', ratio).replace(order, () => steps);
const topcoatOf = (text: string) => {
	const loaded = parseJob(text, 'cart.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(({ says }) => says).join(', '));
	const { topcoat } = loaded.job.materials;
	if (!topcoat) throw new Error('the example has a topcoat');
	return topcoat;
};
const four = () =>
	topcoatOf(
		withParts('8:2:2:1 accelerator by volume', '[stir, base, hardener, accelerator, reducer, strain, cup]'),
	);

test('accelerator and flattener are a number each in the ratio, and a step each in the order', () => {
	const topcoat = four();
	expect(topcoat.ratio).toEqual({ by: 'volume', base: 8, hardener: 2, accelerator: 1 });
	expect(topcoat.reducer_parts).toBe(2);
	expect(topcoat.order.join(' ')).toBe('stir base hardener accelerator reducer stir strain cup');
	const five = topcoatOf(
		withParts(
			'8:2:2:1 accelerator:4 flattener by volume',
			'[stir, base, flattener, hardener, reducer, accelerator, strain, cup]',
		),
	);
	expect(five.ratio).toEqual({ by: 'volume', base: 8, hardener: 2, accelerator: 1, flattener: 4 });
	expect(five.order.join(' ')).toBe('stir base flattener hardener reducer accelerator stir strain cup');
});

test('solids are of all parts but the reducer: of 8:2:2:1 eleven thirteenths', () => {
	const topcoat = four();
	expect(solidsOf(topcoat, 2)).toBeCloseTo((topcoat.solids * 11) / 13, 12);
});

test('a ratio by weight wants the density of every can that it names', () => {
	const light = (density: string) =>
		withParts(
			`8:2:2:1 accelerator by weight\n    density: ${density}`,
			'[stir, base, hardener, reducer, accelerator, strain, cup]',
		);
	const three = 'base: 1.2 kg/L, hardener: 1 kg/L, reducer: 0.87 kg/L';
	expect(complaintsOf(light(`{ ${three} }`)).join()).toMatch(
		/density, accelerator is missing: write "accelerator: 0.87 kg\/L"$/,
	);
	expect(topcoatOf(light(`{ ${three}, accelerator: 0.9 kg/L }`)).density_kg_per_L).toEqual({
		base: 1.2,
		hardener: 1,
		reducer: 0.87,
		accelerator: 0.9,
	});
});

test.each([
	['accelerator: 1 part', /accelerator.*ratio/],
	['matting agent: 1 part', /matting agent.*ratio/],
])('a key "%s" beside the ratio is pointed to it', (line, says) => {
	expect(
		complaintsOf(altered('    ratio: 2:1:1 by volume', `    ${line}\n    ratio: 2:1:1 by volume`)).join(),
	).toMatch(says);
});

test('more flattener than twice base and hardener is refused, once', () => {
	const text = withParts(
		'2:1:1:7 flattener by volume',
		'[stir, base, flattener, hardener, reducer, strain, cup]',
	);
	expect(complaintsOf(text)).toEqual([
		expect.stringMatching(
			/material topcoat, flattener: found 7 parts; allowed: up to 6, twice base and hardener$/,
		),
	]);
});
