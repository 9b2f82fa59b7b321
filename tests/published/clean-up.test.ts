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
	const why = (code: string) => items.find(item => item.code === code)?.why ?? '';
	return { codes: items.map(({ code }) => code), said, why };
}

describe('at the end of the day', () => {
	/**
	 * 29 CFR 1910.107(g)(3) in the wording of WAC 296-24-37013(3): approved metal waste cans, emptied at least once daily.
	 * 29 CFR 1910.107(b)(5)(ii), quoted in an interpretation of 11 February 2008: discarded filters in a water-filled metal
	 * container, or taken away at once. A lid that closes itself: 34 Pa. Code 35.92(c), gravity closing; 29 CFR
	 * 1910.106(h)(8)(iii), from memory. Never screwed down, for wet hardener gives off gas: common practice, no source.
	 */
	test('rags and filters go wetted into a metal can with a lid that closes itself: not where the left-over mix goes', async () => {
		const { said, why } = await cleanUp();
		expect(said('rags')).toMatch(
			/^Rags, filters: wetted, metal can, self-closing lid never screwed down; emptied daily\.$/,
		);
		expect(why('rags')).toMatch(/gives off gas/);
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

	/**
	 * Ventilation run while spray gear is cleaned: 29 CFR 1910.107(g)(5) in the wording of WAC 296-24-37013(5). Chlorinated
	 * solvent in aluminium under pressure: from memory.
	 */
	test('gear and extract are as for mixing, and nothing chlorinated comes into aluminium', async () => {
		const { why } = await cleanUp();
		expect(why('bled')).toMatch(/^Gear, gloves and extractor as for mixing\./);
		expect(why('flush')).toMatch(/^No chlorinated solvent in an aluminium gun, cup or pot: it can burst\./);
	});

	/** 29 CFR 1910.107(d)(2), from memory; New York City Mechanical Code 502.7.3.1: until drying vapours are exhausted. */
	test('the extract stays on until the parts give off no vapour', async () => {
		const { said, why } = await cleanUp();
		expect(said('extractor')).toMatch(/leave it running/);
		expect(why('extractor')).toMatch(/^On until parts and filters give off no vapour\./);
	});
});

describe('in mid-day', () => {
	const shown = (day: ReturnType<typeof rehearsed>) => [day.line().say, ...day.line().lines].join(' ');
	const order =
		/Gear, extractor on\. Air off, line bled\. Solvent: no air, into a closed can\. Nothing chlorinated\./;

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
		expect(shown(day)).toMatch(/air off and bled, then flush it\./);
		day.pick('back');
		day.toState('empty');
		expect(shown(day)).toMatch(order);
		expect(shown(day)).toContain('Left-over mix: outside, in vented metal, as the data sheet says.');
	});
});
