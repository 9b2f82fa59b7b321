import { expect, test } from 'vitest';
import { parseJob } from '../../src/job/load.ts';
import { altered, complaintsOf } from './altered.ts';

const written = '[stir, base, hardener, reducer, stand, strain, cup]';
const orderOf = (order: string): string => {
	const loaded = parseJob(altered(written, order), 'cart.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(({ says }) => says).join(', '));
	return loaded.job.materials.primer?.order.join(', ') ?? '';
};

// Common practice, no source: two-part paint is stirred to the sides and the bottom of its pot before it stands or is sprayed.
test.each([
	[written, 'stir, base, hardener, reducer, stir, stand, stir, strain, cup'],
	[
		'[stir, base, hardener, stand, reducer, strain, cup]',
		'stir, base, hardener, stir, stand, stir, reducer, stir, strain, cup',
	],
	[
		'[stir, base, hardener, stir, reducer, stand, strain, cup]',
		'stir, base, hardener, stir, reducer, stir, stand, stir, strain, cup',
	],
	[
		'[stir, base, hardener, stir, reducer, stir, stand, stir, strain, cup]',
		'stir, base, hardener, stir, reducer, stir, stand, stir, strain, cup',
	],
])('%s: the pot is stirred after what was poured last, and again after it has stood', (order, stirred) => {
	expect(orderOf(order)).toBe(stirred);
});

test('the base is still stirred in its can before anything is poured', () => {
	const order = '[base, hardener, stir, reducer, stir, stand, strain, cup]';
	expect(complaintsOf(altered(written, order)).join()).toContain('base comes before stir; put stir first');
});
