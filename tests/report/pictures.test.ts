import { beforeAll, describe, expect, test } from 'vitest';
import type { DayRecord } from '../../src/day/records.ts';
import { reportAs } from '../../src/report/report.ts';
import { cartDay } from './cart-day.ts';
import { dayNamed, faults } from './hostile.ts';
import { overlaps, pictureTexts } from './text-boxes.ts';

const pageOf = (day: readonly DayRecord[]) => reportAs('html', { day, days: [day], faults, sheet: 'coats' });
/** The pictures' place at 360, 768 and 1280 px, and on A4. */
const widths_px = [328, 688, 736, 1088];

let page: string;
beforeAll(async () => {
	page = pageOf(await cartDay());
});

/** A picture of the page by its id. */
const picture = (id: string): string =>
	new RegExp(`<svg[^>]*aria-labelledby="${id}-title .*?\\n</svg>`, 's').exec(page)?.[0] ?? '';
const percentOf = (text: string | undefined): number => Number.parseFloat(text ?? 'NaN');

describe('no letters of a picture lie over others or outside it', () => {
	test.each(widths_px)('where pictures have %d px', width => {
		expect(pictureTexts(page, width).reduce((sum, { texts }) => sum + texts.length, 0)).toBeGreaterThan(150);
		expect(overlaps(page, width)).toEqual([]);
	});

	test.each([
		['long', 'a part with a very long name indeed, from the far end of the yard'],
		['wide', '漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字'],
	])('with a %s name', (_, name) => {
		const names = {
			job: name,
			part: name,
			face: name,
			material: name,
			reason: name,
			fault: 'dent',
			zone: 'UTC',
		};
		const named = pageOf(dayNamed(names));
		for (const width of widths_px) expect(overlaps(named, width), `${width} px`).toEqual([]);
	});

	test('and letters that do are found', () => {
		const svg = (x: number) =>
			`<svg role="img" width="100%"><title>t</title><text x="0" y="20">coat</text><text x="${x}" y="20">coat</text></svg>`;
		expect(overlaps(svg(10), 328)).toEqual(['t: "coat" over "coat"']);
		expect(overlaps(svg(40), 328)).toEqual([]);
		expect(overlaps(svg(320), 328)).toEqual(['t: "coat" outside']);
	});
});

describe('the parts drawn', () => {
	const tile = (face: string): string => {
		const [, id = ''] = new RegExp(`<title id="(face-\\d+)-title">${face}, drawn to scale`).exec(page) ?? [];
		return picture(id);
	};

	test('a face with a run has its sign, its words and its part in a frame; the others of it are set aside too', () => {
		expect(tile('right door outside')).toMatch(/class="mark fault"/);
		expect(tile('right door outside')).toMatch(/▲ a run, coat 2.*Set aside/s);
		expect(tile('right door edges')).toMatch(/Set aside/);
		expect(tile('left door edges')).not.toMatch(/Set aside|mark fault/);
		expect(page).toContain('<div class="part aside"><p>right door ✕ set aside</p>');
	});

	test('coats are filled marks: laid and to come, each with its number', () => {
		const marks = [...tile('left door edges').matchAll(/coat-mark (\w+)".*?<text[^>]*>(\d)</gs)];
		expect(marks.map(([, stands, number]) => `${number} ${stands}`)).toEqual([
			'1 all',
			'2 all',
			'3 due',
			'4 due',
			'5 due',
		]);
	});

	test('coats of a day before are told from those of today', async () => {
		const records = structuredClone(await cartDay());
		const [opened] = records;
		if (opened?.type !== 'day.opened') throw new Error('a day begins with its opening');
		const coat = { coat: 3, ended: opened.at, cup: ['A'], surfaceC: 20 };
		opened.before = { faces: { 'left door/edges': { coats: [coat], prep: [], aside: null } }, letters: 1 };
		expect(pageOf(records)).toMatch(/coat 3 laid on a day before/);
	});

	test('the three faces to be looked at first have the heaviest ring, a judged one has none', () => {
		expect(tile('wheel-arch cover outside')).toMatch(/class="ring first"/);
		expect(tile('corner box sides')).toMatch(/class="ring first"/);
		expect(page).toMatch(/class="ring (likely|other)"/);
		expect(tile('counter lid edges')).not.toMatch(/class="ring/);
		expect(page).toMatch(/to be looked at in this order: 1 [a-z -]+, 2 /);
		expect(page).not.toMatch(/not yet/);
	});

	test('film is told by shade where it is known, and not where no trigger and no gauge told of it', () => {
		expect(tile('right door outside')).toMatch(/class="shade runs"/);
		expect(tile('left door outside')).toMatch(/class="shade even"/);
		expect(tile('corner box sides')).toMatch(/class="shade unknown"/);
		expect(tile('corner box sides')).toMatch(/Film not known/);
	});
});

describe('the day drawn', () => {
	const rowOf = (name: string): string => {
		const chart = picture('day-1');
		const from = chart.indexOf(`>${name}</text>`, chart.indexOf('>right door</text>'));
		return chart.slice(from, chart.indexOf('class="row"', from + 20));
	};

	test('a fault stands at the coat that it is about, not at the hour when it was seen', async () => {
		const row = rowOf('outside');
		const [, coat] = [...row.matchAll(/<svg x="([\d.]+)%"[^>]*><g class="coat-mark/g)].map(([, x]) =>
			percentOf(x),
		);
		const fault = percentOf(/<svg x="([\d.]+)%"[^>]*><path[^>]*class="mark fault"/.exec(row)?.[1]);
		expect(Math.abs(fault - (coat ?? 0))).toBeLessThan(1);
	});

	test('a name stands on the line of its row', () => {
		const chart = picture('day-1');
		const name = Number(/y="([\d.]+)"[^>]*>lip<\/text>/.exec(chart)?.[1]);
		const mark = Number(
			/>lip<\/text>.*?<svg x="[\d.]+%" y="([\d.]+)"[^>]*><g class="coat-mark/s.exec(chart)?.[1],
		);
		expect(Math.abs(name - mark)).toBeLessThan(6);
	});

	test('the zone is named, and what is in doubt runs as a band over all rows with its hours', () => {
		const chart = picture('day-1');
		expect(chart).toContain('>Times in UTC</text>');
		expect(chart).toMatch(/\d\d:\d\d to \d\d:\d\d: a run</);
		const [, height = '0'] = /<rect[^>]*height="(\d+)"[^>]*class="band doubt"/.exec(chart) ?? [];
		expect(Number(height)).toBeGreaterThan(350);
		expect(chart).toMatch(/class="band break"/);
	});

	test('two materials have marks of two shapes', () => {
		const shapes = [...page.matchAll(/<li>.*?coat-mark all.*?<path d="([^"]+)"/g)].map(([, d]) => d);
		expect(shapes).toHaveLength(2);
		expect(new Set(shapes).size).toBe(2);
	});
});

test('the ridge chart has a scale up its side, and its highest place is named', () => {
	const chart = picture('fan-1');
	expect(chart).toMatch(/>ridge [\d.]+ mil<\/text>/);
	expect(chart.match(/>\d+ mil<\/text>/g)?.length).toBeGreaterThan(4);
	expect(chart).toContain('>across the strokes</text>');
});
