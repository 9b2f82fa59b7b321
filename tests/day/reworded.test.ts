import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import type { Checklist, ListItem } from '../../src/job/checklist.ts';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';
import { twoGuns } from './two-guns-job.ts';

/** A shop that words every item anew: what it wrote is what the painter reads, on every screen. */

const sheet = 'checklists/example/coffee-cart.yaml';
let job: Job;
let standard: Checklist[];
let shop: Checklist[];

const gapsIn = (text: string): string => text.match(/\{\w+\}/g)?.join(' ') ?? '';
const mark = (...name: string[]): string => `ZZZ ${name.join('.')}`;

/** The file of the shop: every sentence and every reason, each marked with its name. */
function shopFile({ list, items }: Checklist): string {
	const said = (item: ListItem, form: string, text: string) =>
		`"${mark(list, item.code, form)} ${gapsIn(text)}"`;
	const rows = items.flatMap(item => [
		`  - code: ${item.code}`,
		`    why: "${mark(list, item.code, 'why')}"`,
		...(item.say === null ? [] : [`    say: ${said(item, 'say', item.say)}`]),
		...(Object.keys(item.forms ?? {}).length === 0 ? [] : ['    forms:']),
		...Object.entries(item.forms ?? {}).map(([form, text]) => `      ${form}: ${said(item, form, text)}`),
	]);
	return `list: ${list}\nitems:\n${rows.join('\n')}\n`;
}

const namesIn = ({ list, items }: Checklist): string[] =>
	items.flatMap(item => [
		...(item.say === null ? [] : [mark(list, item.code, 'say')]),
		...Object.keys(item.forms ?? {}).map(form => mark(list, item.code, form)),
		mark(list, item.code, 'why'),
	]);

beforeAll(async () => {
	const loaded = await loadJob(sheet);
	const listed = await loadLists({ lists: [] }, sheet);
	if (!loaded.ok || !listed.ok) throw new Error('the example does not load');
	({ job } = loaded);
	standard = listed.lists;
	const folder = mkdtempSync(join(tmpdir(), 'reworded-'));
	for (const list of standard) writeFileSync(join(folder, `${list.list}.yaml`), shopFile(list));
	const worded = await loadLists(
		{ lists: standard.map(({ list }) => `${list}.yaml`) },
		join(folder, 'sheet.yaml'),
	);
	if (!worded.ok) throw new Error(worded.errors.map(({ says }) => says).join('\n'));
	shop = worded.lists;
});

type Day = ReturnType<typeof rehearsed>;
type Played = Parameters<typeof rehearsed>[0];

const isKept = ({ state }: Line) => state === 'spraying';

/** A day with a break in a face, broken off after a stroke, and in the pour, and with a can that is the wrong one. */
function playBroken(more: Played, shown: (line: Line) => void): Day {
	const day = rehearsed({ ...more, watch: shown });
	shown(day.line());
	day.toState('mix.can');
	const wrong = Object.values(day.line().corners).find(({ code }) => code !== 'ring')?.code ?? '';
	day.pick(wrong);
	day.until(({ state }) => state === 'mix.pour');
	day.send('hold', 'wait 1 min');
	day.pick('back');
	day.until(isKept);
	day.send('wait 5 s', 'hold', 'wait 1 min');
	day.pick('back');
	if (day.line().state === 'account.which-face') day.send('top-left');
	day.pick('part');
	day.send('number 1');
	day.toEnd();
	return day;
}

const byWeight = (sprayed: Job): Job => ({
	...sprayed,
	materials: Object.fromEntries(
		Object.entries(sprayed.materials).map(([id, material]) => [
			id,
			{
				...material,
				ratio: { ...material.ratio, by: 'weight' as const },
				density_kg_per_L: { base: 1.2, hardener: 1.1, reducer: 0.9 },
			},
		]),
	),
});

type Shown = { texts: string[]; watch: (line: Line) => void };

const watching = (): Shown => {
	const texts: string[] = [];
	return { texts, watch: ({ say, lines }) => void texts.push(say, ...lines) };
};

/** Both days of the example, and one by stretches. */
function playExample(lists: Checklist[], watch: Shown['watch']): void {
	const first = playBroken({ job, lists, seed: 0 }, watch);
	const before = historyAfter(first.records());
	const at = Date.parse(first.records().at(-1)?.at ?? '') + 14 * 3_600_000;
	rehearsed({ job, lists, before, at, seed: 1, watch }).toEnd();
	playBroken({ job, lists, seed: 1, settings: { by: 'stretch' } }, watch);
}

/** Small days: with pattern cards, by stretches, by weight, and of another second feature first. */
function playSmall(lists: Checklist[], watch: Shown['watch']): void {
	playBroken({ lists, settings: { cards: true, by: 'stretch' }, seed: 2 }, watch);
	playBroken({ lists, seed: 1 }, watch);
	playBroken({ job: byWeight(smallJob()), lists }, watch);
}

/** A pot that stands, and is not strained after it. */
const standing = (sprayed: Job): Job => ({
	...sprayed,
	materials: Object.fromEntries(
		Object.entries(sprayed.materials).map(([id, material]) => [
			id,
			{ ...material, order: ['base', 'hardener', 'reducer', 'stand'], standing_min: 5 },
		]),
	),
});

test('every sentence and every reason of the lists, worded anew by a shop, is met by some screen', async () => {
	const { texts: shown, watch } = watching();
	playExample(shop, watch);
	playSmall(shop, watch);
	for (const size of ['list.before-spraying', 'gunCheck']) {
		const day = rehearsed({ lists: shop, watch });
		for (const first of ['mask', ...(size === 'gunCheck' ? [] : ['ignition', 'fire'])]) {
			day.toState(`${size}.${first}`);
			const open = Object.values(day.line().corners).find(({ text }) => !text.includes(','));
			day.pick(open?.code ?? '');
		}
		day.toEnd();
	}
	rehearsed({ job: standing(smallJob()), lists: shop, watch }).toEnd();
	rehearsed({ job: (await twoGuns()).job, lists: shop, watch }).toEnd();
	const missed = shop
		.flatMap(namesIn)
		.filter(name => !shown.some(text => new RegExp(`^${name}( |$)`).test(text)));
	expect(missed).toEqual([]);
	expect(shown.filter(text => /[{}]/.test(text))).toEqual([]);
});

test('a day whose lists are of an older day is asked what is asked today', () => {
	const older = standard.map(({ items, ...list }) => ({
		...list,
		items: items.map(({ forms, say, ...item }) => ({
			...item,
			say: forms && !['stir', 'stir-pot', 'strain'].includes(item.code) ? 'Nobody was asked this.' : say,
		})),
	}));
	const [then, today] = [watching(), watching()];
	playSmall(older, then.watch);
	playSmall(standard, today.watch);
	expect(then.texts).toEqual(today.texts);
});
