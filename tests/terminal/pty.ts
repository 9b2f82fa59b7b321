import { readFileSync } from 'node:fs';
import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pty from '@lydell/node-pty';
import xterm from '@xterm/headless';
import { build } from 'esbuild';
import { options } from '../../src/package/bundle.js';

/** Bundles a program of these tests as the real one is bundled, and says where it is. */
export async function bundled(program: string): Promise<string> {
	const folder = await mkdtemp(join(tmpdir(), 'fanwise-terminal-'));
	const outfile = join(folder, 'program.mjs');
	await build({
		...options(),
		entryPoints: [new URL(`programs/${program}`, import.meta.url).pathname],
		outfile,
	});
	return outfile;
}

/** A screen, and which of the bytes made it out of the one before. */
export type Frame = { from: number; upTo: number; screen: string };

export type Pty = {
	/** The screen as a person sees it, row by row. */
	screen(): string;
	/** Every byte that was written to the terminal so far. */
	bytes(): string;
	/** Every screen that the bytes have made so far, in order. */
	frames: readonly Frame[];
	terminal: InstanceType<typeof xterm.Terminal>;
	type(keys: string): void;
	resize(columns: number, rows: number): void;
	kill(signal: string): void;
	pid: number;
	/** Waits until the screen satisfies something; fails with the screen as it stands. */
	until(what: string | ((screen: string) => boolean), within_ms?: number): Promise<void>;
	ended: Promise<number>;
};

const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

/** Starts a command in a pseudo-terminal. */
export function inTerminal(
	command: string[],
	{
		columns = 80,
		rows = 24,
		env = {},
	}: { columns?: number; rows?: number; env?: Record<string, string> } = {},
): Pty {
	const terminal = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 500 });
	const [file = 'sh', ...args] = command;
	const child = pty.spawn(file, args, {
		cols: columns,
		rows,
		name: 'xterm-256color',
		env: { ...cleanEnv(), ...env },
	});
	let bytes = '';
	const frames: Frame[] = [];
	child.onData(data => {
		const from = bytes.length;
		bytes += data;
		terminal.write(data, () => {
			const shown = screen();
			if (shown !== frames.at(-1)?.screen) frames.push({ from, upTo: from + data.length, screen: shown });
		});
	});
	terminal.onData(answer => child.write(answer));
	const ended = new Promise<number>(done => child.onExit(({ exitCode }) => done(exitCode)));
	const screen = () => {
		const buffer = terminal.buffer.active;
		return Array.from(
			{ length: terminal.rows },
			(_, row) => buffer.getLine(buffer.viewportY + row)?.translateToString(true) ?? '',
		).join('\n');
	};
	return {
		screen,
		bytes: () => bytes,
		frames,
		terminal,
		type: keys => child.write(keys),
		resize(width, height) {
			terminal.resize(width, height);
			child.resize(width, height);
		},
		kill: signal => child.kill(signal),
		pid: child.pid,
		async until(what, within_ms = 15_000) {
			const holds = typeof what === 'string' ? (text: string) => text.includes(what) : what;
			for (const end = Date.now() + within_ms; Date.now() < end; await pause(20)) if (holds(screen())) return;
			throw new Error(`not seen in ${within_ms} ms: ${String(what)}\n${screen()}`);
		},
		ended,
	};
}

/** The environment without what would make a program think that it is not in a terminal. */
function cleanEnv(): Record<string, string> {
	const kept = Object.entries(process.env).filter(
		([name, value]) => value !== undefined && !/^(CI|NODE_ENV|VITEST.*|NO_COLOR|FORCE_COLOR)$/.test(name),
	);
	return {
		...Object.fromEntries(kept.map(([name, value]) => [name, value ?? ''])),
		TERM: 'xterm-256color',
		LANG: 'C.UTF-8',
	};
}

/** What a program under test has written to a file. */
export const heardIn = (path: string): unknown[] =>
	readFileSync(path, 'utf8')
		.split('\n')
		.flatMap(line => (line.startsWith('heard ') ? [JSON.parse(line.slice(6))] : []));
