import { expect, test } from 'vitest';
import * as z from 'zod/mini';
import { settingsSchema } from '../../src/day/settings.ts';
import { standardSettings } from '../../src/day/standard-settings.ts';

test('no settings at all are the standard ones', () => {
	expect(settingsSchema.parse({})).toMatchObject({ by: 'auto', settle_s: 10, checkAge_min: 20 });
	expect(z.strictObject(settingsSchema.shape).parse({})).toEqual(standardSettings);
	expect(z.strictObject(settingsSchema.shape).parse(standardSettings)).toEqual(standardSettings);
});

test('a threshold below its floor is refused', () => {
	expect(settingsSchema.safeParse({ settle_s: 3 }).success).toBe(false);
	expect(settingsSchema.safeParse({ margin_C: 0 }).success).toBe(false);
	expect(settingsSchema.safeParse({ checkAge_min: 240 }).success).toBe(false);
});
