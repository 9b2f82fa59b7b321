import { expect, test } from 'vitest';
import { unseen } from './generator/seeds.ts';
import { score } from './planted.ts';

/** One hand wrote these days; what they hold is no bar, only that what is claimed is so. */
test('over unseen jobs what is told is so, and the true cause is never dropped', () => {
	const found = score({ ...unseen, count: 200 });
	const told = found.words.told ?? { said: 0, right: 0 };
	expect(found.cases).toBe(200);
	expect(found.causes).toBeGreaterThanOrEqual(10);
	expect(told.said, 'told at all').toBeGreaterThan(20);
	expect(told.right / told.said, 'told and so').toBeGreaterThanOrEqual(0.95);
	expect((told.said - told.right) / found.cases, 'told and wrong').toBeLessThanOrEqual(0.02);
	expect(found.absent / found.cases, 'true cause no candidate').toBeLessThanOrEqual(0.01);
	expect(found.inThree / found.cases, 'true cause in the first three').toBeGreaterThan(0.75);
	expect(found.held / found.cases, 'every affected face exposed').toBeGreaterThan(0.85);
});
