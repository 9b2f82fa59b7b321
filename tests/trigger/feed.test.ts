import { spawnSync } from 'node:child_process';
import { appendFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { feed } from '../../src/trigger/feed.ts';
import { openRecorder, readRecording } from '../../src/trigger/recording.ts';
import { commandWords, openSource, SourceError } from '../../src/trigger/source.ts';
import { pause, until } from '../voice/fake-program.ts';

const folder = () => mkdtempSync(join(tmpdir(), 'fanwise-trigger-'));
const on = '{"trigger":"on"}\n';
const off = '{"trigger":"off"}\n';

/** A line that is listened to, and what came of it. */
function fed(source: string, record: string | null = null) {
	const pulls: boolean[] = [];
	const told: string[] = [];
	let mono = 5000;
	const close = feed(source, {
		pull: pull => pulls.push(pull),
		tell: text => told.push(text),
		recorder: record === null ? null : openRecorder(record),
		now() {
			mono += 100;
			return { wall: Date.parse('2027-03-02T08:00:00Z') + mono, mono };
		},
	});
	return { pulls, told, close };
}

/** A program that writes lines, waits, and ends. */
function writer(...lines: string[]): string {
	const path = join(folder(), 'writer.cjs');
	writeFileSync(path, `process.stdout.write(${JSON.stringify(lines.join(''))}); setTimeout(() => {}, 100);`);
	return `command: "${process.execPath}" "${path}"`;
}

test('pulls come from a child process; its end is told', async () => {
	const { pulls, told, close } = fed(writer(on, off, on));
	await until(() => told.length === 1);
	expect(pulls).toEqual([true, false, true]);
	expect(told).toEqual(['Trigger line: it has ended. Breaks are told by keys.']);
	close();
});

test('a line that says what is known already changes nothing', async () => {
	const { pulls, told, close } = fed(writer(off, on, on, on, off, off));
	await until(() => told.length === 1);
	expect(pulls).toEqual([false, true, false]);
	close();
});

test('lines that cannot be read are told once and passed over', async () => {
	const { pulls, told, close } = fed(
		writer('pressed\n', on, '{"trigger":1}\n', '\n', 'x'.repeat(5000), '\n', off),
	);
	await until(() => told.length === 2);
	expect(pulls).toEqual([true, false]);
	expect(told[0]).toBe('Trigger line: a line of it could not be read.');
	close();
});

test('pulls come from a pipe, and go on coming when whoever writes to it goes and another comes', async () => {
	const path = join(folder(), 'line');
	expect(spawnSync('mkfifo', [path]).status).toBe(0);
	const { pulls, told, close } = fed(path);
	appendFileSync(path, on);
	await until(() => pulls.length === 1);
	appendFileSync(path, off);
	await until(() => pulls.length === 2);
	expect(told).toEqual([]);
	close();
});

test('of a file that grows, only what is added counts; one that was cut is read anew', async () => {
	const path = join(folder(), 'line.jsonl');
	writeFileSync(path, on + off);
	const { pulls, close } = fed(path);
	await pause(120);
	expect(pulls).toEqual([]);
	appendFileSync(path, on.slice(0, 7));
	await pause(120);
	appendFileSync(path, on.slice(7));
	await until(() => pulls.length === 1);
	writeFileSync(path, off);
	await until(() => pulls.length === 2);
	expect(pulls).toEqual([true, false]);
	close();
});

test('once it is let go of, nothing more comes from a line', async () => {
	const path = join(folder(), 'line.jsonl');
	writeFileSync(path, '');
	const { pulls, told, close } = fed(path);
	close();
	appendFileSync(path, on);
	await pause(150);
	expect({ pulls, told }).toEqual({ pulls: [], told: [] });
});

test('a program that is not there is told, not thrown', async () => {
	const { told, close } = fed('command: no-such-program-here --lines');
	await until(() => told.length === 1);
	close();
});

test('a source that is not there, or is a folder, is refused with its name and a remedy', () => {
	const heard = { bytes() {}, ended() {} };
	expect(() => openSource('/nowhere/line', heard)).toThrow(/\/nowhere\/line: there is no such pipe.*mkfifo/);
	expect(() => openSource(folder(), heard)).toThrow(/is a folder/);
	expect(() => openSource('command:', heard)).toThrow(SourceError);
});

test('a command is cut into words without a shell', () => {
	expect(commandWords('read "two words" $HOME;x ""')).toEqual(['read', 'two words', '$HOME;x', '']);
});

test('a recording keeps each change with its time, and is read back in order; a file that is there is left alone', async () => {
	const path = join(folder(), 'pulls.jsonl');
	const { told, close } = fed(writer(on, on, off), path);
	await until(() => told.length === 1);
	close();
	const lines = readFileSync(path, 'utf8').trim().split('\n');
	expect(lines.map(line => JSON.parse(line).trigger)).toEqual(['on', 'off']);
	const { pulls, bad } = readRecording(path);
	expect(bad).toBe(0);
	expect(pulls.map(pull => pull.on)).toEqual([true, false]);
	expect(pulls[0]?.after_ms).toBeGreaterThan(0);
	expect(pulls[1]?.after_ms).toBeGreaterThan(pulls[0]?.after_ms ?? Number.POSITIVE_INFINITY);
	expect(() => openRecorder(path)).toThrow(/is there already, and is left as it is/);
});
