import fc from 'fast-check';
import { expect, test } from 'vitest';
import { noPulls, plannedPull_s, pull, pulledUntil_s } from '../../src/trade/pulls.ts';

test('pulls are summed, one under way at the end with them', () => {
	const lengths = fc.array(fc.tuple(fc.integer({ min: 0, max: 9000 }), fc.integer({ min: 0, max: 9000 })), {
		minLength: 1,
	});
	fc.assert(
		fc.property(lengths, fc.boolean(), (spans, isOpen) => {
			let at = 1_000_000;
			let said = noPulls;
			for (const [nth, [rest, pulled]] of spans.entries()) {
				at += rest;
				said = pull(said, true, at);
				at += pulled;
				if (!isOpen || nth < spans.length - 1) said = pull(said, false, at);
			}
			const sum = spans.reduce((all, [, pulled]) => all + pulled, 0);
			expect(pulledUntil_s(said, isOpen ? at : at + 5000)).toBeCloseTo(sum / 1000, 9);
		}),
	);
});

test('where no line spoke nothing is known, not nought', () => {
	expect(pulledUntil_s(noPulls, 5000)).toBeNull();
	expect(pulledUntil_s(pull(noPulls, false, 1000), 5000)).toBeNull();
});

test('the shop’s usual elapsed time is taken out of what was planned with it', () => {
	expect(plannedPull_s(60, { spray_s: 60 }, 4)).toBe(15);
	expect(plannedPull_s(60, { spray_s: 60 }, null)).toBe(60);
	expect(plannedPull_s(60, { spray_s: 60 }, undefined)).toBe(60);
	// Half a coat of 20 s trigger and 4 s of turns, given its usual 1.5 times.
	expect(plannedPull_s(18, { spray_s: 24, trigger_s: 20 }, 1.5)).toBe(10);
});
