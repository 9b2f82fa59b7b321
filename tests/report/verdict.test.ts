import { type DefaultTreeAdapterMap, parse } from 'parse5';
import { beforeAll, describe, expect, test } from 'vitest';
import { nowAfter } from '../../src/day/now.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { reportAs, summaryOf } from '../../src/report/report.ts';
import { daySentences } from '../../src/report/summary.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { loadFaults } from '../../src/trace/load-faults.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { playDay } from '../model/by-chance/days.ts';
import { cartDay } from './cart-day.ts';

type Node = DefaultTreeAdapterMap['node'];
type Element = DefaultTreeAdapterMap['element'];

function* elements(node: Node): Generator<Element> {
	if ('tagName' in node) yield node;
	if ('childNodes' in node) for (const child of node.childNodes) yield* elements(child);
}
const textOf = (node: Node): string =>
	'value' in node ? String(node.value) : 'childNodes' in node ? node.childNodes.map(textOf).join('') : '';
const attribute = (element: Element, name: string) => element.attrs.find(one => one.name === name)?.value;

const faults = loadFaults();
const summary = (day: readonly DayRecord[]) => summaryOf({ day, days: [day], faults }, 'us');
const pageOf = (day: readonly DayRecord[]) => [
	...elements(parse(reportAs('html', { day, days: [day], faults, sheet: 'coats', units: 'us' }))),
];

describe('a day with a run, a part set aside and dry spray seen the next morning', () => {
	let day: readonly DayRecord[];
	let said: string[];
	let page: Element[];
	beforeAll(async () => {
		day = await cartDay();
		said = summary(day);
		page = pageOf(day);
	});

	test('the page says it first, in the sentences of the summary, under done, look at and due next', () => {
		const [first] = page.filter(({ tagName }) => tagName === 'section');
		if (!first) throw new Error('no section');
		expect(attribute(first, 'aria-labelledby')).toBe('verdict');
		const inside = [...elements(first)];
		const heads = inside.filter(({ tagName }) => tagName === 'h3').map(textOf);
		expect(heads).toEqual(['Done', 'Look at', 'Due next']);
		const lines = inside.filter(({ tagName }) => tagName === 'li').map(textOf);
		expect(lines.length).toBeGreaterThan(8);
		// The summary's first sentence names the day, as the page's head does.
		expect(lines).toEqual(said.slice(1, lines.length + 1));
		const picture = page.findIndex(({ tagName }) => tagName === 'svg' || tagName === 'table');
		expect(page.indexOf(first)).toBeLessThan(picture);
	});

	test('what is done is told by stage, so that a day of primer alone is a whole one', () => {
		expect(said).toContain('Spray primer: 20 of 20 coats on.');
		expect(said).toContain('Spray topcoat: 0 of 30 coats on.');
		expect(page.map(textOf)[0]).not.toContain('before all was done');
	});

	test('what is seen is to be looked at, what was judged is done', () => {
		expect(said).toContain('Set aside: right door, run.');
		expect(said.find(text => text.startsWith('Run: '))).toMatch(/^Run: right door outside, coat 2, seen /);
		expect(said.find(text => text.startsWith('Dry spray: '))).toMatch(/canopy rail front, coat 2/);
		expect(said).toContain('Left door outside, coat 2: accepted.');
		expect(said).toContain('Over the sag limit: right door outside, coat 2.');
		expect(said.find(text => text.startsWith('Nothing seen against'))).toBe(
			'Nothing seen against: 8 of 10 faces begun.',
		);
	});

	test('a fault that was accepted since is looked at no more', () => {
		const last = day.at(-1);
		if (!last) throw new Error('no day');
		const face = 'canopy rail/front';
		const judged = { type: 'face.judged', face, coat: 2, verdict: 'cleared', reason: '' } as const;
		const later = summary([
			...day,
			{ ...judged, seq: last.seq + 1, run: last.run, at: last.at, mono: last.mono },
		]);
		expect(later.filter(text => text.startsWith('Dry spray: '))).toEqual([]);
		expect(later).toContain('Canopy rail front, coat 2: cleared.');
	});

	test('what is due is what the tables and the calendar have', () => {
		const { due } = tablesOf(day);
		const next = said.filter(text => /^(Next|Then): /.test(text));
		expect(next).toHaveLength(new Set(due.map(({ what, stage }) => `${what} ${stage}`)).size);
		const [first] = due;
		expect(next[0]).toContain(`${first?.at.slice(11, 13)}:`);
		expect(next.at(-1)).toMatch(/^Then: spray topcoat, 9 faces, from 4 March \d\d:\d\d\.$/);
	});

	test('its tables are folded, each under its name', () => {
		const tables = page.filter(({ tagName }) => tagName === 'table');
		expect(tables.length).toBeGreaterThan(10);
		for (const { parentNode } of tables) {
			const fold = parentNode && 'tagName' in parentNode ? parentNode : null;
			expect(fold?.tagName).toBe('details');
			expect(fold && attribute(fold, 'open')).toBeUndefined();
			const inside = fold ? [...elements(fold)] : [];
			const caption = inside.find(({ tagName }) => tagName === 'caption');
			const summaryText = inside.find(({ tagName }) => tagName === 'summary');
			expect(summaryText && textOf(summaryText)).toContain(caption && textOf(caption));
		}
	});
});

test('closed between two coats, the next one is due when and until when the day itself would have it', () => {
	const day = rehearsed({ at: Date.parse('2027-03-02T10:00:00Z') });
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	day.send('hold');
	for (const code of ['close', 'close']) day.pick(code);
	const records = day.records();
	const said = daySentences(records).find(text => text.startsWith('Next: '));
	const next = nowAfter(records, Date.parse(records.at(-1)?.at ?? '')).map(one => one.next);
	const first = Math.min(...next.flatMap(one => (one.may === 'wait' ? one.from : [])));
	const until = Math.min(...next.flatMap(one => (one.may === 'wait' && one.until !== null ? one.until : [])));
	const clock = (ms: number) => new Date(ms).toISOString().slice(11, 16);
	expect(said).toBe(`Next: coat 2, 3 faces, ${clock(first)} to ${clock(until)}.`);
});

test('a day on which nothing went wrong says so, and nothing that it cannot know', () => {
	const day = rehearsed();
	day.toEnd();
	const said = daySentences(day.records());
	expect(said.slice(1, 5)).toEqual([
		'Topcoat: 6 of 6 coats on.',
		'Nothing seen against: 3 of 3 faces begun.',
		'Look at: nothing that the records show.',
		'Next: nothing that the sheet asks for.',
	]);
	expect(said.join(' ')).not.toMatch(/\b(sound|safe|good|fine)\b/i);
});

test('no verdict on a day by chance is longer than 12 words a sentence', () => {
	const given = { jobs: [smallJob()], lists: smallLists() };
	for (let seed = 200; seed < 210; seed++)
		for (const text of summary(playDay(given, seed, 200).records))
			expect(text.split(/\s+/u).length, text).toBeLessThanOrEqual(12);
});
