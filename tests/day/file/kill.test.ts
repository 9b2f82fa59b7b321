import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { expect, onTestFinished, test } from 'vitest';
import { readDay } from '../../../src/day/file/read.ts';
import { options } from '../../../src/package/bundle.js';
import { newPlace } from './place.ts';

const kills = Number(process.env.KILLS ?? 20);
const killsOfADay = 25;

const bundled = async (folder: string) => {
	const outfile = join(folder, 'appender.mjs');
	const entry = fileURLToPath(new URL('appender.ts', import.meta.url));
	await build({ ...options(), entryPoints: [entry], outfile });
	return outfile;
};

/** Runs the program until it is killed at a moment of its own; the last record it was told is on the disk. */
const killed = async (program: string, path: string, how: 'new' | 'open', after_ms: number) => {
	const child = spawn(process.execPath, [program, path, how], { stdio: ['ignore', 'pipe', 'pipe'] });
	onTestFinished(() => void child.kill('SIGKILL'));
	let said = '';
	let trouble = '';
	child.stderr.on('data', (text: Buffer) => {
		trouble += text.toString();
	});
	const begun = new Promise<void>(resume => {
		child.stdout.on('data', (text: Buffer) => {
			said += text.toString();
			resume();
		});
	});
	const ended = once(child, 'close');
	await Promise.race([begun, ended]);
	await new Promise(resume => setTimeout(resume, after_ms));
	child.kill('SIGKILL');
	await ended;
	return { acknowledged: Number(said.split('\n').at(-2) ?? -1), trouble };
};

test(`killed at ${kills} moments while it appends, a program loses no record it was told is on the disk`, async () => {
	const folder = newPlace();
	const program = await bundled(folder);
	let before = 0;
	for (let kill = 0; kill < kills; kill++) {
		// A day that grows over hundreds of kills would only make each start slower.
		const isNew = kill % killsOfADay === 0;
		const path = join(folder, `${Math.floor(kill / killsOfADay)}.day.jsonl`);
		if (isNew) before = 0;
		const { acknowledged, trouble } = await killed(program, path, isNew ? 'new' : 'open', (kill * 7.3) % 41);
		expect(trouble, `kill ${kill}`).toBe('');
		const read = readDay(readFileSync(path));
		expect(read.damage, `kill ${kill}`).toBeNull();
		expect(read.records.length, `kill ${kill}`).toBeGreaterThanOrEqual(acknowledged);
		expect(acknowledged, `kill ${kill}`).toBeGreaterThanOrEqual(before);
		before = acknowledged;
	}
	expect(before).toBeGreaterThan(kills % killsOfADay);
}, 600_000);
