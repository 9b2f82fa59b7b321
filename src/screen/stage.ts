import { tooSmall } from './arrange.ts';
import { endings, statusOf } from './endings.ts';
import { type Face, openFace } from './face.tsx';
import { openKeyboard } from './keyboard.ts';
import type { Key } from './keys/key.ts';
import type { GlyphStyle } from './letters.ts';
import type { Size } from './passing.ts';
import type { ScreenClock } from './session-port.ts';
import { openTerminal, type Signals, type TerminalInput, type TerminalOutput } from './terminal.ts';

export type StagePorts = {
	stdin: TerminalInput;
	stdout: TerminalOutput;
	clock: ScreenClock;
	/** `process`, or what stands in for it. */
	signals: Signals;
	/**
	 * Stops this process as job control does; it comes back from the call when it is continued, or soon after. Null on a
	 * system that has no job control: the key then does nothing.
	 */
	stop: (() => void) | null;
};

/** What is played on a terminal: keys go in, the face is drawn on. */
export type Act = {
	key(key: Key): void;
	/** The program stood still, or was stopped and continued. */
	stood(): void;
	/** Looks at what is shown again, and draws it. */
	refresh(): void;
	/** Draws what is shown once more, at the size the window has now. */
	draw(): void;
	/** Whoever sits at it is cut off. */
	cutOff(kind: 'hangup' | 'suspend'): void;
	close(): void;
};

export type Stage = {
	face: Face;
	/** The window is too small to be read. */
	blind(): boolean;
	size(): Size;
	/** Ends it; `left` is somebody going away in the middle. */
	leave(why: 'closed' | 'left'): void;
	suspend(): void;
};

/** Why the screen was left, and what the program should end with. */
export type Left = { why: 'closed' | 'left' | 'hangup' | 'signal'; status: number };

/** Listeners that are all let go of together. */
function listenerBook() {
	const book: [from: Signals, event: string, listener: () => void][] = [];
	return {
		listen(from: Signals, event: string, listener: () => void) {
			book.push([from, event, listener]);
			from.on(event, listener);
		},
		letGo() {
			for (const [from, event, listener] of book) from.off(event, listener);
		},
	};
}

/**
 * Plays an act on a terminal until it is left. However it is left, the terminal is given back as it was; a hangup,
 * a signal and a stop cut the act off.
 *
 * @returns why it was left
 * @throws what a drawing has thrown; anything else that throws ends the program after the terminal was given back
 */
export function onStage(ports: StagePorts, style: GlyphStyle, begin: (stage: Stage) => Act): Promise<Left> {
	return new Promise((resolve, reject) => play(ports, style, begin, resolve, reject));
}

function play(
	{ stdin, stdout, clock, signals, stop }: StagePorts,
	style: GlyphStyle,
	begin: (stage: Stage) => Act,
	resolve: (left: Left) => void,
	reject: (error: unknown) => void,
): void {
	const terminal = openTerminal(stdin, stdout);
	const { listen, letGo } = listenerBook();
	let playing = true;
	let stopped = false;

	const end = (after: () => void) => {
		if (!playing) return;
		playing = false;
		letGo();
		keyboard.close();
		act.close();
		face.close();
		terminal.leave();
		after();
	};
	const cutOff = (left: Left) => {
		if (playing) act.cutOff('hangup');
		end(() => resolve(left));
	};
	const hangup = () => cutOff({ why: 'hangup', status: statusOf('SIGHUP') });
	const suspend = () => {
		if (!stop) return;
		stopped = true;
		act.cutOff('suspend');
		terminal.leave();
		stop();
	};
	const carryOn = () => {
		if (!stopped) act.cutOff('suspend');
		stopped = false;
		terminal.enter();
		face.forget();
		keyboard.forget();
		act.stood();
		act.refresh();
	};
	const heard = (key: Key) => {
		if (!playing) return;
		if (key.key === 'key-report') terminal.reportsKeys();
		else act.key(key);
	};

	listen(signals, 'uncaughtExceptionMonitor', terminal.leave);
	listen(signals, 'exit', terminal.leave);
	terminal.enter();
	const face = openFace(terminal, style, error => end(() => reject(error)));
	const act = begin({
		face,
		blind: () => tooSmall(terminal.size()),
		size: terminal.size,
		leave: why => (why === 'closed' ? end(() => resolve({ why, status: 0 })) : cutOff({ why, status: 0 })),
		suspend,
	});
	const keyboard = openKeyboard(stdin, clock, { onKey: heard, onStall: () => act.stood() });
	for (const signal of endings)
		listen(signals, signal, () => cutOff({ why: 'signal', status: statusOf(signal) }));
	listen(signals, 'SIGTSTP', suspend);
	listen(signals, 'SIGCONT', carryOn);
	listen(stdin, 'end', hangup);
	// Kept after the end: a terminal that has gone may say so only when it is given back.
	stdin.on('error', hangup);
	stdout.on('error', hangup);
	listen(stdout, 'resize', () => {
		face.forget();
		act.draw();
	});
}
