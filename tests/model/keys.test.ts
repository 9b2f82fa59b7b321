import { expect, test } from 'vitest';
import { chanceOf } from './keys/chance.ts';
import { noise, pieces } from './keys/noise.ts';
import { proveKeys } from './keys/prove.ts';

test('20,000 random keys, cut and merged, with pastes and sequences: nothing unchecked, no error, one answer a key', () => {
	const proof = proveKeys(20_000);
	expect(proof.says).toEqual([]);
	expect(proof.verdict).toBe('holds');
	expect(proof.keys).toBeGreaterThanOrEqual(20_000);
	expect(proof.faces).toBeGreaterThan(50);
	expect(proof.restarts).toBeGreaterThan(5);
});

test('pieces are the bytes they were cut from', () => {
	const chance = chanceOf(3);
	for (let count = 0; count < 2000; count++) {
		const bytes = noise(chance);
		expect(Buffer.concat(pieces(bytes, chance)).equals(bytes)).toBe(true);
	}
});
