import fc from 'fast-check';
import { type DefaultTreeAdapterMap, parse } from 'parse5';
import { beforeAll, describe, expect, test } from 'vitest';
import { reportAs } from '../../src/report/report.ts';
import { cartDay } from './cart-day.ts';
import { dayNamed, faults, hostileNames } from './hostile.ts';

type Node = DefaultTreeAdapterMap['node'];
type Element = DefaultTreeAdapterMap['element'];

const isElement = (node: Node): node is Element => 'tagName' in node;

function* elements(node: Node): Generator<Element> {
	if (isElement(node)) yield node;
	if ('childNodes' in node) for (const child of node.childNodes) yield* elements(child);
}

const all = (text: string) => [...elements(parse(text))];
const attribute = (element: Element, name: string) => element.attrs.find(one => one.name === name)?.value;
const textOf = (node: Node): string =>
	'value' in node ? String(node.value) : 'childNodes' in node ? node.childNodes.map(textOf).join('') : '';

const fetching = [
	'src',
	'srcset',
	'href',
	'xlink:href',
	'action',
	'data',
	'poster',
	'background',
	'style',
	'formaction',
];
const forbidden = [
	'script',
	'img',
	'link',
	'iframe',
	'object',
	'embed',
	'base',
	'form',
	'image',
	'use',
	'foreignobject',
];

/** What in a page could fetch or run something. */
function dangers(page: Element[]): string[] {
	return page.flatMap(element => [
		...(forbidden.includes(element.tagName.toLowerCase()) ? [element.tagName] : []),
		...element.attrs
			.filter(
				({ name, value }) => name.startsWith('on') || (fetching.includes(name) && !value.startsWith('#')),
			)
			.map(({ name }) => `${element.tagName} ${name}`),
		...element.attrs
			.filter(({ value }) => /url\((?!#)/i.test(value))
			.map(({ name }) => `${element.tagName} ${name} url`),
	]);
}

const shape = (page: Element[]): string =>
	page.map(({ tagName, attrs }) => `${tagName} ${attrs.map(({ name }) => name).join(' ')}`).join('\n');

describe('the page of a day with breaks, readings that differed, a run and a part set aside', () => {
	let page: Element[];
	let text: string;
	beforeAll(async () => {
		const day = await cartDay();
		text = reportAs('html', { day, days: [day], faults, sheet: 'coats' });
		page = all(text);
	});
	const sectionNamed = (id: string): string => {
		const found = page.find(
			element => element.tagName === 'section' && attribute(element, 'aria-labelledby') === id,
		);
		return found ? textOf(found).replaceAll('\u00a0', ' ') : '';
	};

	test('fetches nothing and runs nothing', () => {
		expect(dangers(page)).toEqual([]);
		expect(text).not.toMatch(/@import|@font-face/);
	});

	test('every picture has a name, a description, and a table after it', () => {
		const shown = page.filter(element => attribute(element, 'aria-hidden') !== 'true');
		const pictures = shown.filter(
			({ tagName, parentNode }) =>
				tagName === 'svg' && !(parentNode && 'tagName' in parentNode && /^(svg|g)$/.test(parentNode.tagName)),
		);
		expect(pictures.length).toBeGreaterThanOrEqual(7);
		for (const picture of pictures) {
			const ids = (attribute(picture, 'aria-labelledby') ?? '').split(' ');
			const named = ids.map(id => page.find(element => attribute(element, 'id') === id));
			expect(named.map(element => element?.tagName)).toEqual(['title', 'desc']);
			for (const element of named) expect(element ? textOf(element).length : 0).toBeGreaterThan(15);
			const after = page
				.slice(page.indexOf(picture))
				.find(({ tagName }) => tagName === 'table' || tagName === 'h2');
			expect(after?.tagName, attribute(picture, 'aria-labelledby')).toBe('table');
		}
	});

	test('no two elements share an id, and every reference finds its own', () => {
		const ids = page.flatMap(element => attribute(element, 'id') ?? []);
		expect(new Set(ids).size).toBe(ids.length);
		const wanted = [...text.matchAll(/url\(#([^)]+)\)|href="#([^"]+)"/g)].map(
			([, one, other]) => one ?? other,
		);
		expect(wanted.filter(id => !ids.includes(id ?? ''))).toEqual([]);
	});

	test('every table has a caption, and heads for its columns and rows', () => {
		for (const one of page.filter(({ tagName }) => tagName === 'table')) {
			const inside = [...elements(one)];
			expect(inside.some(({ tagName }) => tagName === 'caption')).toBe(true);
			const columns = inside.filter(element => attribute(element, 'scope') === 'col').length;
			const rows = inside.filter(({ tagName }) => tagName === 'tr').length - 1;
			expect(inside.filter(element => attribute(element, 'scope') === 'row')).toHaveLength(rows);
			expect(inside.filter(({ tagName }) => tagName === 'td')).toHaveLength((columns - 1) * rows);
		}
	});

	test('a reading that differed shows both values', () => {
		expect(sectionNamed('readings')).toMatch(/gauge24 psi29 psi29 psi/);
		expect(sectionNamed('readings')).toMatch(/pattern(widetalltall|tallwidewide)/);
	});

	test('no figure of a table can part from its unit', () => {
		const cells = page.filter(element => element.tagName === 'td' || element.tagName === 'th').map(textOf);
		expect(cells.filter(text => /\d (mil|µm|s|psi|fl oz|°F|in)\b/.test(text))).toEqual([]);
		expect(cells.filter(text => /\d\u00a0(mil|s)\b/.test(text)).length).toBeGreaterThan(50);
	});

	test('an override stands with its reason', () => {
		expect(sectionNamed('overrides')).toContain(
			'overalls go to the laundry as they are; the tap at the door runs',
		);
	});

	test('a fault on a face is traced: where it began, what else got it, what was judged', () => {
		const said = sectionNamed('faults');
		expect(said).toMatch(/Where it began: a run on right door outside, coat 2/);
		expect(said).toContain('film too heavy');
		expect(said).toContain('accepted: a dimple near the hinge, hidden by the strap');
		expect(said).toMatch(/right door.*set|Set aside/);
	});

	test('a face pulled too long is said to run; of one that no trigger line tells of, only its time is said', () => {
		expect(sectionNamed('film')).toMatch(
			/right door outside, coat 2[^c]*40 s for 23 s *over its target, over the sag limit/,
		);
		expect(sectionNamed('film')).toMatch(
			/left door edges, coat 1\D*[\d.]+ mil[\d.]+ fl oz[\d.]+–[\d.]+ mil[\d.]+ mil\d+ s for \d+ s/,
		);
	});

	test('a day broken off at any record makes a page, without a figure that is none', async () => {
		const day = await cartDay();
		for (let length = 1; length < day.length; length += 29) {
			const some = day.slice(0, length);
			const broken = reportAs('html', { day: some, days: [some], faults, sheet: 'coats' });
			expect(dangers(all(broken))).toEqual([]);
			expect(broken).not.toMatch(/NaN|Infinity|undefined|Invalid Date/);
		}
	});

	test('the same day gives the same page', async () => {
		const day = await cartDay();
		expect(reportAs('html', { day, days: [day], faults, sheet: 'coats' })).toBe(text);
	});
});

test('names with markup, quotes and control characters change the words of a page and nothing else', () => {
	const plain = {
		job: 'job',
		part: 'part',
		face: 'face',
		material: 'paint',
		reason: 'why',
		fault: 'dent',
		zone: 'UTC',
	};
	const pageOf = (names: typeof plain) => {
		const day = dayNamed(names);
		return reportAs('html', { day, days: [day], faults, sheet: 'coats' });
	};
	const calm = shape(all(pageOf(plain)));
	fc.assert(
		fc.property(hostileNames, names => {
			// A name with a slash or none at all would be another part of the sheet: its marks are what is tested.
			const said = { ...names, part: `p${names.part.replaceAll('/', '_')}`, face: `f${names.face}` };
			const text = pageOf(said);
			const page = all(text);
			expect(dangers(page)).toEqual([]);
			expect(shape(page)).toBe(calm);
			expect(text).not.toMatch(/(?!\n)[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
		}),
		{ numRuns: 40 },
	);
});
