import { beforeAll, expect, test } from 'vitest';
import type { Line } from '../../src/day/rehearsal.ts';
import type { Checklist } from '../../src/job/checklist.ts';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

const isItem = ({ state, ask }: Line) =>
	(ask === 'item' || ask === 'pair' || ask === 'breathing') && /^(list|gunCheck)\./.test(state);

let job: Job;
let lists: Checklist[];

beforeAll(async () => {
	const sheet = 'checklists/example/coffee-cart.yaml';
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error('the example sheet does not load');
	const listed = await loadLists(loaded.job, sheet);
	if (!listed.ok) throw new Error('the lists do not load');
	job = loaded.job;
	lists = listed.lists;
});

/** The example day up to a question: each item of a list with the line that passes it, and the question before it. */
function itemsOf(seed: number, gear: 'supplied-air' | 'filter-mask', until = 'closed', from = lists) {
	const day = rehearsed({ job, lists: from, seed });
	day.painter.world.breathing = gear;
	const found: { line: Line; passing: string; before: { line: Line; given: string } | null }[] = [];
	let before: { line: Line; given: string } | null = null;
	for (let line = day.line(); !line.state.startsWith(until); line = day.line()) {
		const given = day.painter.answer(line) ?? '';
		if (isItem(line)) found.push({ line, passing: given, before });
		day.send(given);
		before = { line, given };
	}
	return found;
}

test('struck twice, the answer to an item, a DONE or a BACK lets no other item pass', () => {
	for (const seed of [0, 1, 2, 3]) {
		for (const { line, passing, before } of itemsOf(seed, 'supplied-air')) {
			const same = before && (isItem(before.line) || before.line.ask === 'do' || before.line.ask === 'hold');
			if (same) expect([line.state, passing]).not.toEqual([line.state, before.given]);
		}
	}
});

test('nor with a filter mask on, where the supply is answered with it', () => {
	const single = lists.map(list => ({ ...list, items: list.items.map(({ pair: _, ...item }) => item) }));
	const older = single.map(({ items: [mask, extractor, supply, ...rest], ...list }) => ({
		...list,
		items: [mask, supply, extractor, ...rest].filter(item => item !== undefined),
	}));
	for (const [seed, from] of [0, 1, 2, 3].flatMap(seed =>
		[lists, single, older].map(of => [seed, of] as const),
	)) {
		const pairs = itemsOf(seed, 'filter-mask', 'air', from).filter(
			({ before }) => before && isItem(before.line),
		);
		for (const { line, passing, before } of pairs)
			expect([line.state, passing]).not.toEqual([line.state, before?.given]);
	}
});

test('no corner struck again and again passes a list', () => {
	for (const seed of [0, 1, 2, 3]) {
		const passing = itemsOf(seed, 'supplied-air', 'air')
			.filter(({ line }) => line.state.startsWith('list.before-spraying'))
			.map(one => one.passing);
		expect(passing.length).toBe(6);
		expect(new Set(passing).size).toBeGreaterThan(1);
	}
});

test('while a question stands its answers keep their places; another day may have others', () => {
	const list = (line: Line) => line.state.startsWith('list.');
	const day = rehearsed({ job, lists });
	const first = day.until(list);
	day.send('wait 3 min', 'trigger on', 'trigger off', 'screen');
	expect(day.line().corners).toEqual(first.corners);
	expect(rehearsed({ job, lists }).until(list).corners).toEqual(first.corners);
	expect(rehearsed({ job, lists, seed: 1 }).until(list).corners).not.toEqual(first.corners);
});

test('an answer that leaves an item open says what to do, and the item stands where it stood', () => {
	const day = rehearsed({ job, lists });
	day.toState('list.before-spraying.mask');
	day.pick('loaded');
	day.pick('supplied-air');
	const { corners: asked } = day.line();
	day.pick('weak');
	expect(day.line().lines).toEqual(['Put it right, then have it asked again.']);
	day.pick('ask-again');
	expect(day.line().corners).toEqual(asked);
});

test('the cans are asked after with the marks that belong on them', () => {
	const day = rehearsed({ job, lists });
	day.toState('list.before-spraying.cans');
	expect(day.line().lines[0]).toBe('Tape the cans: base ring, hardener cross, reducer bars.');
});

test('a batch whose letter is none of those shown can be said, and stops', () => {
	const day = rehearsed({ job: smallJob() });
	day.toState('gunCheck.batch');
	day.pick('another');
	expect(day.line()).toMatchObject({ state: 'gunCheck.batch.differs', lines: ['Read ANOTHER. Wanted A.'] });
});
