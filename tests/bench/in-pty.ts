import pty from '@lydell/node-pty';

type Where = { cwd?: string; env?: Record<string, string> };

const environment = (env: Record<string, string> = {}): Record<string, string> => ({
	PATH: process.env.PATH ?? '',
	HOME: process.env.HOME ?? '',
	TERM: 'xterm-256color',
	LANG: 'C.UTF-8',
	...env,
});

/** Starts a program of Node in a pseudo-terminal of 80 × 24. */
export const inPty = (words: string[], { cwd = process.cwd(), env }: Where = {}) =>
	pty.spawn(process.execPath, words, {
		cols: 80,
		rows: 24,
		name: 'xterm-256color',
		cwd,
		env: environment(env),
	});

const patience_ms = 20_000;

/**
 * Milliseconds from the start of a program to the moment at which a text has come out of it. The program is then
 * ended, and ends by itself.
 */
export function timeToText(words: string[], text: string, where: Where): Promise<number> {
	return new Promise((resolve, reject) => {
		const from = performance.now();
		let seen = '';
		let took: number | undefined;
		const child = inPty(words, where);
		const late = setTimeout(() => child.kill('SIGKILL'), patience_ms);
		child.onData(data => {
			const now = performance.now();
			seen += data;
			if (took !== undefined || !seen.includes(text)) return;
			took = now - from;
			child.kill('SIGTERM');
		});
		child.onExit(() => {
			clearTimeout(late);
			if (took !== undefined) resolve(took);
			else reject(new Error(`${words.join(' ')} ended before "${text}":\n${seen}`));
		});
	});
}

export const pause = (wait_ms: number): Promise<void> => new Promise(done => setTimeout(done, wait_ms));

/** A program that has come up in a pseudo-terminal, told by a text that it shows. */
export async function openPty(words: string[], up: string, where: Where = {}) {
	const child = inPty(words, where);
	let seen = '';
	let bytes = 0;
	let heard = (_data: string) => {};
	child.onData(data => {
		seen += data;
		bytes += Buffer.byteLength(data);
		heard(data);
	});
	const until = async (holds: () => boolean, what: string) => {
		for (const end = performance.now() + patience_ms; performance.now() < end; await pause(20))
			if (holds()) return;
		child.kill('SIGKILL');
		throw new Error(`${words.join(' ')}: not seen in ${patience_ms / 1000} s: ${what}\n${seen}`);
	};
	await until(() => seen.includes(up), up);
	return {
		pid: child.pid,
		/** Bytes written to the terminal so far. */
		bytes: () => bytes,
		type: (keys: string) => child.write(keys),
		/** Milliseconds from keys to the first bytes of the frame that follows, which must hold a text. */
		answer(keys: string, text = ''): Promise<number> {
			return new Promise((resolve, reject) => {
				const late = setTimeout(() => reject(new Error(`no frame came after "${keys}"`)), patience_ms);
				const from = performance.now();
				heard = data => {
					if (!data.includes(text)) return;
					clearTimeout(late);
					resolve(performance.now() - from);
				};
				child.write(keys);
			});
		},
		kill: () => child.kill('SIGKILL'),
	};
}
