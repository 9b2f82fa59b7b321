import { describe, expect, test } from 'vitest';
import { changed, find, like, putAfter, shifted } from '../checker/draft.ts';
import type { Raw } from '../checker/lines.ts';
import { honestDay, longSheet, runOnDoor } from './honest.ts';
import { allFaces, edges, lid, outside, putBefore, saysOf } from './spoiled.ts';

const day = await honestDay(longSheet, 4);
const runDay = await honestDay(longSheet, 4, runOnDoor);

describe('19: no dusty or wet work beside a wet coat, nor while a checked gun waits', () => {
	const sanded = like('stage.done', { face: lid, stage: 'sand', place: 0 });
	const work = { face: lid, stage: 'sand', grit: 320, place: null };
	const ended = (face: string, coat: number) => like('face.ended', { face, coat });

	test.each(['sand', 'scuff', 'fill', 'wipe'])('%s as soon as the last coat is on', stage => {
		const soon = putAfter(day, ended(outside, 1), 'stage.done', { ...work, stage });
		expect(saysOf(19, soon)).toHaveLength(3);
		expect(saysOf(19, soon)[2]).toBe(`${stage} on ${lid} beside wet ${outside}, 0.0 min after its coat`);
	});

	test('neither tacking nor unmasking is dusty', () => {
		for (const stage of ['tack', 'unmask'])
			expect(saysOf(19, putAfter(day, ended(outside, 1), 'stage.done', { ...work, stage }))).toEqual([]);
	});

	test('while another face is sprayed, and on one half sprayed', () => {
		const spraying = putAfter(day, like('face.started', { face: edges, coat: 1 }), 'stage.done', work);
		expect(saysOf(19, spraying)).toContain(`sand on ${lid} beside wet ${edges}, while it is sprayed`);
		const half = changed(spraying, ended(lid, 1), { extent: 'part', lastStroke: 2 });
		expect(saysOf(19, half)[0]).toMatch(/beside wet counter lid\/top, 0\.\d min after its coat/);
		const none = changed(spraying, ended(lid, 1), { extent: 'none' });
		expect(saysOf(19, none)).toEqual([`sand on ${lid} beside wet ${edges}, while it is sprayed`]);
	});

	test('25 minutes after the coat of 30 minutes flash; 35 minutes after it, or with a reason not to wait, none', () => {
		const later = (minutes: number) => shifted(day, sanded, (minutes - 180) * 60);
		expect(saysOf(19, later(25)).join()).toMatch(/sand on .* beside wet left door\/outside, 2\d\.\d min/);
		expect(saysOf(19, later(29.5)).join()).toMatch(/sand on .* beside wet left door\/outside, 29\.\d min/);
		expect(saysOf(19, later(35))).toEqual([]);
		const given = { rule: 'window', reason: 'the data sheet allows it', coat: 2, window: 'wait' };
		const said = allFaces.reduce(
			(all, face) => putBefore(all, sanded, 'override.given', { ...given, face }),
			later(25),
		);
		expect(saysOf(19, said).filter(says => says.startsWith('sand'))).toEqual([]);
	});

	test("a fault's own line is dusty too", () => {
		const line = like('rework.done', { face: outside, step: 'sand' });
		const soon = shifted(runDay, sanded, -170 * 60);
		expect(find(soon, line)).toBeGreaterThan(0);
		expect(saysOf(19, soon).some(says => says.startsWith(`sand on ${outside} beside wet ${lid}`))).toBe(true);
		expect(saysOf(19, soon).some(says => says.startsWith(`clean on ${outside} beside wet`))).toBe(true);
	});

	test('between the check of the gun and its first start; behind a break, or the start, none', () => {
		const checked = like('gun.checked', { coat: 2 });
		const between = (records: Raw[]) => putAfter(records, checked, 'stage.done', work);
		expect(saysOf(19, between(day))[0]).toMatch(/^sand on counter lid\/top while the gun of line \d+ waits$/);
		const left = putAfter(between(day), checked, 'break.began', { kind: 'hold', by: 'painter' });
		expect(saysOf(19, left)).toEqual([]);
	});
});
