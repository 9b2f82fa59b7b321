import { describe, test } from 'vitest';
import { lid } from './cart-sheet.ts';
import { changed, find, like, putAfter, shifted, without } from './draft.ts';
import type { Raw } from './lines.ts';
import { expectFound, type Mutilation } from './mutilated.ts';

const poured = (component: string) => like('batch.poured', { component });
const firstStart = like('face.started');

/** Everything from the second coat of the lid on, later by so many minutes, with a check just before. */
function late(day: Raw[], minutes: number): Raw[] {
	const check = day[find(day, like('gun.checked'), 2)]?.check;
	return shifted(day, like('check.began', { check }), minutes * 60);
}

function colder(day: Raw[], airC: number): Raw[] {
	return changed(day, like('air.read'), { airC });
}

/** The can of the hardener is in the hand as soon as the base is in. */
const inHand = (day: Raw[]): Raw[] =>
	putAfter(day, poured('base'), 'reading.taken', {
		feature: 'can',
		value: 'cross',
		wanted: 'cross',
		matched: true,
		attempt: 1,
		check: null,
		face: null,
		coat: null,
		batch: 'A',
	});

describe('property 13: every batch in the cup has its hardener, stood, and is alive', () => {
	const faults: Mutilation[] = [
		['the hardener was never read', day => without(day, poured('hardener')), /hardener was never read/],
		['the hardener was short', day => changed(day, poured('hardener'), { found: 'short' }), /read as short/],
		[
			'the hardener is called right at half its level',
			day => changed(day, poured('hardener'), { level_mL: 250 }),
			/49\.0 of hardener went to 201\.0 of base/,
		],
		[
			'the wanted level of the hardener is not the ratio',
			day => changed(day, poured('hardener'), { level_mL: 250, wanted_mL: 250 }),
			/49\.0 of hardener went to 201\.0 of base/,
		],
		[
			'the hardener is called right and its level never rose',
			day => changed(day, poured('hardener'), { level_mL: 201, wanted_mL: 202 }),
			/never rose/,
		],
		[
			'the hardener is a tenth of itself short, and little of all that is in the pot',
			day => changed(day, poured('hardener'), { level_mL: 294 }),
			/93\.0 of hardener went to 201\.0 of base/,
		],
		['no level was keyed', day => changed(day, poured('hardener'), { level_mL: undefined }), /no level/],
		[
			"the reducer's can was in the hand",
			day => changed(day, poured('hardener'), { can: 'bar' }),
			/can bar, which holds cart-green reducer/,
		],
		[
			'the can has no mark of the day',
			day => changed(day, poured('hardener'), { can: 'star' }),
			/nothing known/,
		],
		[
			'too much hardener is not made good',
			day => changed(day, poured('hardener'), { level_mL: 340, found: 'over' }),
			/read as over/,
		],
		[
			'what it holds is unknown since a break',
			day =>
				putAfter(day, poured('hardener'), 'batch.found', {
					batch: 'A',
					found: 'unknown',
					component: 'reducer',
				}),
			/what it holds is unknown/,
		],
		['it did not stand', day => without(day, like('batch.stood')), /did not stand/],
		[
			'it stood for two minutes of five',
			day => shifted(day, like('batch.stood'), -180),
			/it stood 2\.\d min/,
		],
		[
			'it was not stirred after the last pour',
			day => without(day, like('batch.stepped', { step: 'stir' }), 3),
			/not stirred since it was poured last/,
		],
		['it stood before the hardener went in', day => stoodEarly(day), /stood without hardener/],
		['it was loaded before it was ready', day => without(day, like('batch.ready')), /not ready/],
		[
			'it was discarded',
			day => putAfter(day, like('batch.loaded'), 'batch.discarded', { batch: 'A', why: 'lumps' }),
			/it was discarded/,
		],
		['it was never loaded', day => without(day, like('batch.loaded')), /not ready|empty|in the cup/],
		['it is past its pot life', day => late(day, 95), /has used 1\d\d % of its pot life/],
		[
			'it is past its pot life from when the hardener was in the hand',
			day => shifted(inHand(day), poured('hardener'), 125 * 60),
			/has used 1\d\d % of its pot life/,
		],
		[
			'it is older than warm air lets it live',
			day => late(colder(day, 31), 40),
			/has used 2\d\d % of its pot life/,
		],
		[
			'the batch is of another material',
			day => changed(day, like('batch.started'), { material: 'cart-red' }),
			/never begun/,
		],
	];
	test.each(faults.filter(([name]) => name !== 'it was never loaded'))(
		'a face starts though %s',
		(...mutilation) => expectFound(13, mutilation),
	);

	test('a face starts from a cup that nothing was put into', () => {
		const names: Mutilation = [
			'',
			day => changed(day, firstStart, { cup: [] }).filter(r => r.type !== 'batch.loaded'),
			/empty cup/,
		];
		expectFound(13, names);
	});
});

function stoodEarly(day: Raw[]): Raw[] {
	const stood = find(day, like('batch.stood'));
	const hardener = find(day, poured('hardener'));
	const [record] = day.splice(stood, 1);
	const { at, mono } = day[hardener] ?? {};
	return day.toSpliced(hardener, 0, { ...record, at, mono });
}

describe('property 15: a face is tied to the check, the cup and the air it was sprayed under', () => {
	const loose: Mutilation[] = [
		['another check is named', day => changed(day, firstStart, { check: 1 }), /names check 1/],
		[
			'a check that does not exist is named',
			day => changed(day, firstStart, { check: 99 }),
			/names check 99/,
		],
		[
			'another batch is named',
			day => changed(day, firstStart, { cup: ['B'] }),
			/names cup B, in the cup is A/,
		],
		[
			'the check was passed on another cup',
			day => changed(day, like('gun.checked'), { cup: ['B'] }),
			/passed on cup B/,
		],
		['no air reading is named', day => changed(day, firstStart, { air: null }), /names air reading null/],
		[
			'the air reading named is another record',
			day => changed(day, firstStart, { air: 1 }),
			/names air reading 1/,
		],
		['the air was never read', day => without(day, like('air.read')), /in force is none/],
		[
			'the air was read nine hours ago',
			day => without(day, like('air.read'), 1),
			/more than 4 h before|in force is/,
		],
		['the batch was loaded after the check', day => loadedLate(day), /the check was passed on|in the cup is/],
	];
	test.each(loose)('%s', (...mutilation) => expectFound(15, mutilation));

	test('the air of the morning does not serve nine hours later', () => {
		const stale = (day: Raw[]) => {
			const morning = Number(day[find(day, like('air.read'))]?.seq);
			const rest = without(day, like('air.read'), 1);
			return rest.map(record => (record.type === 'face.started' ? { ...record, air: morning } : record));
		};
		expectFound(15, ['', stale, /read more than 4 h before/]);
	});
});

function loadedLate(day: Raw[]): Raw[] {
	const loaded = find(day, like('batch.loaded'));
	const [record] = day.splice(loaded, 1);
	const start = find(day, like('face.started', { face: lid }));
	const { at, mono } = day[start] ?? {};
	return day.toSpliced(start, 0, { ...record, at, mono });
}
