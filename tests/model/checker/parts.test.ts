import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { changed, like, putAfter } from './draft.ts';
import type { Raw } from './lines.ts';
import { expectFound, foundIn, type Mutilation } from './mutilated.ts';

/** The first batch of the day: 400 mL of 2:1:1, poured to 201, 301 and 401 mL. The bound of 5 % is the project's own. */
const poured = (component: string) => like('batch.poured', { component });
const begun = like('batch.started');
const making = (day: Raw[], make_mL: number) => changed(day, begun, { make_mL });

describe('property 22: a batch is one that the marks of its pot give, and no pour is right further off than 5 %', () => {
	const faults: Mutilation[] = [
		[
			'the base is called right 6 % short',
			day => changed(day, poured('base'), { level_mL: 188 }),
			/base is called right at 188, wanted was 200/,
		],
		[
			'the hardener is called right 6 % over',
			day => changed(day, poured('hardener'), { level_mL: 307 }),
			/hardener is called right at 307/,
		],
		[
			'the reducer is called right 6 % over, little of all that is in the pot',
			day => changed(day, poured('reducer'), { level_mL: 407 }),
			/reducer is called right at 407/,
		],
		[
			'6 mL, a quarter of it hardener, by millilitres',
			day => making(day, 6),
			/do not give 1\.50 of hardener/,
		],
		[
			'half a fluid ounce by tenths of one',
			day => changed(making(day, 14.8), like('day.opened'), { settings: { units: 'us' } }),
			/marks 2\.95735 apart do not give/,
		],
	];
	test.each(faults)('%s', (...fault) => expectFound(22, fault));
});

test('so little read by finer marks, with a reason: nothing is said of the parts', () => {
	const given = { rule: 'marks', reason: 'measured with a syringe', face: null, coat: null, batch: 'A' };
	const little = making(cartDay(), 6);
	const read = putAfter(little, begun, 'override.given', given);
	expect(foundIn(little).filter(({ property }) => property === 22)).not.toEqual([]);
	expect(foundIn(read).filter(({ property }) => property === 22)).toEqual([]);
});
