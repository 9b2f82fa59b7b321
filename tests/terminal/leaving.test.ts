import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { bundled, heardIn, inTerminal } from './pty.ts';

/** Longer than a new screen stays deaf. */
const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

let program = '';
let file = 0;

beforeAll(async () => {
	program = await bundled('fake-day.ts');
});

/** Runs the program from a shell that has written something before, and says how the terminal is afterwards. */
function fromShell(env: Record<string, string> = {}) {
	const heard = join(dirname(program), `heard-${++file}`);
	const script = [
		'echo line before',
		`node ${program} 2>${heard}`,
		'echo ended with $?',
		'stty -a | grep -o -e "-*icanon" -e "-*echo "',
		'echo the shell is back',
		// What is written in the moment in which the last process of a terminal goes may never be read.
		'sleep 0.5',
	].join('; ');
	const shell = inTerminal(['sh', '-c', script], { env });
	return {
		shell,
		heard: () => (existsSync(heard) ? heardIn(heard) : []),
		said: () => readFileSync(heard, 'utf8'),
	};
}

/** The pid of the program itself, which its shell has as its only child. */
function programIn(shellPid: number): number {
	const children = readFileSync(`/proc/${shellPid}/task/${shellPid}/children`, 'utf8').trim().split(' ');
	return Number(children[0]);
}

async function expectAsBefore(shell: ReturnType<typeof inTerminal>, status: number) {
	await shell.until('the shell is back');
	await shell.ended;
	const screen = shell.screen();
	expect(shell.terminal.buffer.active.type).toBe('normal');
	expect(screen).toMatch(/^line before/);
	expect(screen).toContain(`ended with ${status}\n`);
	expect(screen).toContain('icanon');
	expect(screen).not.toContain('-icanon');
	expect(screen).not.toContain('-echo ');
	expect(shell.terminal.modes.bracketedPasteMode).toBe(false);
	expect(shell.terminal.modes.wraparoundMode).toBe(true);
	const cursor = shell.bytes().split('\u001b[?25').at(-1);
	expect(cursor?.[0]).toBe('h');
}

test('a day answered by keys only, to its close; the shell’s screen is as it was', async () => {
	const { shell, heard } = fromShell();
	await shell.until('What do you see?');
	await pause(700);
	shell.type('e');
	await shell.until('press start');
	shell.type(' ');
	await shell.until('come back when');
	await pause(700);
	shell.type('r');
	await shell.until('press start');
	await pause(700);
	shell.type('e');
	await shell.until('read the thermometer');
	await pause(700);
	shell.type('21.5\r');
	await shell.until('Day closed');
	await pause(700);
	shell.type('x');
	await expectAsBefore(shell, 0);
	expect(heard()).toEqual([
		{ key: 'topLeft' },
		{ key: 'hold' },
		{ key: 'topLeft' },
		{ key: 'topLeft' },
		{ number: 21.5 },
		'close',
		{ why: 'closed', status: 0 },
	]);
});

test('Ctrl-C leaves, and is a break of the day', async () => {
	const { shell, heard } = fromShell();
	await shell.until('What do you see?');
	shell.type('\u0003');
	await expectAsBefore(shell, 0);
	expect(heard()).toEqual(['hangup', 'close', { why: 'left', status: 0 }]);
});

test.each([
	['SIGTERM', 143],
	['SIGHUP', 129],
	['SIGINT', 130],
	['SIGQUIT', 131],
] as const)('%s is a break, and gives the terminal back', async (signal, status) => {
	const { shell, heard } = fromShell();
	await shell.until('What do you see?');
	process.kill(programIn(shell.pid), signal);
	await expectAsBefore(shell, status);
	expect(heard()).toEqual(['hangup', 'close', { why: 'signal', status }]);
});

test('an error gives the terminal back first, and is then read on the shell’s own screen', async () => {
	const { shell, said } = fromShell({ FAKE_DAY: 'throws' });
	await shell.until('What do you see?');
	await pause(700);
	shell.type('e');
	await expectAsBefore(shell, 1);
	expect(said()).toContain('the day broke down');
});

test('a terminal that goes away is a hangup', async () => {
	const heard = join(dirname(program), `heard-${++file}`);
	const shell = inTerminal(['sh', '-c', `exec node ${program} 2>${heard}`]);
	await shell.until('What do you see?');
	shell.kill('SIGHUP');
	await shell.ended;
	expect(heardIn(heard)).toContain('hangup');
});

test('stopped and continued: the shell has its screen between, the day is drawn again after', async () => {
	const { shell, heard } = fromShell();
	await shell.until('What do you see?');
	const pid = programIn(shell.pid);
	shell.type('\u001a');
	await shell.until(screen => screen.startsWith('line before'));
	expect(shell.terminal.buffer.active.type).toBe('normal');
	process.kill(pid, 'SIGCONT');
	await shell.until('What do you see?');
	shell.type('e');
	await pause(200);
	shell.type(' ');
	await shell.until('come back when');
	expect(heard()).toEqual(['suspend', { key: 'hold' }]);
	process.kill(pid, 'SIGTERM');
	await shell.ended;
});

test('a window may change its size at any moment, down to where it asks to grow', async () => {
	const { shell } = fromShell();
	await shell.until('What do you see?');
	for (const [columns, rows] of [
		[120, 40],
		[40, 12],
		[200, 60],
		[44, 13],
		[80, 24],
	] as const) {
		shell.resize(columns, rows);
		await shell.until(screen => screen.includes('see?') && screen.split('\n').length === rows);
	}
	shell.resize(30, 8);
	await shell.until('at least 40 x 12');
	shell.resize(80, 24);
	await shell.until('What do you see?');
	shell.type('\u0003');
	await expectAsBefore(shell, 0);
	expect(shell.bytes()).not.toContain('\u001b[3J');
});
