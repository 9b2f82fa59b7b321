import { expect, test } from 'vitest';
import { eventSchema, eventTypes, stampSchema } from '../../src/day/records.ts';
import { cartDay } from './checker/cart-day.ts';
import { knownKinds } from './checker/notes.ts';

test('the checker knows every type of record that a day file can hold, and no other', () => {
	const types = eventTypes;
	expect([...knownKinds].sort()).toEqual([...types].sort());
});

test.each([{}, { cards: true, killed: true, broken: 'part' as const }, { stretch: true }])(
	'the day that the checker is tested with is one that the program could have written: %j',
	vary => {
		for (const record of cartDay(vary)) {
			const { seq, run, at, mono, more, ...event } = record;
			expect(stampSchema.parse({ seq, run, at, mono, ...(more === true && { more }) })).toBeDefined();
			expect(() => eventSchema.parse(event)).not.toThrow();
		}
	},
);
