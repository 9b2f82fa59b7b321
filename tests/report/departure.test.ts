import { describe, expect, test } from 'vitest';
import { buildOf, departureOf, departureSaid, type Filmed } from '../../src/report/pictures/departure.ts';
import { film } from '../../src/report/pictures/film.ts';
import { shadeOf } from '../../src/report/pictures/film-shade.ts';
import { overlaps } from './text-boxes.ts';

const base: Filmed = {
	face: 'left door/outside',
	coat: 1,
	target_wet_um: 50,
	sag_um: 120,
	laid_wet_um: 50,
	laid_low_wet_um: 45,
	laid_high_wet_um: 56,
	measured: [],
	build_target_dry_um: null,
};
const laid = (wet_um: number, more: Partial<Filmed> = {}): Filmed => ({
	...base,
	laid_wet_um: wet_um,
	laid_low_wet_um: wet_um * 0.9,
	laid_high_wet_um: wet_um * 1.1,
	...more,
});

describe('a film lies off its target where all that it may be off by does', () => {
	test.each([
		[50, 'on'],
		[54, 'on'],
		[57, 'heavy'],
		[44, 'light'],
		[46, 'on'],
		[125, 'runs'],
	] as const)('%d µm for 50 µm lies %s', (wet_um, lies) => {
		expect(departureOf(laid(wet_um))?.lies).toBe(lies);
	});

	test('a wet reading goes before what was worked out; a dry one says nothing of one coat', () => {
		const wet = { at: '', by: 'comb', dry_um: null, wet_um: 75 };
		expect(departureOf(laid(50, { measured: [wet] }))).toMatchObject({
			share: 1.5,
			lies: 'heavy',
			read: true,
		});
		const dry = { at: '', by: 'gauge', dry_um: 75, wet_um: null };
		expect(departureOf(laid(50, { measured: [dry] }))).toMatchObject({ share: 1, lies: 'on', read: false });
	});

	test('without a trigger line and without a gauge there is none', () => {
		const unknown = { laid_wet_um: null, laid_low_wet_um: null, laid_high_wet_um: null };
		expect(departureOf(laid(50, unknown))).toBeNull();
		expect(shadeOf(null)).toBe('unknown');
	});

	test('flat work does not run, however heavy', () => {
		expect(departureOf(laid(500, { sag_um: null }))?.lies).toBe('heavy');
	});
});

test('a dry gauge is set against the whole build under it', () => {
	const read = (dry_um: number, build_target_dry_um: number | null = 80) =>
		buildOf(
			laid(50, { coat: 2, build_target_dry_um, measured: [{ at: '', by: 'gauge', dry_um, wet_um: null }] }),
		);
	expect(read(80)).toMatchObject({ share: 1, lies: 'on', target_um: 80 });
	expect(read(68)?.lies).toBe('on');
	expect(read(56)?.lies).toBe('light');
	expect(read(80, null)).toBeNull();
	expect(buildOf(laid(50, { build_target_dry_um: 80 }))).toBeNull();
});

test('what lies off its target is said beside it', () => {
	const said = (wet_um: number) => {
		const found = departureOf(laid(wet_um));
		return found && departureSaid(found, 'metric');
	};
	expect(said(50)).toBe('50 µm');
	expect(said(60)).toBe('60 µm, 120% of target');
	expect(said(110)).toBe('110 µm, 2.2 × target');
	expect(said(125)).toBe('125 µm, 2.5 × target, runs');
});

test('the thicker a film against its target, the darker its shade', () => {
	const shades = [20, 40, 50, 65, 100, 125].map(wet_um => shadeOf(departureOf(laid(wet_um))));
	expect(shades).toEqual(['thin', 'lean', 'even', 'rich', 'thick', 'runs']);
});

describe('film drawn', () => {
	const rows = [
		laid(40, { face: 'a/thin' }),
		laid(80, { face: 'a/thick' }),
		laid(50, { face: 'a/even' }),
		laid(60, { face: 'a/even', coat: 2 }),
	];
	const { markup } = film(rows, 'metric');
	const panels = markup.split('<svg ').slice(1);

	test('there is a small picture for each coat, its heaviest face first', () => {
		expect(panels).toHaveLength(2);
		const names = [...(panels[0] ?? '').matchAll(/class="row">(a \w+)</g)].map(([, name]) => name);
		expect(names).toEqual(['a thick', 'a even', 'a thin']);
	});

	test('all stand on one scale, a film on its target at its mark', () => {
		const target = panels.map(panel => /x1="([\d.]+)"[^>]*class="target"/.exec(panel)?.[1]);
		expect(target[0]).toBe(target[1]);
		const dots = [...(panels[0] ?? '').matchAll(/class="laid-dot (\w+)" transform="translate\(([\d.]+)/g)];
		expect(dots.map(([, lies]) => lies)).toEqual(['heavy', 'on', 'light']);
		expect(dots[1]?.[2]).toBe(target[0]);
		const [heavy, on, light] = dots.map(([, , x]) => Number(x));
		expect(heavy).toBeGreaterThan(on ?? 0);
		expect(light).toBeLessThan(on ?? 0);
	});

	test('each row has its interval, its limit and its film beside it', () => {
		expect(panels[0]?.match(/class="interval"/g)).toHaveLength(3);
		expect(panels[0]?.match(/class="sag"/g)).toHaveLength(3);
		expect(panels[0]).toContain('>80 µm</text>');
	});

	test('where the films lie far apart, the figures of the scale do not', () => {
		const far = film([laid(8, { face: 'a/thin' }), laid(390, { face: 'a/thick' })], 'metric').markup;
		expect(far).toContain('>target</text>');
		expect(overlaps(far, 328)).toEqual([]);
	});
});
