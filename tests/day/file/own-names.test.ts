import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { cardsCommand } from '../../../src/cli/cards.ts';
import { type Command, runCommand } from '../../../src/cli/command.ts';
import { logCommand } from '../../../src/cli/log.ts';
import { reportCommand } from '../../../src/cli/report.ts';
import { writeFresh } from '../../../src/day/file/fresh.ts';
import { disk } from '../../../src/day/file/port.ts';
import { createDay, openDay } from '../../../src/day/file/store.ts';
import { rehearsed } from '../rehearsed.ts';
import { allDead } from './faulty.ts';
import { newPlace } from './place.ts';
import { first, following } from './sample.ts';

const mine = 'written by hand';

/** Files that stand where a program would put its own for a moment, if their names could be known. */
const strangers = (path: string): Record<string, string> => {
	const names = [`${path}.new`, `${path}.lock.${process.pid}`, `${path}.lock.${process.pid}.dead`];
	for (const name of names) writeFileSync(name, mine);
	return Object.fromEntries(names.map(name => [name, mine]));
};
const asTheyWere = (there: Record<string, string>) =>
	Object.fromEntries(Object.keys(there).map(name => [name, readFileSync(name, 'utf8')]));

test('a day that is begun, gone on with after a crash and written anew touches no file of another name', () => {
	const path = join(newPlace(), 'a.day.jsonl');
	const there = strangers(path);
	const begun = createDay(path, first);
	begun.append(following(2, 1));
	writeFileSync(path, 'something else');
	begun.append(following(3, 1));
	begun.close();
	const dead = { pid: 2 ** 22 + 1, start: null, host: hostname() };
	writeFileSync(`${path}.lock`, JSON.stringify(dead));
	openDay(path, { processes: allDead }).close();
	expect(asTheyWere(there)).toEqual(there);
	const others = Object.keys(there).map(name => name.slice(dirname(path).length + 1));
	expect(readdirSync(dirname(path)).sort()).toEqual(['a.day.jsonl', 'a.day.jsonl.other-2', ...others].sort());
});

test('a passing name that is taken is left alone, and another is found', () => {
	const path = join(newPlace(), 'a');
	const tried: string[] = [];
	const port = {
		...disk,
		open: (name: string, how: 'new' | 'append') => {
			tried.push(name);
			if (tried.length < 3) writeFileSync(name, mine);
			return disk.open(name, how);
		},
	};
	disk.close(writeFresh(port, path, [Buffer.from('text')], 'new').handle);
	expect(new Set(tried).size).toBe(3);
	expect(tried.slice(0, 2).map(name => readFileSync(name, 'utf8'))).toEqual([mine, mine]);
	expect(readFileSync(path, 'utf8')).toBe('text');
});

test('without second names too, a file that comes under the name in the last moment is not replaced', () => {
	const path = join(newPlace(), 'a');
	const port = {
		...disk,
		link: () => {
			writeFileSync(path, mine);
			throw Object.assign(new Error('EPERM'), { code: 'EPERM' });
		},
		// Nothing was there when it was looked at.
		stat: (name: string) => (name === path ? null : disk.stat(name)),
	};
	expect(() => writeFresh(port, path, [Buffer.from('text')], 'new')).toThrow('EEXIST');
	expect(readFileSync(path, 'utf8')).toBe(mine);
	expect(readdirSync(dirname(path))).toEqual(['a']);
});

const commands: [name: string, command: Command, ending: string, words: (target: string) => string[]][] = [
	['report', reportCommand, 'html', target => ['-o', target]],
	['cards', cardsCommand, 'html', target => ['-o', target]],
	['log --salvage', logCommand, 'jsonl', target => ['2027', '--salvage', target]],
];

test.each(commands)(
	'%s deletes nothing that has the name of its file and an ending more',
	async (...given) => {
		const [, command, ending, words] = given;
		const home = newPlace();
		const day = rehearsed();
		mkdirSync(join(home, 'days'));
		writeFileSync(join(home, 'days', '2027-03-02_doors.day.jsonl'), day.bytes());
		const target = join(home, `out.${ending}`);
		const there = strangers(target);
		const silent = { write: () => {} };
		const io = { stdout: silent, stderr: silent, env: { FANWISE_HOME: home } };
		expect(await runCommand(command, words(target), io)).toBe(0);
		expect(readFileSync(target).length).toBeGreaterThan(0);
		expect(asTheyWere(there)).toEqual(there);
	},
);
