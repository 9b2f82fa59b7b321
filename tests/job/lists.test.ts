import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type Checklist, type ListName, listNameSchema } from '../../src/job/checklist.ts';
import { errorLine } from '../../src/job/errors.ts';
import { closed, mostItems } from '../../src/job/list-additions.ts';
import { builtIn, loadLists } from '../../src/job/lists.ts';

/** Lists in force with one file of the shop's own, or the complaints about it. */
async function withShop(text: string): Promise<Checklist[] | string[]> {
	const folder = mkdtempSync(join(tmpdir(), 'lists-'));
	writeFileSync(join(folder, 'shop.yaml'), text);
	const loaded = await loadLists({ lists: ['shop.yaml'] }, join(folder, 'sheet.yaml'));
	if (loaded.ok) return loaded.lists;
	return loaded.errors.map(error => errorLine(error).replace(`${folder}/`, ''));
}

async function standard(): Promise<Checklist[]> {
	const loaded = await loadLists({ lists: [] }, 'sheet.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.lists;
}

const codesOf = (lists: readonly (Checklist | string)[], name: ListName): string[] =>
	lists.flatMap(one =>
		typeof one !== 'string' && one.list === name ? one.items.map(({ code }) => code) : [],
	);

const ownItem = (list: string, more = '') => `list: ${list}
items:
  - code: hose
    say: "Hose: run a hand along it. What is there?"
    answers:
      - { code: sound, shows: SOUND, passes: yes }
      - { code: worn, shows: WORN, passes: no }
${more}`;

test('the gun check follows the walk: breathing first, the pattern last, six items at most', async () => {
	const codes = codesOf(await standard(), 'gun-check');
	expect(codes).toEqual(['mask', 'extractor', 'batch', 'gauge', 'second', 'pattern']);
});

test('with the question after a break the check has seven items', async () => {
	const lists = await standard();
	expect(codesOf(lists, 'after-a-break').concat(codesOf(lists, 'gun-check'))).toHaveLength(7);
});

test('a batch is strained out of the pot it was mixed in, and its letter goes with it', async () => {
	const mixing = (await standard()).find(({ list }) => list === 'mixing');
	const say = mixing?.items.find(({ code }) => code === 'strain')?.say;
	expect(say).toMatch(/into a clean pot; move the tape over/);
});

test('every sentence is 12 words at most', async () => {
	const items = (await standard()).flatMap(list => list.items);
	const said = items.flatMap(({ say, forms = {} }) => [
		...(say === null ? [] : [say]),
		...Object.values(forms),
	]);
	for (const text of said) expect(text.split(/\s+/).length, text).toBeLessThanOrEqual(12);
	expect(said).toHaveLength(44);
});

/** Lists that take an item more, and how many they hold. */
const open = Object.entries(mostItems);

test.each(open)('an item is added to the lines of %s, up to %i, and no further', async (list, most) => {
	const text = readFileSync(`checklists/${list}.yaml`, 'utf8');
	const full = text.match(/^ {2}- code:/gm)?.length ?? 0;
	const item = (code: number) =>
		`  - code: own-${code}\n    say: "Hose: what is there?"\n    answers:\n      - { code: sound, shows: SOUND, passes: yes }\n`;
	const withMore = (count: number) =>
		builtIn(text + Array.from({ length: count }, (_, index) => item(index)).join(''), `${list}.yaml`);
	expect(withMore(most - full)).toMatchObject({ list, items: { length: most } });
	expect(withMore(most - full + 1)).toMatchObject([{ says: expect.stringContaining(`at most ${most} fit`) }]);
});

test('every list takes an item more, or says where it goes instead', () => {
	const lists = [...Object.keys(mostItems), ...Object.keys(closed)];
	expect(lists.sort()).toEqual([...listNameSchema.options].sort());
});

test('a filter mask passes only where no material has isocyanate, and breathing gear has no override', async () => {
	for (const { items } of await standard())
		for (const item of items.filter(({ code }) => code === 'mask')) {
			expect(item.overridable).toBe(false);
			expect(item.answers?.map(({ code, passes }) => `${code} ${passes}`)).toEqual([
				'supplied-air yes',
				'filter-mask unless-isocyanate',
				'none no',
			]);
		}
});

test('each asked item can be passed and can be left open', async () => {
	for (const { items } of await standard())
		for (const { code, answers } of items.filter(item => item.answers)) {
			const passes = answers?.map(answer => answer.passes);
			expect(passes, code).toContain('yes');
			expect(passes, code).toContain('no');
		}
});

test("no list calls anything safe or counts down to a mask's end", async () => {
	const said = (await standard()).flatMap(({ items }) => items.flatMap(({ say, why }) => [say, why ?? '']));
	expect(said.join(' ')).not.toMatch(/\bsafe(ly)?\b|mask (may|can) come off|air is clear/i);
});

test('a shop adds an item to the end of a list, or before one that it names', async () => {
	expect(codesOf(await withShop(ownItem('before-spraying')), 'before-spraying').at(-1)).toBe('hose');
	const early = codesOf(await withShop(ownItem('clean-up', '    before: bled\n')), 'clean-up');
	expect(early.indexOf('hose')).toBe(early.indexOf('bled') - 1);
});

test('an item added to the gun check stands before the pattern, when another is taken out for it', async () => {
	const lists = await withShop(ownItem('gun-check', 'take out: [gauge]\n'));
	expect(codesOf(lists, 'gun-check')).toEqual(['mask', 'extractor', 'batch', 'second', 'hose', 'pattern']);
});

test('a seventh item of the gun check is refused, with the remedy', async () => {
	expect(await withShop(ownItem('gun-check'))).toEqual([
		'shop.yaml:1:7: gun-check: 7 items; at most 6 fit: take one out with "take out"',
	]);
});

test.each([
	['gun-check', 'pattern', 'which way the fan lies'],
	['gun-check', 'batch', 'what is in the cup'],
	['gun-check', 'mask', 'too late'],
	['before-spraying', 'mask', 'without breathing gear'],
	['before-spraying', 'cans', 'cannot be told apart'],
	['before-spraying', 'supply', 'until it is breathed'],
	['before-spraying', 'extractor', 'where you breathe'],
	['before-spraying', 'ignition', 'one spark'],
	['before-spraying', 'fire', 'a protected area'],
	['before-spraying', 'help', 'nobody looks in'],
	['gun-check', 'extractor', 'shut off in the wait'],
	['clean-up', 'bled', 'a mist of the solvent'],
	['clean-up', 'waste', 'heats itself'],
	['clean-up', 'rags', 'catch fire'],
	['mixing', 'can', 'the wrong can'],
	['mixing', 'level', 'hardener was not read'],
	['mixing', 'stir-pot', 'never cures'],
	['after-a-break', 'last-face', 'laid twice'],
])('%s: %s cannot be taken out, and the error says why', async (list, code, why) => {
	const said = await withShop(`list: ${list}\ntake out: [${code}]\n`);
	expect(said).toHaveLength(1);
	expect(said[0]).toMatch(new RegExp(`^shop\\.yaml:2:12: take out: ${code} stays in ${list}: .*${why}`));
});

test('a shop words a known item in its own way and keeps its answers', async () => {
	const lists = await withShop('list: gun-check\nitems:\n  - { code: mask, say: "Hood: what feeds it?" }\n');
	const mask = lists.flatMap(one =>
		typeof one === 'string' || one.list !== 'gun-check' ? [] : one.items,
	)[0];
	expect(mask?.say).toBe('Hood: what feeds it?');
	expect(mask?.answers).toHaveLength(3);
});

test.each([
	[
		'answers of a known item',
		'list: gun-check\nitems:\n  - code: mask\n    answers: [{ code: ok, shows: OK, passes: yes }]\n',
		/^shop\.yaml:4:14: item mask, answers: only the wording/,
	],
	[
		'a name to be filled in that nobody knows',
		'list: after-a-break\nitems:\n  - { code: last-face, say: "{fase}: how much of coat {coat}?" }\n',
		/^shop\.yaml:3:29: item last-face, say: found "\{fase\}"; allowed: \{face\}, \{coat\}; nearest: \{face\}$/,
	],
	[
		'a sentence without the name that it needs',
		'list: mixing\nitems:\n  - { code: can, say: "Which mark is on the can?" }\n',
		/^shop\.yaml:3:23: item can, say: \{component\} is missing; write it as in "\{component\}: take/,
	],
	[
		'a name where nothing is filled in',
		'list: gun-check\nitems:\n  - { code: gauge, say: "Gauge of {face}: what?" }\n',
		/^shop\.yaml:3:25: item gauge, say: found "\{face\}"; nothing is filled in here$/,
	],
	[
		'a brace that is not shut',
		'list: mixing\nitems:\n  - { code: can, say: "{component: which mark?" }\n',
		/^shop\.yaml:3:23: item can, say: a brace stands alone; write it as in/,
	],
	[
		'a form that is not asked',
		'list: gun-check\nitems:\n  - code: second\n    forms:\n      horn: "Horns: how?"\n',
		/^shop\.yaml:5:7: item second, forms: found "horn"; allowed: horns, .*nearest: horns$/,
	],
	[
		'one sentence for an item of several forms',
		'list: gun-check\nitems:\n  - { code: second, say: "Gun: what?" }\n',
		/^shop\.yaml:3:26: item second, say: it is asked by its forms: horns, pattern-height, flooded$/,
	],
	[
		'forms of an item that is asked in one way',
		'list: clean-up\nitems:\n  - { code: cap, forms: { tip: "Cap: how?" } }\n',
		/^shop\.yaml:3:27: item cap, forms: it is asked in one way; write "say"$/,
	],
	[
		'no answers',
		'list: clean-up\nitems:\n  - { code: hose, say: Hose? }\n',
		/^shop\.yaml:3:5: item hose, answers is missing/,
	],
	[
		'no answer that passes',
		'list: clean-up\nitems:\n  - { code: hose, say: Hose?, answers: [{ code: no, shows: NO, passes: no }] }\n',
		/^shop\.yaml:3:40: answers: none of them passes/,
	],
	[
		'a misspelt list',
		'list: gun-chek\n',
		/^shop\.yaml:1:7: list: found "gun-chek"; allowed: .*; nearest: gun-check$/,
	],
	[
		'a misspelt key',
		'list: clean-up\ntakeout: [cap]\n',
		/^shop\.yaml:2:1: key: found "takeout"; .*nearest: take out$/,
	],
	['an unknown item to take out', 'list: clean-up\ntake out: [caps]\n', /^shop\.yaml:2:12: .*nearest: cap$/],
	[
		'a step added to mixing',
		ownItem('mixing'),
		/^shop\.yaml:3:5: item hose: mixing takes no items .*before-spraying$/,
	],
	[
		'a word of the program',
		ownItem('clean-up').replace('code: hose', 'code: horns'),
		/^shop\.yaml:3:11: item horns: the program keeps/,
	],
	[
		'a long sentence',
		ownItem('clean-up').replace('Hose:', 'Hose: one two three four'),
		/^shop\.yaml:4:11: items, say: .*up to 12 words$/,
	],
	['an empty file', '', /^shop\.yaml:1:1: is empty/],
])('%s is refused with its line and column', async (_what, text, wanted) => {
	const said = await withShop(text);
	expect(said).toHaveLength(1);
	expect(said[0]).toMatch(wanted);
});

test('a list file that is not there is named with its remedy', async () => {
	const loaded = await loadLists({ lists: ['gone.yaml'] }, 'some/sheet.yaml');
	expect(loaded.ok || loaded.errors.map(errorLine)).toEqual([
		'some/gone.yaml:1:1: there is no such file: check the name under "lists" of the job sheet',
	]);
});
