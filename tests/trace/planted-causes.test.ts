import { expect, test } from 'vitest';
import { unseen } from './generator/seeds.ts';
import { score } from './planted.ts';

test('over 1,000 unseen jobs the true cause is found as often as the records allow', () => {
	const found = score(unseen);
	const told = (count: number) => count / found.told;
	expect(found.cases).toBe(1000);
	expect(found.causes).toBeGreaterThanOrEqual(10);
	expect(told(found.first), 'true cause first').toBeGreaterThanOrEqual(0.85);
	expect(told(found.inThree), 'true cause in the first three').toBeGreaterThanOrEqual(0.97);
	expect(found.held, 'affected faces within the exposed list').toBe(found.cases);
	expect(told(found.heldByLikely), 'affected faces within the short list').toBeGreaterThanOrEqual(0.97);
	expect(found.excess, 'exposed for each affected').toBeLessThan(20);
	expect(found.excessOfLikely, 'short list for each affected').toBeLessThan(5);
	expect(found.named, 'what was not read is said where the records cannot tell').toBe(found.untold);
	expect(found.saidSo / found.untold, 'said outright that they cannot tell').toBeGreaterThan(0.55);
});
