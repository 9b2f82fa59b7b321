import { expect } from 'vitest';
import { cartDay, type Variation } from './cart-day.ts';
import { checkDayFile } from './check.ts';
import { seal } from './draft.ts';
import type { Property } from './finding.ts';
import type { Raw } from './lines.ts';

/** A way to spoil a sound day. */
export type Mutilation = [
	name: string,
	spoil: (day: Raw[]) => Raw[],
	says: RegExp,
	vary?: Partial<Variation>,
];

/** What is found in a day spoiled so. */
export const foundIn = (records: Raw[]) => checkDayFile(seal(records));

/** The spoiled day breaks this property in these words, and the day before it was spoiled is sound. */
export function expectFound(property: Property, [, spoil, says, vary]: Mutilation): void {
	const sound = cartDay(vary);
	expect(foundIn(sound)).toEqual([]);
	const found = foundIn(spoil(structuredClone(sound)));
	expect(found).toContainEqual({ property, line: expect.any(Number), says: expect.stringMatching(says) });
}
