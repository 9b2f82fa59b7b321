import { constants } from 'node:os';
import { tooSmall } from './arrange.ts';
import { type Desk, openDesk } from './desk.ts';
import { openFace } from './face.tsx';
import type { HandsSetup } from './hands.ts';
import { openKeyboard } from './keyboard.ts';
import type { Key } from './keys/key.ts';
import type { GlyphStyle } from './letters.ts';
import type { ScreenClock, Session } from './session-port.ts';
import { openTerminal, type Signals, type TerminalInput, type TerminalOutput } from './terminal.ts';

export type ScreenSetup = HandsSetup & { style: GlyphStyle };
export type ScreenPorts = {
	stdin: TerminalInput;
	stdout: TerminalOutput;
	clock: ScreenClock;
	/** `process`, or what stands in for it. */
	signals: Signals;
	session: Session;
	/** Stops this process as job control does; it comes back from the call when it is continued, or soon after. */
	stop(): void;
};

/** Why the screen was left, and what the program should end with. */
export type Left = { why: 'closed' | 'left' | 'hangup' | 'signal'; status: number };

const endings = ['SIGHUP', 'SIGINT', 'SIGQUIT', 'SIGTERM'] as const;
const statusOf = (signal: (typeof endings)[number]) => 128 + constants.signals[signal];

type Listening = [from: Signals, event: string, listener: () => void];

/**
 * Runs a day's screen until it is left. However it is left, the terminal is given back as it was and the session
 * is closed; a hangup, a signal and a stop are breaks of the day.
 *
 * @returns why it was left
 * @throws what a drawing has thrown; anything else that throws ends the program after the terminal was given back
 */
export function runScreen(ports: ScreenPorts, setup: ScreenSetup): Promise<Left> {
	return new Promise((resolve, reject) => open(ports, setup, resolve, reject));
}

function open(
	ports: ScreenPorts,
	setup: ScreenSetup,
	resolve: (left: Left) => void,
	reject: (error: unknown) => void,
): void {
	const { stdin, stdout, clock, signals, session } = ports;
	const terminal = openTerminal(stdin, stdout);
	const listening: Listening[] = [];
	const listen = (...one: Listening) => {
		listening.push(one);
		one[0].on(one[1], one[2]);
	};
	let stopped = false;
	let parts: { desk: Desk; close(): void } | null = null;

	const end = (then: () => void) => {
		const closing = parts;
		if (!closing) return;
		parts = null;
		for (const [from, event, listener] of listening) from.off(event, listener);
		closing.close();
		terminal.leave();
		session.close();
		then();
	};
	const cutOff = (left: Left) => {
		if (parts) session.break('hangup');
		end(() => resolve(left));
	};
	const hangup = () => cutOff({ why: 'hangup', status: statusOf('SIGHUP') });
	const suspend = () => {
		stopped = true;
		session.break('suspend');
		terminal.leave();
		ports.stop();
	};
	const carryOn = () => {
		if (!stopped) session.break('suspend');
		stopped = false;
		terminal.enter();
		face.forget();
		keyboard.forget();
		desk.stood();
		desk.refresh();
	};
	const heard = (key: Key) => (key.key === 'key-report' ? terminal.reportsKeys() : parts?.desk.key(key));

	terminal.enter();
	const face = openFace(terminal, setup.style, error => end(() => reject(error)));
	const desk = openDesk(
		{
			session,
			clock,
			show: face.show,
			blind: () => tooSmall(terminal.size()),
			leave: why => (why === 'closed' ? end(() => resolve({ why, status: 0 })) : cutOff({ why, status: 0 })),
			suspend,
		},
		setup,
	);
	const keyboard = openKeyboard(stdin, clock, { onKey: heard, onStall: desk.stood });
	parts = {
		desk,
		close() {
			keyboard.close();
			desk.close();
			face.close();
		},
	};
	for (const signal of endings)
		listen(signals, signal, () => cutOff({ why: 'signal', status: statusOf(signal) }));
	listen(signals, 'SIGTSTP', suspend);
	listen(signals, 'SIGCONT', carryOn);
	listen(signals, 'uncaughtExceptionMonitor', terminal.leave);
	listen(signals, 'exit', terminal.leave);
	listen(stdin, 'end', hangup);
	// Kept after the end: a terminal that has gone may say so only when it is given back.
	stdin.on('error', hangup);
	stdout.on('error', hangup);
	listen(stdout, 'resize', () => {
		face.forget();
		desk.draw();
	});
}
