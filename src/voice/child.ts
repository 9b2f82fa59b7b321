import { spawn } from 'node:child_process';

export type Running = {
	/** Ends it at once. */
	stop(): void;
	/** How it ended: `stopped` by us, `done`, or `failed` by itself. */
	ended: Promise<'stopped' | 'done' | 'failed'>;
};

/**
 * Runs a program without a shell; nothing that it says is read, and it does not keep this process alive.
 * @param input what it reads from its standard input
 */
export function run(path: string, args: readonly string[], input: string): Running {
	let stopped = false;
	const child = spawn(path, [...args], { stdio: ['pipe', 'ignore', 'ignore'], windowsHide: true });
	const ended = new Promise<'stopped' | 'done' | 'failed'>(resolve => {
		const end = (worked: boolean) => resolve(stopped ? 'stopped' : worked ? 'done' : 'failed');
		child.on('error', () => end(false));
		child.on('exit', code => end(code === 0));
	});
	child.stdin.on('error', () => {});
	child.stdin.end(input);
	child.unref();
	return {
		stop() {
			stopped = true;
			child.kill('SIGKILL');
		},
		ended,
	};
}
