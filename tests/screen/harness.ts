import { EventEmitter } from 'node:events';
import { PassThrough, Writable } from 'node:stream';
import xterm from '@xterm/headless';
import type { Answer, View } from '../../src/day/view.ts';
import { layoutOf } from '../../src/screen/keys/layouts.ts';
import { runScreen, type ScreenSetup } from '../../src/screen/run.ts';
import type { Session } from '../../src/screen/session-port.ts';
import { testClock } from './test-clock.ts';

/** A terminal read back from the bytes that were written to it. */
export function readBack(columns: number, rows: number) {
	const terminal = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 100 });
	const bytes: string[] = [];
	const line = (row: number) => terminal.buffer.active.getLine(terminal.buffer.active.viewportY + row);
	return {
		terminal,
		bytes,
		write(chunk: string): Promise<void> {
			bytes.push(chunk);
			return new Promise(done => terminal.write(chunk, done));
		},
		lines: () => Array.from({ length: terminal.rows }, (_, row) => line(row)?.translateToString(true) ?? ''),
		/** Whether every cell that a frame may use is in reverse video. */
		reversed: () =>
			Array.from({ length: terminal.rows - 1 }, (_, row) =>
				Array.from({ length: terminal.cols }, (_, column) => line(row)?.getCell(column)?.isInverse() !== 0),
			)
				.flat()
				.every(Boolean),
	};
}

/** A session that shows what it is told to and keeps what it is answered. */
export function fakeSession(first: View) {
	let changed = () => {};
	const log: (Answer | string)[] = [];
	const fake = {
		view: first,
		log,
		/** How often it was looked at. */
		looks: 0,
		/** What the next answers lead to. */
		answers: (_: Answer): { accepted: boolean; reason?: { code: string; text: string } } => ({
			accepted: true,
		}),
		change(to: View) {
			fake.view = to;
			changed();
		},
	};
	const session: Session = {
		tick() {},
		view() {
			fake.looks++;
			return fake.view;
		},
		answer(answer) {
			log.push(answer);
			return fake.answers(answer);
		},
		onChange(told) {
			changed = told;
			return () => {
				changed = () => {};
			};
		},
		break: kind => log.push(kind),
		close: () => log.push('closed'),
		moveClock: by_ms => log.push(`clock +${by_ms}`),
		sayAgain: () => log.push('again'),
	};
	return { fake, session };
}

/** A terminal that is not there, with a clock that is moved by hand. */
export function fakeTerminal(size = { columns: 80, rows: 24 }) {
	const clock = testClock();
	const screen = readBack(size.columns, size.rows);
	const stdin = Object.assign(new PassThrough(), {
		isTTY: true,
		raw: false,
		setRawMode(raw: boolean) {
			stdin.raw = raw;
		},
	});
	let written: Promise<void> = Promise.resolve();
	const stdout = Object.assign(
		new Writable({
			write(chunk, _, done) {
				written = screen.write(String(chunk));
				done();
			},
		}),
		{ ...size, isTTY: true },
	);
	const signals = new EventEmitter();
	const stops: number[] = [];
	return {
		clock,
		screen,
		stdin,
		stdout,
		signals,
		stops,
		ports: { stdin, stdout, clock, signals, stop: () => void stops.push(clock.mono()) },
		async type(bytes: string) {
			stdin.write(bytes);
			await new Promise(done => setImmediate(done));
		},
		async shown() {
			await written;
			return screen.lines().join('\n');
		},
		resize(columns: number, rows: number) {
			stdout.columns = columns;
			stdout.rows = rows;
			screen.terminal.resize(columns, rows);
			stdout.emit('resize');
		},
	};
}

/** A day's screen on such a terminal. */
export function atDesk(first: View, size = { columns: 80, rows: 24 }, over: Partial<ScreenSetup> = {}) {
	const terminal = fakeTerminal(size);
	const { fake, session } = fakeSession(first);
	const setup: ScreenSetup = { layout: layoutOf('us', null), oneKey: false, style: 'half', ...over };
	const ending = runScreen({ ...terminal.ports, session }, setup);
	return { ...terminal, fake, ending };
}
