import { describe, expect, test } from 'vitest';
import { changed, like, putAfter } from '../checker/draft.ts';
import type { Raw } from '../checker/lines.ts';
import { honestDay, longSheet, runOnDoor } from './honest.ts';
import { edges, lid, outside, saysOf } from './spoiled.ts';

const day = await honestDay(longSheet, 4);
const runDay = await honestDay(longSheet, 4, runOnDoor);

describe('17: what is done to a part set aside changes nothing on a sound face; no reason that nobody gave', () => {
	const clean = like('rework.done', { face: outside, step: 'clean' });

	test('the line of one face writes a step of another', () => {
		const joined = putAfter(changed(runDay, clean, { more: true }), clean, 'stage.done', {
			face: edges,
			stage: 'sand',
			grit: 320,
			place: 0,
		});
		expect(saysOf(17, joined)).toEqual([`sand on ${edges} is written with clean of ${outside}'s own line`]);
		expect(saysOf(17, changed(joined, clean, { more: undefined }))).toEqual([]);
	});

	test('one coat more is given to a face that has no fault; to the one with the run it may be', () => {
		const given = { rule: 'coats', reason: 'one coat more', coat: 3 };
		const sand = like('rework.done', { step: 'sand' });
		const more = (face: string) => putAfter(runDay, sand, 'override.given', { ...given, face });
		expect(saysOf(17, more(edges))).toEqual([`${edges}: a coat more on a face that has no fault`]);
		expect(saysOf(17, more(outside))).toEqual([]);
	});

	test('a reason is written behind what the program does by itself', () => {
		const given = { rule: 'prep', reason: 'as planned', face: lid, coat: 2, step: 'wipe', place: 3 };
		const over = like('wait.ended');
		const waits = day.filter(({ type }) => type === 'wait.ended');
		const nth = waits.findIndex(({ more }, at) => at > 0 && more !== true);
		const alone = putAfter(day, over, 'override.given', given, nth);
		expect(saysOf(17, alone)).toEqual([]);
		expect(saysOf(17, changed(alone, over, { more: true }, nth))).toEqual([
			'prep is passed over in a write that nobody began with it',
		]);
	});

	test('the window of a sound face is moved by the washing of another', () => {
		const move = (to: string) => putAfter(runDay, clean, 'window.moved', { face: edges, coat: 2, to });
		expect(saysOf(17, move('spray'))[0]).toMatch(/edges moves to spray, the sheet has .*scuff/);
		expect(saysOf(17, move('scuff'))).toEqual([]);
		const bare = putAfter(runDay, like('air.read'), 'window.moved', { face: lid, coat: 1, to: 'sand' });
		expect(saysOf(17, bare)).toEqual([`the window of ${lid} moves to sand, the sheet has bare or wait`]);
	});

	test('a reason that left a step out is spent once the face has been through its own line', () => {
		const given = { rule: 'prep', reason: 'tested on scrap', face: outside, coat: 2, step: 'fill', place: 1 };
		const left = (records: Raw[]) =>
			putAfter(records, like('wait.began', { coat: 2 }), 'override.given', given);
		expect(saysOf(11, left(runDay))).toEqual([]);
		expect(saysOf(11, left(day))).toEqual([expect.stringMatching(/outside is not marked with prep of line/)]);
	});
});
