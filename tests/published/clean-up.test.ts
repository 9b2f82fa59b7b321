import { describe, expect, test } from 'vitest';
import { loadLists } from '../../src/job/lists.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { smallJob } from '../day/small-job.ts';

/** Waste and solvent at clean-up, as published rules have them, in the list that the program comes with. */

async function cleanUp() {
	const loaded = await loadLists(smallJob(), 'clean-up.yaml');
	const items = loaded.ok ? loaded.lists.find(({ list }) => list === 'clean-up')?.items : undefined;
	if (!items) throw new Error('the list of clean-up does not load');
	const said = (code: string) => items.find(item => item.code === code)?.say ?? '';
	return { codes: items.map(({ code }) => code), said };
}

describe('at the end of the day', () => {
	/**
	 * 29 CFR 1910.107(g)(3) in the wording of WAC 296-24-37013(3): approved metal waste cans, emptied at least once daily.
	 * 29 CFR 1910.107(b)(5)(ii), quoted in an interpretation of 11 February 2008: discarded filters in a water-filled metal
	 * container, or taken away at once. The lid: 29 CFR 1910.106(h)(8)(iii), from memory.
	 */
	test('rags and filters go wetted into a metal can with its lid shut, emptied daily: not where the left-over mix goes', async () => {
		const { said } = await cleanUp();
		expect(said('rags')).toMatch(/^Rags, filters: wetted, .*metal can, lid shut, emptied daily\.$/);
		expect(said('rags')).not.toMatch(/vented|outside/);
		expect(said('waste')).toMatch(/^Left-over mix: outside, in vented metal, as the data sheet says\.$/);
	});

	/**
	 * 40 CFR 63.11173(e)(4), from memory, and a state's rule for refinishers (New York, 2005): solvent goes through a gun
	 * unatomised, into a container that is kept closed.
	 */
	test('the air is shut and bled before solvent is run, without air, into a closed can; then the cap comes off', async () => {
		const { codes, said } = await cleanUp();
		const places = ['bled', 'flush', 'cap'].map(code => codes.indexOf(code));
		expect(places).toEqual([0, 1, 2]);
		expect(said('bled')).toMatch(/^Air: shut it, bleed the line/);
		expect(said('flush')).toMatch(/solvent through, no air, into a closed can/);
		expect(said('cap')).toMatch(/^Cap, tip, needle: off/);
	});
});

describe('in mid-day', () => {
	const shown = (day: ReturnType<typeof rehearsed>) => [day.line().say, ...day.line().lines].join(' ');
	const order = /Air off, line bled first\. Solvent through: no air, into a closed can\./;

	test('a gun flushed in a wait', () => {
		const day = rehearsed();
		day.toState('wait');
		day.pick('flush');
		expect(shown(day)).toMatch(order);
	});

	test('a clogged gun', () => {
		const day = rehearsed();
		day.toState('ready');
		day.pick('trouble');
		day.pick('gun-fault');
		day.pick('clogged');
		expect(shown(day)).toMatch(order);
	});

	test('paint that stood too long: said in the hold, and where the cup is emptied; the mix, not the rags, goes in vented metal', () => {
		const day = rehearsed();
		day.toState('wait');
		day.send('hold', 'wait 61 min');
		expect(shown(day)).toMatch(/Air off and bled, then flush it\./);
		day.pick('back');
		day.toState('empty');
		expect(shown(day)).toMatch(order);
		expect(shown(day)).toContain('Left-over mix: outside, in vented metal, as the data sheet says.');
	});
});
