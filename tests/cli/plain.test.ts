import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { example, folder, run } from './run.ts';

test('rehearse --plain answers lines with lines, through a pipe, and ends when its input does', () => {
	const { status, stdout, stderr } = run(['rehearse', example, '--plain'], {
		input: 'all wiped\n\nback\n',
	});
	expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
	expect(stdout).toMatch(/parts: wipe, .*\n\S \(\w+ \w+\): ALL WIPED\n.*\nHeld\. Away 0 s\.\n/s);
	expect([...stdout].filter(character => character < ' ' && character !== '\n')).toEqual([]);
});

test('spray --plain keeps the day; the end of its input is a hangup, and the day is carried on in hold', () => {
	const home = folder();
	expect(run(['spray', example, '--plain'], { home, input: 'e\n' }).status).toBe(0);
	const [file = ''] = readdirSync(join(home, 'days'));
	const records = loadDay(join(home, 'days', file));
	expect(records.map(({ type }) => type)).toContain('stage.done');
	expect(records.at(-1)).toMatchObject({ type: 'break.began', kind: 'hangup' });
	expect(run(['spray', example, '--plain'], { home }).stdout).toMatch(/^\nThe program was started again\./);
});

test('a sheet changed while its day is open is said on coming back, and the day goes on with the old one', () => {
	const home = folder();
	const sheet = join(folder(), 'cart.yaml');
	const text = readFileSync(example, 'utf8');
	writeFileSync(sheet, text);
	run(['spray', sheet, '--plain'], { home });
	const again = () => run(['spray', sheet, '--plain'], { home }).stdout;
	expect(again()).not.toContain('changed');
	writeFileSync(sheet, text.replace('2:1:1 by volume', '3:1:1 by volume'));
	expect(again()).toContain('Job sheet changed: today goes on with the old one.');
});

test('the setting makes lines the way of every day that is shown', () => {
	const home = folder();
	run(['settings', 'plain', 'true'], { home });
	expect(run(['rehearse', example], { home }).stdout).toMatch(/^\S \(\w+ \w+\): ALL WIPED$/m);
});

test('an input that ends before its first line begins no day, and says so; one open is carried on all the same', () => {
	const home = folder();
	const ended = run(['spray', example, '--plain'], { home, input: '' });
	expect(ended).toMatchObject({ status: 2, stdout: '' });
	expect(ended.stderr).toBe('fanwise spray: the input ended before its first line: no day was begun\n');
	expect(readdirSync(join(home, 'days'))).toEqual([]);
	expect(run(['spray', example, '--plain'], { home, input: 'e' }).status).toBe(0);
	const [file = ''] = readdirSync(join(home, 'days'));
	expect(loadDay(join(home, 'days', file)).map(({ type }) => type)).toContain('stage.done');
	expect(run(['spray', example, '--plain'], { home, input: '' }).status).toBe(0);
});
