import { spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { folder, program, run } from './run.ts';

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
