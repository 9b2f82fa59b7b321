import { expect, test } from 'vitest';
import { standardLists } from './by-chance/sheets.ts';
import { onePaintOn } from './one-paint/days.ts';
import { onePaintWith, paintMutants } from './one-paint/mutants.ts';

/** `PAINT_SHEETS=1000` plays as many as `npm run prove`. */
const { PAINT_SHEETS = '12' } = process.env;

test('21: plan, day, cup and report say one figure of paint, worked out from flow × time', async () => {
	const { says, ...sum } = onePaintOn(await standardLists(), 0, Number(PAINT_SHEETS));
	expect(says).toEqual([]);
	expect(sum.figures).toBeGreaterThan(100 * sum.sheets);
	expect(sum.starts).toBeGreaterThan(8 * sum.sheets);
	expect(sum.cups).toBeGreaterThan(5);
}, 3_600_000);

/** One of plan, of learning, of the day, of its cup and of the report; the others are for `npm run prove`. */
const some = [
	'a batch is sized as if its transfer were sure',
	'learning divides by what lands',
	'a batch mixed on the day leaves nothing in pot and strainer',
	'a face broken off and finished is taken from the cup twice',
	'the report wants what the sheet plans, whatever the shop has learned',
];

test.each(paintMutants.filter(({ what }) => some.includes(what)))(
	'caught: $what',
	async mutant => {
		const play = await onePaintWith(mutant);
		expect(play(await standardLists(), 0, 5, 1).says).not.toEqual([]);
	},
	3_600_000,
);
