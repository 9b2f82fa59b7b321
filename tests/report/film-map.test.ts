import { type DefaultTreeAdapterMap, parse } from 'parse5';
import { beforeAll, describe, expect, test } from 'vitest';
import type { DayRecord } from '../../src/day/records.ts';
import { placeAcross } from '../../src/report/pictures/panel.ts';
import { reportAs } from '../../src/report/report.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { cartDay } from './cart-day.ts';
import { faults } from './hostile.ts';

/** The film of a face, place by place, in the report: values worked out by hand or with another program, from the formulas. */

type Node = DefaultTreeAdapterMap['node'];
type Element = DefaultTreeAdapterMap['element'];

function* elements(node: Node): Generator<Element> {
	if ('tagName' in node) yield node;
	if ('childNodes' in node) for (const child of node.childNodes) yield* elements(child);
}
const textOf = (node: Node): string =>
	'value' in node ? String(node.value) : 'childNodes' in node ? node.childNodes.map(textOf).join('') : '';
const attribute = (element: Element, name: string) => element.attrs.find(one => one.name === name)?.value;

let day: DayRecord[];
beforeAll(async () => {
	day = await cartDay();
});
const rowOf = (face: string, coat: number) => {
	const row = tablesOf(day).map.find(one => one.face === face && one.coat === coat);
	if (!row) throw new Error(`no film of ${face}, coat ${coat}`);
	return row;
};

describe('the film over each face of the example, one coat of primer', () => {
	test.each([
		['right door/outside', 10, 0.9657, 1.0239],
		['corner box/sides', 7, 0.9924, 1.0186],
		['wheel-arch cover/outside', 5, 0.9154, 1.0485],
		['wheel-arch cover/lip', 1, 0.7692, 1.1235],
		['canopy rail/front', 2, 0.9782, 1.0175],
	])('%s: %s strokes, least and most of the film wanted', (face, strokes, least, most) => {
		const row = rowOf(face, 1);
		expect(row.by).toBe('planned');
		expect(row.wanted_wet_um).toBeCloseTo(63.5, 6);
		expect(row.mean_wet_um).toBe(row.wanted_wet_um);
		expect(row.strokes).toBe(strokes);
		expect(row.least_wet_um / row.wanted_wet_um).toBeCloseTo(least, 4);
		expect(row.most_wet_um / row.wanted_wet_um).toBeCloseTo(most, 3);
		expect([row.over, row.bare, row.over_sag]).toEqual([0, 0, 0]);
	});

	test('the fan turned wrong: ridges of almost four times the film, and half of the face bare', () => {
		const row = rowOf('right door/outside', 1);
		expect(row.turned_bare).toBeCloseTo(0.519, 3);
		expect(Math.abs(row.turned_times - 3.85)).toBeLessThan(0.005);
		expect(row.turned_wet_um).toBeCloseTo(row.turned_times * 63.5, 9);
	});

	test('5 % of a lip that one stroke is laid on gets under four fifths', () => {
		expect(rowOf('wheel-arch cover/lip', 1).under).toBeCloseTo(0.05, 2);
	});

	test('the map goes by the same balance as the plan', () => {
		const { map, film } = tablesOf(day);
		expect(map.length).toBe(film.length);
		for (const row of map.filter(({ by }) => by === 'planned')) {
			const planned = film.find(({ face, coat }) => face === row.face && coat === row.coat);
			expect(row.least_wet_um).toBe(planned?.planned_min_um);
			expect(row.most_wet_um).toBe(planned?.planned_peak_um);
		}
	});

	test('a trigger pulled longer lays more all over, and a film that was read goes before both', () => {
		const pulled = rowOf('right door/outside', 2);
		expect(pulled.by).toBe('pulls');
		expect(pulled.mean_wet_um / pulled.wanted_wet_um).toBeGreaterThan(1.5);
		expect(pulled.most_wet_um / pulled.mean_wet_um).toBeCloseTo(1.0239, 3);
		expect(pulled.over).toBe(1);
		expect(pulled.over_sag).toBeGreaterThan(0.5);
		const read = rowOf('left door/outside', 1);
		expect([read.by, read.mean_wet_um]).toEqual(['read', 74]);
		expect(read.least_wet_um / 74).toBeCloseTo(0.9657, 4);
	});
});

describe('its picture in the page', () => {
	let pictures: Element[];
	beforeAll(() => {
		const page = [...elements(parse(reportAs('html', { day, days: [day], faults, sheet: 'coats' })))];
		pictures = page.filter(element => /^map-\d+-title/.test(attribute(element, 'aria-labelledby') ?? ''));
	});
	const pictureOf = (title: string): Element => {
		const found = pictures.find(one =>
			[...elements(one)].some(
				({ tagName, childNodes }) => tagName === 'title' && childNodes.map(textOf).join('').includes(title),
			),
		);
		if (!found) throw new Error(`no picture says ${title}`);
		return found;
	};
	const bars = (picture: Element, kind: string) =>
		[...elements(picture)].filter(element => attribute(element, 'class') === `film ${kind}`);
	const widthOf = (element: Element) => Number.parseFloat(attribute(element, 'width') ?? '');

	test('faces whose film lies alike share one', () => {
		expect(textOf(pictureOf('left door edges, coat 1'))).toContain('right door edges, coat 1');
		expect(pictures.length).toBeLessThan(tablesOf(day).map.length);
	});

	test('it has a scale across the face and says its figures beside the curve', () => {
		const said = textOf(pictureOf('right door outside, coat 1'));
		expect(said).toMatch(/0 in.*10 in.*30 in/s);
		expect(said).toMatch(/mean 2\.50? mil, 2\.4–2\.6 mil/);
		expect(said).toMatch(/under 80 %: 0 ?%, over 120 %: 0 ?% of the face/);
		expect(said).toMatch(/ridge 9\.6 mil, 3\.8 times; bare 51\.9 ?%/);
	});

	test('the strip of the fan turned wrong is bare on half of the face, between ten ridges', () => {
		const bare = bars(pictureOf('right door outside, coat 1'), 'bare');
		expect(bare).toHaveLength(9);
		const across = placeAcross(1000) - placeAcross(0);
		expect((bare.reduce((sum, one) => sum + widthOf(one), 0) / across) * 100).toBeCloseTo(51.9, -0.5);
		expect(bare.every(one => attribute(one, 'fill') === 'none')).toBe(true);
	});

	test('each kind of film has a pattern of its own, so that it is told without its colour', () => {
		const fills = ['even', 'under', 'over', 'over-limit'].map(
			kind =>
				new Set(
					pictures.flatMap(one => bars(one, kind)).map(one => attribute(one, 'fill')?.replace(/.*-/, '')),
				),
		);
		expect(fills.map(one => [...one])).toEqual([['spray)'], ['scuff)'], ['sand)'], ['break)']]);
	});
});
