import { expect, test } from 'vitest';
import { standardLists } from '../by-chance/sheets.ts';
import { anyJobsOf } from './proof.ts';

/** Jobs by chance; `npm run prove` plays many more. */
const done = anyJobsOf(await standardLists(), 0, 14);

test('days by chance on sheets by chance keep every rule that a day file can decide', () => {
	expect(done.says).toEqual([]);
});

test('they come to coats and to the work between them', () => {
	expect(done.days).toBeGreaterThan(20);
	expect(done.starts).toBeGreaterThan(80);
	expect(done.steps).toBeGreaterThan(80);
});
