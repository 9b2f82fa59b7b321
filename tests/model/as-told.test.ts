import { expect, test } from 'vitest';
import { asToldOn, mostShort } from './as-told/days.ts';
import { standardLists } from './by-chance/sheets.ts';

/** `TOLD_DAYS=1000` plays as many as `npm run prove`. */
const { TOLD_DAYS = '20' } = process.env;

test("a painter who sprays as told runs short inside a face no oftener than the sheet's risk", async () => {
	const told = asToldOn(await standardLists(), 0, Number(TOLD_DAYS));
	expect(told.batches).toBeGreaterThan(told.days);
	expect(told.passes).toBeGreaterThan(10 * told.days);
	expect(told.short, JSON.stringify(told)).toBeLessThanOrEqual(mostShort(told));
}, 3_600_000);

test('one whose paint strays three times as far does', async () => {
	const told = asToldOn(await standardLists(), 0, 6, 3);
	expect(told.short).toBeGreaterThan(mostShort(told));
}, 3_600_000);
