import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { cartSheet, lid } from './cart-sheet.ts';
import { changed, find, like, putAfter, without } from './draft.ts';
import type { Raw } from './lines.ts';
import { expectFound, foundIn, type Mutilation } from './mutilated.ts';

const extractor = like('item.answered', { item: 'extractor' });
const override = (rule: string, reason: string, more: Raw = {}) => ({
	rule,
	reason,
	face: null,
	coat: null,
	...more,
});

/** The extractor is off and passed over; every face is marked with it or not. */
function passedOver(day: Raw[], reason: string, marked: boolean): Raw[] {
	const off = changed(day, extractor, { answer: 'off', passed: false });
	const given = putAfter(off, extractor, 'override.given', override('extractor', reason));
	return given.map(r => (marked && r.type === 'face.started' ? { ...r, overrides: ['extractor'] } : r));
}

const breathingAs = (value: string) => (day: Raw[]) =>
	day.map(r =>
		r.type === 'reading.taken' && r.feature === 'breathing' ? { ...r, value, wanted: value } : r,
	);

/** Paint without isocyanate, whose sheet names some gear for spraying. */
const naming = (spraying: Raw | null) => (day: Raw[]) => {
	const sheet = cartSheet(0);
	const materials = Object.fromEntries(
		Object.entries(sheet.materials).map(([id, paint]) => [
			id,
			{ ...paint, isocyanate: false, breathing: { mixing: null, spraying, sanding: null } },
		]),
	);
	return changed(day, like('day.opened'), { sheet: { ...sheet, materials } });
};

describe('property 11: an open item keeps the check open', () => {
	const left: Mutilation[] = [
		['an item of the list is not answered', day => without(day, extractor), /extractor was not answered/],
		[
			'an item of the list is answered no',
			day => changed(day, extractor, { passed: false }),
			/extractor was answered on/,
		],
		[
			'an answer that the list does not pass is passed',
			day => changed(day, extractor, { answer: 'off' }),
			/extractor was answered off/,
		],
		['the list was never begun', day => without(day, like('check.began')), /it was never begun/],
		[
			'the list was broken off half-way',
			day => {
				const broken = putAfter(day, like('item.answered', { item: 'mask' }), 'break.began', {
					kind: 'hold',
					by: 'painter',
				});
				return putAfter(broken, like('break.began'), 'break.ended', { kind: 'hold', by: 'painter' });
			},
			/extractor was not answered/,
		],
		[
			'an item of the gun check is open',
			day =>
				changed(day, like('check.began', { size: 'full' }), {
					items: ['mask', 'batch', 'gauge', 'hoses', 'pattern'],
				}),
			/hoses was not answered/,
		],
		[
			'isocyanate is sprayed through a filter',
			breathingAs('filter-mask'),
			/gets isocyanate, breathing gear: filter/,
		],
		[
			'paint is sprayed through a filter whose cartridge nobody names',
			day => naming(null)(breathingAs('filter-mask')(day)),
			/gets paint for which no cartridge is named, breathing gear: filter/,
		],
		['isocyanate is sprayed with no mask', breathingAs('none'), /gets isocyanate, breathing gear: none/],
		[
			'the air is too damp for its dew point',
			day => changed(day, like('air.read'), { humidity: 0.9 }),
			/K over dew point/,
		],
		['the air is too cold', day => changed(day, like('air.read'), { airC: 12 }), /air at 12 °C/],
		['the surface is too hot', day => changed(day, like('air.read'), { surfaceC: 40 }), /surface at 40 °C/],
		[
			'the day itself says do not spray',
			day => changed(day, like('air.read'), { spray: false }),
			/says do not spray/,
		],
	];
	test.each(left)('%s', (...mutilation) => expectFound(11, mutilation));

	const given: Mutilation[] = [
		['has no reason', day => passedOver(day, '', true), /passed over without a reason/],
		[
			'does not mark the faces sprayed under it',
			day => passedOver(day, 'motor away for repair', false),
			/not marked with extractor/,
		],
		[
			'is marked on a face and was never given',
			day => changed(day, like('face.started'), { overrides: ['window'] }),
			/which nobody gave/,
		],
		...['mask', 'breathing', 'hardener', 'pattern', 'batch'].map(
			(rule): Mutilation => [
				`passes over ${rule}`,
				day => putAfter(day, extractor, 'override.given', override(rule, 'in a hurry')),
				new RegExp(`${rule} cannot be passed over`),
			],
		),
	];
	test.each(given)('an override %s', (...mutilation) => expectFound(11, mutilation));

	test('a filter mask with the cartridge that the sheet names is sound for paint without isocyanate', () => {
		const named = naming({ gear: 'filter-mask', cartridge: 'A2-P3' });
		const day = breathingAs('filter-mask')(named(cartDay()));
		const answered = changed(day, like('item.answered', { item: 'mask' }), { answer: 'filter-mask' });
		expect(foundIn(answered)).toEqual([]);
	});

	test('an item passed over with a reason, and marked, is sound', () => {
		expect(foundIn(passedOver(cartDay(), 'motor away for repair', true))).toEqual([]);
	});

	test('a reason to spray in bad air ends with the next reading of it', () => {
		const air = like('air.read');
		const bad = changed(cartDay(), air, { spray: false }).map(record =>
			record.type === 'face.started' ? { ...record, overrides: ['air'] } : record,
		);
		const after = putAfter(bad, air, 'override.given', override('air', 'rain'));
		const before = putAfter(bad, like('day.opened'), 'override.given', override('air', 'rain'));
		expect(foundIn(after)).toEqual([]);
		expect(foundIn(before).map(({ property }) => property)).toContain(11);
	});

	test('an override for one face marks that face alone', () => {
		const day = cartDay();
		const n = find(day, like('wait.ended'));
		const one = putAfter(
			day,
			(_, at) => at === n,
			'override.given',
			override('window', 'rain', { face: lid, coat: 2 }),
		);
		expect(foundIn(one).map(({ property }) => property)).toEqual([11]);
		expect(
			foundIn(changed(one, like('face.started', { face: lid, coat: 2 }), { overrides: ['window'] })),
		).toEqual([]);
	});
});
