import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { door, lid } from './cart-sheet.ts';
import { checkDayFile } from './check.ts';
import { changed, find, like, putAfter, seal, shifted, without } from './draft.ts';
import type { Raw } from './lines.ts';
import { expectFound, foundIn, type Mutilation } from './mutilated.ts';

const lidAgain = like('face.started', { face: lid, coat: 2 });
const doorAgain = like('face.started', { face: door, coat: 2 });

/** The first wait cut short by so many minutes, and with it all that follows. */
const hasty = (day: Raw[], minutes: number) => shifted(day, like('wait.ended'), -minutes * 60);
const withWindows = (day: Raw[], windows: unknown) =>
	changed(day, like('window.set', { face: lid, coat: 1 }), { windows });

describe('property 3: no coat over another before its window is open', () => {
	const early: Mutilation[] = [
		['the wait is cut by ten minutes', day => hasty(day, 10), /the sheet says wait/],
		['the wait is cut by ten minutes', day => hasty(day, 10), /does not let coat 1 be sprayed over/],
		[
			'the windows written down open too soon and the wait is cut',
			day => {
				const from = String(day[find(day, like('window.set', { face: lid }))]?.at);
				return withWindows(hasty(day, 10), [{ does: 'spray', from, until: null }]);
			},
			/the sheet says wait/,
		],
		[
			'the flash is over and the table says wait',
			day => shifted(day, like('wait.ended'), 2 * 3600),
			/the sheet says wait 1\d\d/,
		],
		[
			'the surface was read as colder since',
			day => changed(day, like('air.read'), { surfaceC: 16 }),
			/the sheet says wait/,
		],
		[
			'no windows were written down',
			day => without(day, like('window.set', { face: lid, coat: 1 })),
			/no windows were set/,
		],
		[
			'the face claims another window',
			day => changed(day, lidAgain, { window: 'scuff' }),
			/does not say scuff/,
		],
		[
			'the windows written down are shut',
			day => {
				const from = String(day[find(day, like('window.set', { face: lid }))]?.at);
				return withWindows(day, [{ does: 'wait', from, until: null }]);
			},
			/does not let coat 1/,
		],
		[
			'the tape tab was not touched',
			day => without(day, like('reading.taken', { feature: 'touch' })),
			/no touch test/,
		],
		[
			'the tape tab still drew strings',
			day => changed(day, like('reading.taken', { feature: 'touch' }), { value: 'strings' }),
			/the tape tab was strings/,
		],
		[
			'the touch test spoke for the other face',
			day => changed(day, like('reading.taken', { feature: 'touch' }), { faces: [door] }),
			/no touch test/,
		],
		['scuffing is due and not recorded', day => scuffed(day, []), /the sheet says scuff/],
	];
	test.each(early)('%s', (...mutilation) => expectFound(3, mutilation));

	test('a face in its scuffing window is let through once it is scuffed', () => {
		const timing = foundIn(scuffed(cartDay(), ['scuff'])).filter(({ property }) => property === 3);
		expect(timing).toEqual([]);
	});

	test('a surface read too warm does not count where it is read again within ten minutes, and counts where it is not', () => {
		const found = (minutes: number) => foundIn(readAgain(cartDay(), minutes)).map(({ property }) => property);
		expect(found(5)).toEqual([]);
		expect(found(15)).toContain(3);
	});

	test('an override with a reason lets a coat over a shut window, without one it does not', () => {
		const given = (reason: string, window?: string) => {
			const day = putAfter(hasty(cartDay(), 10), like('wait.ended'), 'override.given', {
				rule: 'window',
				reason,
				face: lid,
				coat: 2,
				...(window && { facts: { window } }),
			});
			return foundIn(changed(day, lidAgain, { overrides: ['window'], window: 'wait' })).map(
				({ property }) => property,
			);
		};
		expect(given('rain is coming')).toEqual([]);
		expect(given('rain is coming', 'wait')).toEqual([]);
		expect(given('rain is coming', 'sand')).toContain(3);
		expect(given(' ')).toContain(3);
	});
});

/** The surface read much too warm after the first wait, and read again so many minutes later; the rest of the day follows. */
function readAgain(day: Raw[], minutes: number): Raw[] {
	const ended = find(day, like('wait.ended'));
	const good = day[find(day, like('air.read'))];
	const { run, at, mono } = day[ended] ?? {};
	const read = (seq: number, surfaceC: unknown) => ({ ...good, seq, run, at, mono, surfaceC });
	const again = { ...read(902, good?.surfaceC), mark: 'again' };
	const both = day.toSpliced(ended + 1, 0, read(901, 41), again);
	return shifted(both, like('air.read', { mark: 'again' }), minutes * 60).map(({ mark, ...record }, n) =>
		n > ended + 2 && record.air === good?.seq ? { ...record, air: 902 } : record,
	);
}

/** The lid's second coat 14 h after its first, with this preparation recorded; later faults of the day left aside. */
function scuffed(day: Raw[], prep: string[]): Raw[] {
	const cut = day.slice(0, find(day, like('face.ended', { face: lid, coat: 2 })));
	const late = shifted(cut, like('wait.ended'), 14 * 3600 - 1800);
	const done = prep.reduce(
		(all, stage) => putAfter(all, like('wait.ended'), 'stage.done', { face: lid, stage, grit: 400 }),
		late,
	);
	const set = done[find(done, like('window.set', { face: lid }))];
	const from = String(set?.at);
	return changed(withWindows(done, [{ does: 'scuff', from, until: null }]), lidAgain, { window: 'scuff' });
}

describe('property 17: what is done to a part set aside changes nothing on a sound face', () => {
	const withLid = (more: Raw = {}) =>
		changed(cartDay(), like('part.setAside'), { faces: [door, lid], faulty: [door], ...more });

	test('a step of the own line told of a face that has no fault', () => {
		const day = putAfter(withLid(), like('part.setAside'), 'rework.done', { face: lid, step: 'set-up' });
		expectFound(17, ['a sound face', () => day, /counter lid\/top: set-up on a face that has no fault/]);
	});

	test('a sound face set aside with its part is not sprayed before the one with the fault is back in line', () => {
		expectFound(14, ['too soon', () => withLid(), /counter lid\/top: it is set aside with its part/]);
		expectFound(14, [
			'an older day says of none that it is sound',
			() => withLid({ faulty: undefined }),
			/counter lid\/top: it is set aside and not reworked/,
		]);
	});

	test('a coat more is written with the DONE of a step, and not by a key of its own', () => {
		const given = { rule: 'coats', reason: 'respray after sanding flat', face: door, coat: 3 };
		const clean = like('rework.done', { step: 'clean' });
		const day = putAfter(cartDay(), clean, 'override.given', given);
		expect(foundIn(day).filter(({ property }) => property === 17)).toEqual([]);
		expectFound(17, [
			'one key',
			() => changed(day, clean, { more: true }),
			/a coat more is written with a step/,
		]);
	});
});

describe('property 14: no more coats than planned, none on a part set aside', () => {
	const extra: Mutilation[] = [
		['a third coat of two', day => changed(day, lidAgain, { coat: 3 }), /coat 3 of 2 planned/],
		[
			'the first coat is laid twice',
			day => changed(day, lidAgain, { coat: 1 }),
			/coat 1 is laid where 1 lie/,
		],
		[
			'a coat is skipped',
			day => without(day, like('face.ended', { face: lid, coat: 1 })),
			/coat 2 is laid where 0 lie/,
		],
		[
			'the part is not sanded',
			day => without(day, like('rework.done', { step: 'sand' })),
			/clean before sand/,
		],
		[
			'the part is not sanded',
			day => without(day, like('rework.done', { step: 'sand' })),
			/set aside and not reworked/,
		],
		[
			'the rework is not finished',
			day => without(day, like('rework.done', { step: 'clean' })),
			/set aside and not reworked/,
		],
		['a part set aside is sprayed', day => setAside(day), /counter lid\/top: it is set aside/],
		[
			'a reworked coat is laid twice',
			day => changed(day, doorAgain, { coat: 1 }),
			/coat 1 is laid where 1 lie/,
		],
		[
			'a face broken off is gone over from its start',
			day => changed(day, like('face.started', { from: 'part' }), { from: 'start' }),
			/gone over from its start/,
			{ broken: 'part' },
		],
		[
			'a face is carried on that was whole',
			day => changed(day, lidAgain, { from: 'part' }),
			/was not broken off/,
		],
		[
			'the face counts as part though the painter said all',
			day => changed(day, like('reading.taken', { feature: 'last-face' }), { value: 'all' }),
			/ends as part, told was all/,
			{ broken: 'part' },
		],
	];
	test.each(extra)('%s', (...mutilation) => expectFound(14, mutilation));

	test('a day begins with the coats that the days before it laid', () => {
		const today = cartDay();
		const [opened] = today;
		const again = [{ ...opened, before: { faces: {}, letters: 2 } }];
		const found = checkDayFile(seal(again), [seal(today)]);
		expect(found).toContainEqual({ property: 14, line: 1, says: `${lid} begins with 0 coats, 2 were laid` });
	});
});

function setAside(day: Raw[]): Raw[] {
	return putAfter(day, like('part.setAside'), 'part.setAside', {
		part: 'counter lid',
		faces: [lid],
		why: 'run',
	});
}
