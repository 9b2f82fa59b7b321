import { expect, test } from 'vitest';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from './rehearsed.ts';

/** Both questions of a pair are asked, whatever is said of the key before. By construction: no source. */

test('behind a filter mask the cartridge is named, and earth is asked beside sparks all the same', async () => {
	const sheet = 'checklists/example/coffee-cart.yaml';
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error('the example does not load');
	const listed = await loadLists(loaded.job, sheet);
	if (!listed.ok) throw new Error('the lists do not load');
	const day = rehearsed({ job: loaded.job, lists: listed.lists });
	day.toAsk('pair');
	day.pick('filter-mask+clean');
	const { ask, lines, state } = day.line();
	expect({ ask, state }).toEqual({ ask: 'pair', state: 'list.before-spraying.ignition' });
	expect(lines[0]).toMatch(/^Earth/);
	expect(lines[1]).toMatch(/^Cartridge: /);
});
