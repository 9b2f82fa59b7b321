import type { Readable, Writable } from 'node:stream';

/** A terminal's two streams, as little of them as is used. */
export type TerminalInput = Readable & { isTTY?: boolean; setRawMode?(raw: boolean): unknown };
export type TerminalOutput = Writable & { columns?: number; rows?: number; isTTY?: boolean };

/** Where signals and the end of the program come from; `process` is one. */
export type Signals = {
	on(event: string, listener: () => void): unknown;
	off(event: string, listener: () => void): unknown;
};

/** A terminal that can be drawn on: both ends are one, and it can move its cursor. */
export const canDraw = (
	stdin: TerminalInput,
	stdout: TerminalOutput,
	env: Record<string, string | undefined>,
): boolean => Boolean(stdin.isTTY && stdout.isTTY) && env.TERM !== 'dumb';

export type Terminal = {
	/** Takes the screen, or takes it back after a stop. */
	enter(): void;
	/** Gives the screen back as it was found. Does nothing the second time. */
	leave(): void;
	write(bytes: string): void;
	/** The terminal has answered that it reports press, repeat and release. */
	reportsKeys(): void;
	size(): { columns: number; rows: number };
};

const CSI = '\u001b[';
/** Another screen, no cursor, no wrapping at the right edge, pastes marked; then the question about key reports. */
const taking = `${CSI}?1049h${CSI}?25l${CSI}?7l${CSI}?2004h${CSI}?u`;
const giving = `${CSI}0m${CSI}?2026l${CSI}?2004l${CSI}?7h${CSI}?25h${CSI}?1049l`;
/** All that the key protocol can report: which key, where it is, what it types, and when it is let go. */
const reportKeys = `${CSI}>31u`;
const reportKeysNoMore = `${CSI}<u`;

/** Opens a terminal on two streams, without touching it yet. */
export function openTerminal(stdin: TerminalInput, stdout: TerminalOutput): Terminal {
	let taken = false;
	let reporting = false;
	const write = (bytes: string) => {
		if (!stdout.destroyed && !stdout.writableEnded) stdout.write(bytes);
	};
	return {
		enter() {
			taken = true;
			if (stdin.isTTY) stdin.setRawMode?.(true);
			write(taking);
			stdin.resume();
		},
		leave() {
			if (!taken) return;
			taken = false;
			write((reporting ? reportKeysNoMore : '') + giving);
			reporting = false;
			stdin.pause();
			if (stdin.isTTY && !stdin.destroyed) stdin.setRawMode?.(false);
		},
		write(bytes) {
			if (taken && bytes !== '') write(bytes);
		},
		reportsKeys() {
			if (!taken || reporting) return;
			reporting = true;
			write(reportKeys);
		},
		size: () => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 }),
	};
}
