import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { example, folder, program, run } from './run.ts';

test('on another address it wants a token, and one that is long enough', () => {
	const open = run(['board', '--listen', '0.0.0.0:0']);
	expect(open).toMatchObject({ status: 2, stdout: '' });
	expect(open.stderr).toMatch(/^fanwise board: --listen: .* wants --token-file FILE\n$/);
	const file = join(folder(), 'token');
	writeFileSync(file, 'short\n');
	const short = run(['board', '--listen', '0.0.0.0:0', '--token-file', file]);
	expect(short.status).toBe(2);
	expect(short.stderr).toMatch(/128 bits/);
	expect(run(['board', '--listen', 'here:there']).stderr).toMatch(/is no address: write HOST:PORT/);
	expect(run(['board', '--cert', file]).stderr).toMatch(/--cert and --key go together/);
});

test('where another program has the port it says so and ends', async () => {
	const other = createServer();
	await new Promise<void>(done => other.listen(0, '127.0.0.1', done));
	const at = other.address();
	const port = typeof at === 'object' && at ? at.port : 0;
	const child = spawn(process.execPath, [program, 'board', '--listen', `127.0.0.1:${port}`], {
		env: { ...process.env, FANWISE_HOME: folder() },
		stdio: ['ignore', 'ignore', 'pipe'],
	});
	let noise = '';
	child.stderr.on('data', piece => {
		noise += piece;
	});
	expect(await new Promise(done => child.once('close', done))).toBe(2);
	expect(noise).toBe(
		'fanwise board: --listen: another program has that port: end it, or name another port\n',
	);
	other.close();
});

test('built, it serves its page, script and style, says where, and ends by a signal with status 0', async () => {
	const child = spawn(process.execPath, [program, 'board', '--listen', '127.0.0.1:0'], {
		env: { ...process.env, FANWISE_HOME: folder() },
		stdio: ['ignore', 'pipe', 'pipe'],
	});
	const ended = new Promise<number | null>(done => child.once('exit', done));
	let noise = '';
	child.stderr.on('data', piece => {
		noise += piece;
	});
	const url = await new Promise<string>(done =>
		child.stdout.once('data', piece => done(String(piece).trim())),
	);
	const stop = new AbortController();
	const page = await fetch(`${url}events`, { signal: stop.signal });
	expect(page.status).toBe(200);
	expect(await (await fetch(url)).text()).toMatch(/<script type="module" src="\/page.js">/);
	const script = await (await fetch(`${url}page.js`)).text();
	expect(script.length).toBeGreaterThan(5000);
	expect(script.length).toBeLessThan(40_000);
	expect(await (await fetch(`${url}style.css`)).text()).toContain('--paper');
	child.kill('SIGTERM');
	expect(await ended).toBe(0);
	expect(noise).toBe('');
	stop.abort();
});

test('a day that is sprayed in another program is on the page, and the board has written nothing in it', async () => {
	const home = folder();
	const start = (args: string[]) =>
		spawn(process.execPath, [program, ...args], {
			env: { ...process.env, FANWISE_HOME: home },
			stdio: 'pipe',
		});
	const board = start(['board', '--listen', '127.0.0.1:0']);
	const url = await new Promise<string>(done =>
		board.stdout.once('data', piece => done(String(piece).trim())),
	);
	const reader = (await fetch(`${url}events`)).body?.getReader();
	const spray = start(['spray', example, '--plain']);
	let text = '';
	const until = async (wanted: RegExp) => {
		while (!wanted.test(text)) text += Buffer.from((await reader?.read())?.value ?? []).toString();
	};
	spray.stdin.write('\n');
	await until(/"job":"Market coffee cart".*"isHeard":true/);
	spray.stdin.write('hold\n');
	await until(/"word":"HOLD".*"isHeard":true/);
	const [name = ''] = readdirSync(join(home, 'days')).filter(file => file.endsWith('.day.jsonl'));
	const before = readFileSync(join(home, 'days', name));
	spray.kill('SIGKILL');
	await new Promise(done => spray.once('exit', done));
	board.kill('SIGTERM');
	await new Promise(done => board.once('exit', done));
	expect(readFileSync(join(home, 'days', name))).toEqual(before);
});
