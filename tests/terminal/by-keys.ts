import type { Clock } from '../../src/day/clock.ts';
import type { Line, Rehearsal } from '../../src/day/rehearsal.ts';
import { runningClock } from '../../src/day/running-clock.ts';
import { openSession, type Sink } from '../../src/day/session.ts';
import { settingsSchema } from '../../src/day/settings.ts';
import { runScreen } from '../../src/screen/run.ts';
import { portOf } from '../../src/screen/session-port.ts';
import { setupOf } from '../../src/screen/show-day.ts';
import { parseQuantity } from '../../src/trade/quantity.ts';
import { fakeTerminal } from '../screen/harness.ts';
import type { TestClock } from '../screen/test-clock.ts';

const keyOf: Record<string, string> = {
	'top-left': 'e',
	'top-right': 'i',
	'bottom-left': 'x',
	'bottom-right': ',',
	hold: ' ',
};

/** The day's two clocks, going as the screen's own is moved. */
function dayClock(clock: TestClock, start: number): Clock {
	let callOff = () => {};
	const wall = () => start + clock.mono();
	return {
		now: () => ({ wall: wall(), mono: clock.mono() }),
		wakeAt(at, wake) {
			callOff();
			callOff = at === null ? () => {} : clock.after(Math.max(0, at - wall()), wake);
		},
	};
}

export type ByKeys = Rehearsal & {
	/** What a person sees. */
	screen(): Promise<string>;
	/** Every chunk of bytes written to the terminal. */
	bytes: string[];
	/** Lets time pass without a key. */
	pass(wait_ms: number): void;
	type(bytes: string): void;
};

/**
 * A rehearsal answered through the terminal: each line becomes bytes of keys, struck as a patient person would, and
 * goes the whole way from the parser to the day file and back to the bytes that draw the screen.
 */
export function byKeys(open: () => Sink, start: number, size = { columns: 80, rows: 24 }): ByKeys {
	const terminal = fakeTerminal(size);
	const clock = runningClock(dayClock(terminal.clock, start));
	const session = openSession({ sink: open(), clock, rehearsal: true });
	let last: { accepted: boolean; reason?: { code: string; text: string } } = { accepted: true };
	const port = portOf(session, clock.forward);
	const left = runScreen(
		{
			...terminal.ports,
			session: {
				...port,
				answer(answer) {
					last = port.answer(answer);
					return last;
				},
			},
		},
		setupOf(settingsSchema.parse({}), { LANG: 'C.UTF-8' }),
	);
	void left;
	const type = (bytes: string) => void terminal.stdin.emit('data', Buffer.from(bytes));
	const line = (events: string[] = []): Line => {
		const { rehearsal: _, ...view } = session.view();
		return { ...view, events, ...last };
	};
	const wait = (words: string) => {
		const parsed = parseQuantity(words, 'time');
		if (!parsed.ok) throw new Error(parsed.message);
		const minutes = Math.floor(parsed.value / 60);
		type('\u001b[A'.repeat(Math.floor(minutes / 10)));
		type('\u001b[C'.repeat(minutes % 10));
		terminal.clock.pass(Math.ceil((parsed.value - minutes * 60) * 1000));
	};
	return {
		first: () => line(),
		take(given) {
			last = { accepted: false, reason: { code: 'not-struck', text: `"${given}" reached no answer` } };
			const [word = '', ...rest] = given.split(' ');
			if (word === 'wait') {
				wait(rest.join(' '));
				last = { accepted: true };
				return line();
			}
			if (word !== 'hold') terminal.clock.pass(510);
			type(word === 'number' ? `${rest.join('')}\r` : (keyOf[word] ?? ''));
			terminal.clock.pass(60);
			return line();
		},
		session: () => session,
		close: () => type('\u0003'),
		screen: terminal.shown,
		bytes: terminal.screen.bytes,
		pass: terminal.clock.pass,
		type,
	};
}
