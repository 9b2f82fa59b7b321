import { expect, test } from 'vitest';
import type { Checklist } from '../../src/job/checklist.ts';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** Two looks at one place, answered by one key. */

async function lists(): Promise<Checklist[]> {
	const loaded = await loadLists({ lists: [] }, 'sheet.yaml');
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	return loaded.lists;
}

/** The small job, its material without isocyanate: a filter mask will do. */
function masked(): Job {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has a topcoat');
	const cartridge = { gear: 'filter-mask' as const, cartridge: 'A2-P3' };
	const breathing = { mixing: cartridge, spraying: cartridge, sanding: cartridge };
	return { ...job, materials: { topcoat: { ...topcoat, isocyanate: false, breathing } } };
}

const texts = (day: ReturnType<typeof rehearsed>) =>
	Object.values(day.line().corners).map(({ code, text }) => `${code}: ${text}`);
const answered = (day: ReturnType<typeof rehearsed>) =>
	day.ofType('item.answered').map(({ item, answer }) => `${item} ${answer}`);

test('gear and extractor are one key, and two records with the codes that each has by itself', async () => {
	const day = rehearsed({ lists: await lists() });
	day.toState('list.before-spraying.mask');
	expect(day.line()).toMatchObject({
		ask: 'pair',
		lines: [expect.stringMatching(/^Extractor/)],
	});
	expect(texts(day).sort()).toEqual([
		'filter-mask+clean: FILTER, AT MARK',
		'loaded: OFF MARK',
		'none: NOTHING',
		'supplied-air+clean: SUPPLIED, AT MARK',
	]);
	day.pick('supplied-air+clean');
	expect(day.line().events).toEqual(['reading.taken', 'item.answered', 'item.answered']);
	expect(answered(day)).toEqual(['mask supplied-air', 'extractor clean']);
	expect(day.line().state).toBe('list.before-spraying.supply');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('with a filter mask on the supply is answered with them', async () => {
	const day = rehearsed({ job: masked(), lists: await lists() });
	day.toState('list.before-spraying.mask');
	day.pick('filter-mask+clean');
	expect(answered(day)).toEqual(['mask filter-mask', 'extractor clean', 'supply filter']);
	expect(day.line().state).toBe('list.before-spraying.ignition');
});

test('a corner that does not pass records nothing, and asks each of the two by itself', async () => {
	const day = rehearsed({ lists: await lists() });
	day.toState('list.before-spraying.mask');
	day.pick('loaded');
	expect(day.line()).toMatchObject({ ask: 'breathing', events: [] });
	day.pick('supplied-air');
	expect(day.line()).toMatchObject({ ask: 'item', state: 'list.before-spraying.extractor' });
	day.pick('weak');
	expect(answered(day)).toEqual(['mask supplied-air', 'extractor weak']);
	expect(day.line().state).toBe('list.open.extractor');
	day.pick('ask-again');
	day.pick('pulled');
	day.until(({ ask, state }) => ask === 'pair' && state === 'gunCheck.mask');
	expect(texts(day)).toContain('supplied-air+pulled: SUPPLIED, FLAT');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a mask that will not do is a reading that differs, and the fresh one is by itself', async () => {
	const day = rehearsed({ lists: await lists() });
	day.until(({ ask, state }) => ask === 'pair' && state === 'gunCheck.mask');
	day.pick('filter-mask+clean');
	expect(day.ofType('reading.taken').at(-1)).toMatchObject({ feature: 'breathing', matched: false });
	expect(answered(day).at(-1)).toBe('mask filter-mask');
	day.pick('done');
	expect(day.line()).toMatchObject({ ask: 'breathing', state: 'gunCheck.mask' });
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('where a shop has put an item between the two, each is asked by itself; so on a day of an older list', async () => {
	const own = await lists();
	const between = own.map(list => ({
		...list,
		items: list.items.flatMap(item => (item.code === 'earth' ? [{ ...item, code: 'lamps' }, item] : [item])),
	}));
	const day = rehearsed({ lists: between });
	expect(day.toState('list.before-spraying.ignition').ask).toBe('item');
	const older = own.map(list => ({ ...list, items: list.items.map(({ pair: _, ...item }) => item) }));
	expect(rehearsed({ lists: older }).toState('list.before-spraying.mask').ask).toBe('breathing');
});

test('no reading of the gun itself is ever one of a pair', async () => {
	const paired = (await lists()).flatMap(({ items }) =>
		items.flatMap(({ code, pair }) => (pair === undefined ? [] : [`${code}+${pair}`])),
	);
	expect(paired).toEqual(['mask+extractor', 'ignition+earth', 'fire+help', 'mask+extractor']);
});
