import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { cartSheet, door, lid } from './cart-sheet.ts';
import { changed, find, like, putAfter, without } from './draft.ts';
import type { Raw } from './lines.ts';
import { foundIn } from './mutilated.ts';

/** A sheet that has the lid prepared so before its first coat, and what was told of that. */
function preparedBy(steps: string[], ...told: [type: string, fields: Raw][]): Raw[] {
	const [opened, ...rest] = without(cartDay(), like('stage.done', { face: lid }));
	const prep = steps.map(step => ({ step, grit: null }));
	const sheet = cartSheet(0);
	const faces = sheet.faces.map(({ coats, ...face }) => ({
		...face,
		coats: coats.map((coat, nth) => (face.id === lid && nth === 0 ? { ...coat, prep } : coat)),
	}));
	return told.reduceRight(
		(day, [type, fields]) =>
			putAfter(day, like('stage.done', { face: door }), type, { face: lid, ...fields }),
		[{ ...opened, sheet: { ...sheet, faces } }, ...rest],
	);
}
const says16 = (day: Raw[]) =>
	foundIn(day).flatMap(found => (found.property === 16 ? [found.says.replace(/^.*?: /, '')] : []));

describe('property 16: every step of the sheet in its place, as often as it stands there', () => {
	type Told = [type: string, fields: Raw];
	const wipedTwice = (...told: Told[]) => preparedBy(['wipe', 'sand', 'wipe'], ...told);
	const work = (stage: string, place?: number | null): Told => [
		'stage.done',
		{ stage, grit: null, ...(place !== undefined && { place }) },
	];

	test('the face was not tacked', () => {
		expect(says16(without(cartDay(), like('stage.done', { face: lid })))).toEqual(['tack is not recorded']);
	});

	test('each once, in order: nothing is found', () => {
		expect(foundIn(wipedTwice(work('wipe', 0), work('sand', 1), work('wipe', 2)))).toEqual([]);
	});

	test('the second wipe is missing, or told as the first once more', () => {
		const once = [work('wipe', 0), work('sand', 1)];
		expect(says16(wipedTwice(...once))).toEqual(['wipe is not recorded']);
		expect(says16(wipedTwice(...once, work('wipe', 0)))).toEqual([
			'wipe is told of place 0, wanted was wipe at place 2',
			'wipe is not recorded',
		]);
	});

	test('the last wipe before the sanding is out of its place', () => {
		expect(says16(wipedTwice(work('wipe', 0), work('wipe', 2), work('sand', 1)))).toEqual([
			'wipe is told of place 2, wanted was sand at place 1',
			'wipe is not recorded',
		]);
	});

	test('a wipe that a window asked for stands for none of the sheet', () => {
		expect(says16(wipedTwice(work('wipe', 0), work('sand', 1), work('wipe', null)))).toEqual([
			'wipe is not recorded',
		]);
	});

	test('a reason leaves out one of the two, told of in a day that tells its place', () => {
		const left: Told = [
			'override.given',
			{ rule: 'prep', reason: 'dust-free', coat: 1, step: 'wipe', place: 0 },
		];
		const marked = (day: Raw[]) => changed(day, like('face.started', { face: lid }), { overrides: ['prep'] });
		expect(foundIn(marked(wipedTwice(left, work('sand', 1), work('wipe', 2))))).toEqual([]);
		expect(says16(marked(wipedTwice(left, work('sand', 1))))).toEqual(['wipe is not recorded']);
	});

	test('an older day tells no places: a step speaks of each of its name', () => {
		expect(foundIn(wipedTwice(work('wipe'), work('sand')))).toEqual([]);
		expect(says16(wipedTwice(work('wipe')))).toEqual(['sand is not recorded']);
	});

	test('the line of a face with a fault stands for the steps that come first, on an older day for all of its names', () => {
		const line = (faulty?: string[]): Told[] => [
			work('sand', 0),
			['part.setAside', { part: 'counter lid', faces: [lid], why: 'run', ...(faulty && { faulty }) }],
			...['set-up', 'sand', 'clean'].map((step): Told => ['rework.done', { step }]),
			work('fill', faulty && 1),
		];
		const day = (...told: Told[]) => preparedBy(['sand', 'fill', 'wipe'], ...told);
		expect(says16(day(...line([lid])))).toEqual(['wipe is not recorded']);
		expect(foundIn(day(...line([lid]), work('wipe', 2)))).toEqual([]);
		expect(says16(day(...line()))).toEqual([]);
	});

	describe('of a coat more than planned', () => {
		/** One coat is planned for the door; it gets another after its run. */
		const sprayedAgain = (own: Raw, told: Told[]) => {
			const [opened, ...rest] = cartDay();
			const prep = [{ step: 'wipe' }, { step: 'tack' }];
			const sheet = cartSheet(0);
			const faces = sheet.faces.map(({ coats, ...face }) => ({
				...face,
				...(face.id === door ? own : {}),
				coats: face.id === door ? coats.slice(0, 1).map(coat => ({ ...coat, prep, wait_h: 1 })) : coats,
			}));
			const first = like('stage.done', { face: door, stage: 'tack' });
			const wiped = putAfter(
				changed([{ ...opened, sheet: { ...sheet, faces } }, ...rest], first, { place: 1 }),
				like('stage.done', { face: lid }),
				'stage.done',
				{ face: door, stage: 'wipe', grit: null, place: 0 },
			);
			const on = like('wait.ended', { face: door, coat: 2 });
			const day = told.reduceRight(
				(all, [type, fields]) => putAfter(all, on, type, { face: door, ...fields }),
				wiped,
			);
			return changed(day, like('face.started', { face: door, coat: 2 }), { overrides: ['coats'] });
		};
		const more = (...told: Told[]) => sprayedAgain({}, told);
		const given: Told = ['override.given', { rule: 'coats', reason: 'thin at the hinge', coat: 2 }];
		const line = ['set-up', 'sand', 'clean'].map((step): Told => ['rework.done', { step }]);
		const aside: Told = ['part.setAside', { part: 'left door', faces: [door], faulty: [door], why: 'run' }];

		test('its list is that of the last from its first step, without the wait that stood before it', () => {
			expect(foundIn(more(given, work('wipe', 0), work('tack', 1)))).toEqual([]);
			expect(says16(more(given, work('tack', 1)))[0]).toBe(
				'tack is told of place 1, wanted was wipe at place 0',
			);
		});

		test('what was told before its reason is past, that of the own line too', () => {
			expect(says16(more(work('wipe', 0), given, work('tack', 1)))[0]).toBe(
				'tack is told of place 1, wanted was wipe at place 0',
			);
			expect(says16(more(aside, ...line, given, work('wipe', 0), work('tack', 1)))).toEqual([]);
			expect(says16(more(aside, ...line, given))).toEqual(['wipe is not recorded', 'tack is not recorded']);
		});

		test('what is told of its list is not work behind the last coat, on this day or the next', () => {
			const finishing = { wait_h: 0, prep: [{ step: 'unmask' }] };
			const wiped = sprayedAgain({ finishing }, [given, work('wipe', 0)]);
			const cut = wiped.slice(0, find(wiped, like('stage.done', { face: door, place: 0 }), 1) + 1);
			expect(says16(cut)).toEqual([]);
			expect(says16(without(cut, like('override.given')))).toEqual([
				'wipe is told of place 0, wanted was unmask at place 0',
			]);
			const [opened] = cut;
			const at = '2027-03-01T15:00:00.000Z';
			const coats = [{ coat: 1, ended: '2027-03-01T09:00:00.000Z', surfaceC: 21 }];
			const prep = [{ step: 'wipe', place: 0, at }];
			const morning = (aside: unknown) => [
				{ ...opened, before: { faces: { [door]: { coats, prep, aside } }, letters: 3 } },
			];
			expect(says16(morning({ done: ['set-up', 'sand'] }))).toEqual([]);
			expect(says16(morning(null))).toEqual(['wipe is told of place 0, wanted was unmask at place 0']);
		});

		test('the last of two reasons counts', () => {
			expect(says16(more(given, work('wipe', 0), given, work('tack', 1)))[0]).toMatch(/wanted was wipe/);
			expect(says16(more(given, work('wipe', 0), given, work('wipe', 0), work('tack', 1)))).toEqual([]);
		});
	});

	describe('of an earlier day', () => {
		const yesterday = (leftOut: Raw[], ...prep: Raw[]) => {
			const at = '2027-03-01T15:00:00.000Z';
			const own = { coats: [], prep: prep.map(one => ({ ...one, at })), leftOut, aside: null };
			const [opened, ...rest] = preparedBy(['wipe', 'wipe', 'tack', 'tack']);
			const day = [{ ...opened, before: { faces: { [lid]: own }, letters: 0 } }, ...rest];
			return changed(day, like('face.started', { face: lid }), { overrides: ['prep'] });
		};
		const wipe = { step: 'wipe', place: 1 };
		const tack = { step: 'tack', place: 2 };

		test('what was left out stands among what was done, each in its place', () => {
			const left = [
				{ step: 'wipe', place: 0 },
				{ step: 'tack', place: 3 },
			];
			expect(foundIn(yesterday(left, wipe, tack))).toEqual([]);
			expect(says16(yesterday(left.slice(0, 1), wipe, tack))).toEqual(['tack is not recorded']);
			expect(says16(yesterday(left, tack, wipe))[0]).toBe('wipe is told of place 1, wanted was nothing');
		});
	});
});
