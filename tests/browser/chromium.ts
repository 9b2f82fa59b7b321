import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import type { Readable, Writable } from 'node:stream';

type Answer = {
	id?: number;
	method?: string;
	params?: Record<string, unknown>;
	result?: unknown;
	error?: { message: string };
};

/** A headless browser spoken to over a pipe; no port is opened. */
export type Browser = {
	send(method: string, params?: Record<string, unknown>, session?: string): Promise<Record<string, unknown>>;
	/** Names of what it reported since the last call. */
	reported(): Answer[];
	close(): Promise<void>;
};

const names = ['chromium', 'chromium-browser', 'google-chrome', 'chrome'];

export function findChromium(): string {
	const folders = (process.env.PATH ?? '').split(delimiter);
	const paths = folders.flatMap(folder => names.map(name => join(folder, name)));
	const found = process.env.CHROMIUM ?? paths.find(path => existsSync(path));
	if (found) return found;
	throw new Error(
		'no Chromium is on the path: install one (Debian: apt-get install chromium), or set CHROMIUM',
	);
}

const pipesOf = (child: ChildProcess): [Writable, Readable] => [
	child.stdio[3] as Writable,
	child.stdio[4] as Readable,
];

export function startChromium(path: string): Browser {
	const profile = mkdtempSync(join(tmpdir(), 'fanwise-look-'));
	const flags = [
		'--headless',
		'--no-sandbox',
		'--disable-gpu',
		'--hide-scrollbars',
		'--no-first-run',
		'--disable-background-networking',
		`--user-data-dir=${profile}`,
		'--remote-debugging-pipe',
		'about:blank',
	];
	const child = spawn(path, flags, { stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'] });
	const [into, from] = pipesOf(child);
	const waiting = new Map<number, (answer: Answer) => void>();
	let heard: Answer[] = [];
	let rest = '';
	let count = 0;
	from.setEncoding('utf8').on('data', (text: string) => {
		const messages = (rest + text).split('\0');
		rest = messages.pop() ?? '';
		for (const message of messages) {
			const answer = JSON.parse(message) as Answer;
			if (answer.id === undefined) heard.push(answer);
			else waiting.get(answer.id)?.(answer);
		}
	});
	const send: Browser['send'] = (method, params = {}, session) => {
		const id = ++count;
		const answered = new Promise<Record<string, unknown>>((done, fail) => {
			waiting.set(id, ({ result, error }) => {
				waiting.delete(id);
				if (error) fail(new Error(`${method}: ${error.message}`));
				else done((result ?? {}) as Record<string, unknown>);
			});
		});
		into.write(`${JSON.stringify({ id, method, params, ...(session && { sessionId: session }) })}\0`);
		return answered;
	};
	const close = async () => {
		const ended = new Promise(done => child.once('exit', done));
		await send('Browser.close').catch(() => child.kill());
		await ended;
		rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
	};
	return {
		send,
		reported: () => {
			const all = heard;
			heard = [];
			return all;
		},
		close,
	};
}
