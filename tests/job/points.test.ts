import { describe, expect, test } from 'vitest';
import { parseJob } from '../../src/job/load.ts';
import { notesOf } from '../../src/job/notes.ts';
import { type Alteration, altered, complaintsOf, exampleText, placeOf } from './altered.ts';

const life = 'pot life: 4 h at 70 °F';
const flash = 'flash: { from: 45 min, to: 2 h, at: 70 °F, touch: [tacky, dry] }';
const lists =
	'flash: { from: [90 min at 10 °C, 45 min at 20 °C], to: [3 h at 10 °C, 2 h at 20 °C], touch: [tacky, dry] }';

function primerOf(text: string) {
	const loaded = parseJob(text, 'cart.yaml');
	if (!loaded.ok) throw new Error(JSON.stringify(loaded.errors));
	return loaded.job.materials.primer;
}

describe('times of a sheet that are lists of points', () => {
	test('a sheet without any has no clocks, nor has one whose time stands alone', () => {
		expect(primerOf(exampleText)).not.toHaveProperty('clocks');
	});

	test('pot life: the points, and the one nearest to a temperate shop where one time is wanted', () => {
		const primer = primerOf(altered(life, 'pot life: [48 h at 7 °C, 24 h at 20 °C, 8 h at 30 °C]'));
		const points = [
			{ at_C: 7, hours: 48 },
			{ at_C: 20, hours: 24 },
			{ at_C: 30, hours: 8 },
		];
		expect(primer?.clocks).toEqual({ potLife: points });
		expect(primer?.potLife).toEqual({ at_C: 20, hours: 24 });
	});

	test('flash: least and most, each by its own points, and the factor where the sheet writes one', () => {
		const text = altered(flash, lists).replace('    grit: 400\n', '    grit: 400\n    time factor: 2.5\n');
		const primer = primerOf(text);
		expect(primer?.clocks).toEqual({
			flash: {
				from: [
					{ at_C: 10, hours: 1.5 },
					{ at_C: 20, hours: 0.75 },
				],
				to: [
					{ at_C: 10, hours: 3 },
					{ at_C: 20, hours: 2 },
				],
			},
			factorPer10C: 2.5,
		});
		expect(primer?.flash).toEqual({ min_min: 45, max_min: 120, at_C: 20, touch: ['tacky', 'dry'] });
	});

	test('standing: the points, and the one nearest to a temperate shop; none is none', () => {
		const primer = primerOf(altered('standing: 15 min', 'standing: [30 min at 50 °F, 15 min at 70 °F]'));
		expect(primer?.clocks?.standing?.map(({ hours }) => hours)).toEqual([0.5, 0.25]);
		expect(primer?.standing_min).toBe(15);
	});

	test('a kind of coat has a flash of its own, by one time or by points', () => {
		const own = 'medium: { film: 1.0 mil, flash: { from: 20 min, to: 2 h, at: 20 °C } }';
		const primer = primerOf(altered('medium: { film: 1.0 mil }', own));
		expect(primer?.coats.medium?.flash).toEqual({
			from: [{ at_C: 20, hours: 20 / 60 }],
			to: [{ at_C: 20, hours: 2 }],
		});
		expect(primer?.clocks).toEqual({});
		expect(primer?.flash.min_min).toBe(45);
	});
});

const wrong: Alteration[] = [
	[
		'two times at one temperature',
		life,
		'pot life: [4 h at 70 °F, 2 h at 70 °F]',
		'[4 h at 70',
		/pot life: two times at one temperature; take one out$/,
	],
	[
		'a pot life that grows with warmth',
		life,
		'pot life: [4 h at 20 °C, 5 h at 30 °C]',
		'[4 h at 20',
		/pot life: a time grows longer with warmth; swap or mend them$/,
	],
	[
		'a flash that grows with warmth',
		flash,
		'flash: { from: [45 min at 10 °C, 50 min at 20 °C], touch: dry }',
		'[45 min at 10',
		/flash, from: a time grows longer with warmth/,
	],
	[
		'a list, and a temperature beside it',
		flash,
		'flash: { from: [45 min at 20 °C], at: 70 °F, touch: dry }',
		'70 °F, touch: dry',
		/flash, at: the list names its temperatures already; take "at" out$/,
	],
	[
		'a list and a time alone',
		flash,
		'flash: { from: [45 min at 20 °C], to: 2 h, touch: dry }',
		'2 h, touch: dry',
		/flash, from, to: write both as one time, or both as a list/,
	],
	[
		'a flash of one time without its temperature',
		flash,
		'flash: { from: 45 min, to: 2 h, touch: dry }',
		'{ from: 45 min, to: 2 h, touch: dry }',
		/flash, at is missing: write "at: …"$/,
	],
	[
		'a flash that ends before it begins where both have a point',
		flash,
		'flash: { from: [90 min at 10 °C, 45 min at 20 °C], to: [80 min at 10 °C, 70 min at 20 °C], touch: dry }',
		'[80 min at 10',
		/flash: ends \(to\) before it begins \(from\); swap them$/,
	],
	[
		'a flash of one kind of coat, without its temperature',
		'medium: { film: 1.0 mil }',
		'medium: { film: 1.0 mil, flash: { from: 20 min } }',
		'{ from: 20 min }',
		/coats, medium, flash, at is missing/,
	],
	[
		'a standing that grows with warmth',
		'standing: 15 min',
		'standing: [15 min at 50 °F, 20 min at 70 °F]',
		'[15 min at 50',
		/standing: a time grows longer with warmth/,
	],
	[
		'a standing in whose time the paint dies, at the temperature of its pot life',
		'standing: 15 min',
		'standing: [9 h at 10 °C, 5 h at 30 °C]',
		'[9 h at 10',
		/standing: stands .* and lives 4 h/,
	],
	['an empty standing', 'standing: 15 min', 'standing: []', '[]', /standing: found an empty list/],
	['an empty list', life, 'pot life: []', '[]', /pot life: found an empty list; at least 1 wanted$/],
	[
		'a point without a temperature',
		life,
		'pot life: [4 h at 70 °F, 2 h]',
		'2 h]',
		/pot life: .*a time at a temperature is wanted/,
	],
];

test.each(wrong)('%s is said once, in its place', (_, from, to, mark, says) => {
	const text = altered(from, to);
	const complaints = complaintsOf(text);
	expect(complaints).toHaveLength(1);
	expect(complaints[0]).toMatch(says);
	expect(complaints[0]).toMatch(new RegExp(`^${placeOf(text, mark)} `));
});

test.each([
	[
		'sand after: [24 h at 50 °F, 36 h at 70 °F]',
		['primer, sand after: grows longer with warmth; read its data sheet again'],
	],
	['sand after: [36 h at 50 °F, 24 h at 70 °F]', []],
	[
		'dry to: { tape: [2 h at 50 °F, 3 h at 70 °F] }',
		['primer, dry to, tape: grows longer with warmth; read its data sheet again'],
	],
])('%s: a time that hardens later in warmth is no mistake, and told', (line, notes) => {
	const loaded = parseJob(
		altered('sand after: [48 h at 65 °F, 24 h at 80 °F, 84 h at 58 °F]', line),
		'cart.yaml',
	);
	if (!loaded.ok) throw new Error(JSON.stringify(loaded.errors));
	expect(notesOf(loaded.job, 'us').filter(note => note.includes('warmth'))).toEqual(notes);
});
