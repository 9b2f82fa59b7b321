import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };

test('every script is of words alone: no shell reads quotes, variables and patterns as another does', () => {
	const odd = Object.entries(scripts).filter(([, line]) => !/^[\w ./:-]+(?: && [\w ./:-]+)*$/.test(line));
	expect(odd).toEqual([]);
	const theirs = /^(?:rm|cp|mv|mkdir|cat|sh|bash|env|export|set)\b/;
	const commands = Object.values(scripts).flatMap(line => line.split(' && '));
	expect(commands.filter(line => theirs.test(line))).toEqual([]);
});

test('nothing of ours runs where the program is installed', () => {
	const installing = [
		'preinstall',
		'install',
		'postinstall',
		'prepublish',
		'preprepare',
		'prepare',
		'postprepare',
	];
	expect(Object.keys(scripts).filter(name => installing.includes(name))).toEqual([]);
});
