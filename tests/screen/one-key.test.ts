import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
	type OneKeyEvent,
	type OneKeyOutput,
	oneKey,
	oneKeyDue,
	oneKeyStart,
} from '../../src/screen/one-key.ts';

const press = (at: number, repeat = false): OneKeyEvent => ({ is: 'press', at, repeat });
const at = (is: 'release' | 'screen' | 'stall' | 'time', when: number): OneKeyEvent => ({ is, at: when });

function given(events: OneKeyEvent[]): string[] {
	let state = oneKeyStart;
	const out: string[] = [];
	const show = (output: OneKeyOutput) => {
		if (output.give === 'echo') return `${output.presses}`;
		return output.give === 'choice'
			? `${output.corner}?`
			: output.give === 'corner'
				? output.corner
				: output.give;
	};
	const step = (event: OneKeyEvent) => {
		const next = oneKey(state, event);
		state = next.state;
		out.push(...next.out.map(show));
	};
	for (const event of events) {
		for (let due = oneKeyDue(state); due !== null && due < event.at; due = oneKeyDue(state))
			step(at('time', due));
		step(event);
	}
	return out;
}

describe('one key', () => {
	test('one to four presses choose a corner in reading order, each press echoed', () => {
		expect(given([press(0), at('time', 900)])).toEqual(['1', 'topLeft?']);
		expect(given([press(0), press(300), press(600), at('time', 1500)])).toEqual([
			'1',
			'2',
			'3',
			'bottomLeft?',
		]);
		expect(given([0, 200, 400, 600].map(when => press(when)).concat(at('time', 1600)))).toEqual([
			'1',
			'2',
			'3',
			'4',
			'bottomRight?',
		]);
	});

	test('a further press after the pause confirms, once it stands alone', () => {
		const chosen = [press(0), press(300), at('time', 1200)];
		expect(given([...chosen, press(2000), at('time', 2399)])).toEqual(['1', '2', 'topRight?', '1']);
		expect(given([...chosen, press(2000), at('time', 2400)])).toEqual([
			'1',
			'2',
			'topRight?',
			'1',
			'topRight',
		]);
	});

	test('more presses after the pause choose again instead', () => {
		expect(given([press(0), at('time', 900), press(2000), press(2200), at('time', 3100)])).toEqual([
			'1',
			'topLeft?',
			'1',
			'2',
			'topRight?',
		]);
	});

	test('a choice that nobody confirms is let go', () => {
		expect(given([press(0), at('time', 9000)])).toEqual(['1', 'topLeft?', 'let-go']);
	});

	test('five presses are no answer', () => {
		expect(given([0, 200, 400, 600, 800].map(when => press(when)).concat(at('time', 1700)))).toEqual([
			'1',
			'2',
			'3',
			'4',
			'5',
			'let-go',
		]);
	});

	test('six presses are hold at once, also over a choice, which they never confirm', () => {
		const six = [2000, 2200, 2400, 2600, 2800, 3000].map(when => press(when));
		expect(given([press(0), at('time', 900), ...six, at('time', 9000)])).toEqual([
			'1',
			'topLeft?',
			'1',
			'2',
			'3',
			'4',
			'5',
			'hold',
		]);
	});

	test('held down is hold: by a terminal’s own repeats', () => {
		const held = [0, 500, ...Array.from({ length: 20 }, (_, index) => 533 + index * 33)];
		expect(given([...held.map(when => press(when)), at('time', 4000)])).toEqual(['1', '2', 'hold']);
	});

	test('held down is hold: where the terminal reports releases', () => {
		expect(given([press(0), at('release', 100), at('time', 2000), press(2000), at('time', 3400)])).toContain(
			'hold',
		);
		expect(given([press(0), press(500, true), press(900, true), at('time', 1200)])).toEqual(['1', 'hold']);
	});

	test('a bouncing contact is one press', () => {
		expect(given([press(0), press(15), press(40), at('time', 960)])).toEqual(['1', 'topLeft?']);
	});

	test('presses in the first half second of a screen choose nothing, but six are still hold', () => {
		expect(given([at('screen', 0), press(400), press(600), at('time', 1600)])).toEqual(['let-go']);
		const six = [100, 250, 400, 550, 700, 850].map(when => press(when));
		expect(given([at('screen', 0), ...six])).toEqual(['hold']);
	});

	test('a choice belongs to its screen, and to nothing that was waiting in a stall', () => {
		expect(given([press(0), at('time', 900), at('screen', 1000), press(2000), at('time', 2400)])).toEqual([
			'1',
			'topLeft?',
			'1',
		]);
		expect(given([press(0), at('time', 900), at('stall', 1000), press(1001), at('time', 1500)])).toEqual([
			'1',
			'topLeft?',
		]);
	});
});

test('no run of presses gives more answers than presses, and none without a choice shown before it', () => {
	const waits = fc.array(fc.tuple(fc.nat(1500), fc.boolean()), { maxLength: 40 });
	fc.assert(
		fc.property(waits, steps => {
			let now = 0;
			const events = steps.map(([wait, screen]): OneKeyEvent => {
				now += wait;
				return screen && wait % 7 === 0 ? at('screen', now) : press(now);
			});
			const out = given([...events, at('time', now + 20_000)]);
			let choice = '';
			for (const said of out) {
				if (said.endsWith('?')) choice = said;
				else if (/^(top|bottom)/.test(said)) {
					expect(`${said}?`).toBe(choice);
					choice = '';
				}
			}
			const answers = out.filter(said => /^(top|bottom)\w+$/.test(said)).length;
			expect(answers * 2).toBeLessThanOrEqual(steps.length);
		}),
		{ numRuns: 500 },
	);
});
