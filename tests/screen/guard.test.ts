import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Corner, corners } from '../../src/day/view.ts';
import {
	type GuardEvent,
	type GuardOutput,
	guard,
	guardDue,
	guardStart,
} from '../../src/screen/keys/guard.ts';

const struck = (corner: Corner, at: number, repeat = false): GuardEvent => ({
	is: 'corner',
	corner,
	at,
	repeat,
});
const at = (is: 'hold' | 'type' | 'screen' | 'stall' | 'time', when: number): GuardEvent => ({
	is,
	at: when,
});

function given(events: GuardEvent[]): string[] {
	let state = guardStart;
	const out: string[] = [];
	const show = (output: GuardOutput) =>
		output.give === 'corner' ? output.corner : output.give === 'notice' ? output.notice : output.give;
	for (const event of events) {
		const due = guardDue(state);
		const steps = due !== null && due < event.at ? [at('time', due), event] : [event];
		for (const next of steps) {
			const step = guard(state, next);
			state = step.state;
			out.push(...step.out.map(show));
		}
	}
	return out;
}

describe('the key guard', () => {
	test('a corner counts once its chord time is out', () => {
		expect(given([struck('topLeft', 0), at('time', 59)])).toEqual([]);
		expect(given([struck('topLeft', 0), at('time', 60)])).toEqual(['topLeft']);
	});

	test('repeats count once, measured from the last one seen', () => {
		const held = [0, 400, 800, 1200, 1600].map(when => struck('topLeft', when));
		expect(given([...held, at('time', 2000)])).toEqual(['topLeft']);
		expect(given([...held, struck('topLeft', 2101), at('time', 2200)])).toEqual(['topLeft', 'topLeft']);
	});

	test('a repeat that the terminal names never counts, however slow', () => {
		expect(given([struck('topLeft', 0), struck('topLeft', 900, true), at('time', 2000)])).toEqual([
			'topLeft',
		]);
	});

	test('two blocks together count as none, and say so', () => {
		expect(given([struck('topLeft', 0), struck('topRight', 59), at('time', 900)])).toEqual(['two-blocks']);
		expect(given([struck('topLeft', 0), struck('topRight', 61), at('time', 900)])).toEqual([
			'topLeft',
			'topRight',
		]);
		expect(
			given([struck('topLeft', 0), struck('topRight', 30), struck('bottomLeft', 80), at('time', 900)]),
		).toEqual(['two-blocks']);
	});

	test('keys struck in the first half second of a screen are dropped', () => {
		expect(given([at('screen', 0), struck('topLeft', 499), at('time', 900)])).toEqual(['too-soon']);
		expect(given([at('screen', 0), struck('topLeft', 500), at('time', 900)])).toEqual(['topLeft']);
	});

	test('a corner meant for one screen is never given to the next', () => {
		expect(given([struck('topLeft', 0), at('screen', 30), at('time', 900)])).toEqual([]);
	});

	test('a corner that has waited long enough as the screen changes is still not given', () => {
		const pending = guard(guardStart, struck('topLeft', 0)).state;
		expect(guard(pending, at('screen', 100))).toMatchObject({ out: [], state: { pending: null } });
	});

	test('what was waiting while the program stood still is dropped', () => {
		expect(given([at('stall', 0), struck('topRight', 1), struck('topLeft', 499)])).toEqual([
			'after-stall',
			'after-stall',
		]);
		const pending = guard(guardStart, struck('topLeft', 0)).state;
		expect(guard(pending, at('stall', 50)).state.pending).toBeNull();
	});

	test('a corner whose second half may have been lost in a stall does not count', () => {
		const pending = guard(guardStart, struck('topLeft', 0)).state;
		expect(guard(pending, at('time', 309)).out).toEqual([{ give: 'corner', corner: 'topLeft' }]);
		expect(guard(pending, at('time', 310)).out).toEqual([{ give: 'notice', notice: 'after-stall' }]);
	});

	test('hold passes at once and lets go of a waiting corner', () => {
		expect(given([struck('topLeft', 0), at('hold', 10), at('time', 900)])).toEqual(['hold']);
		expect(given([at('screen', 0), at('hold', 1), at('stall', 2), at('hold', 3), at('hold', 4)])).toEqual([
			'hold',
			'hold',
			'hold',
		]);
		expect(given([struck('topLeft', 0), struck('topRight', 10), at('hold', 11)])).toEqual([
			'two-blocks',
			'hold',
		]);
	});

	test('a number whose first digit came too soon loses all of it, not its head', () => {
		expect(given([at('screen', 0), at('type', 450), at('type', 600), at('type', 900)])).toEqual(['too-soon']);
		expect(given([at('screen', 0), at('type', 450), at('type', 951), at('type', 960)])).toEqual([
			'too-soon',
			'type',
			'type',
		]);
	});
});

const anyEvent = fc.oneof(
	fc.record({
		is: fc.constant('corner' as const),
		corner: fc.constantFrom(...corners),
		repeat: fc.boolean(),
	}),
	fc.constantFrom(
		{ is: 'hold' as const },
		{ is: 'type' as const },
		{ is: 'screen' as const },
		{ is: 'stall' as const },
		{ is: 'time' as const },
	),
);

test('one key gives at most one answer, and hold always gives exactly its own', () => {
	fc.assert(
		fc.property(fc.array(fc.tuple(anyEvent, fc.nat(700)), { maxLength: 60 }), steps => {
			let state = guardStart;
			let now = 0;
			let keys = 0;
			let answers = 0;
			for (const [event, wait] of steps) {
				now += wait;
				const step = guard(state, { ...event, at: now });
				state = step.state;
				const made = step.out.filter(output => output.give !== 'notice');
				if (event.is === 'hold') expect(made).toEqual([{ give: 'hold' }]);
				if (event.is === 'corner' || event.is === 'hold' || event.is === 'type') keys++;
				answers += made.length;
				expect(answers).toBeLessThanOrEqual(keys);
			}
		}),
		{ numRuns: 1000 },
	);
});

test('two answers from one corner lie at least half a second apart', () => {
	fc.assert(
		fc.property(fc.array(fc.nat(700), { maxLength: 60 }), waits => {
			let now = 0;
			const events = waits.map(wait => {
				now += wait;
				return struck('topLeft', now);
			});
			const far = waits.filter((wait, index) => index === 0 || wait >= 500).length;
			expect(given([...events, at('time', now + 60)])).toHaveLength(waits.length === 0 ? 0 : far);
		}),
	);
});
