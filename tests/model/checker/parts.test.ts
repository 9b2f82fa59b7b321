import { describe, test } from 'vitest';
import { changed, like } from './draft.ts';
import { expectFound, type Mutilation } from './mutilated.ts';

/** The first batch of the day: 400 mL of 2:1:1, poured to 201, 301 and 401 mL. The bound of 5 % is the project's own. */
const poured = (component: string) => like('batch.poured', { component });

describe('property 22: no pour is right further off than 5 %', () => {
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
	];
	test.each(faults)('%s', (...fault) => expectFound(22, fault));
});
