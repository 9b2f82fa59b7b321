import { spawnSync } from 'node:child_process';
import { beforeAll, expect, test } from 'vitest';
import { parse } from '../../src/cli/command.ts';
import { commands, everyCommand } from '../../src/cli/commands.ts';
import { commandWords } from '../../src/trigger/source.ts';
import { run } from './run.ts';

let script = '';
beforeAll(() => {
	script = run(['completion', 'bash']).stdout;
});

/** What bash offers at the end of a line. */
function offered(line: string): string[] {
	const ask = `${script}
words=(); read -ra words <<< "$1"; [[ $1 == *' ' ]] && words+=('')
COMP_WORDS=("\${words[@]}"); COMP_CWORD=$((\${#words[@]} - 1)); _fanwise; printf '%s\\n' "\${COMPREPLY[@]}"`;
	const { stdout, stderr } = spawnSync('bash', ['-c', ask, 'bash', line], { encoding: 'utf8' });
	expect(stderr).toBe('');
	return stdout.split('\n').filter(Boolean);
}

test('bash is offered every command, and the parts of one that has them', () => {
	expect(offered('fanwise ').filter(word => !word.startsWith('-'))).toEqual(commands.map(({ name }) => name));
	expect(offered('fanwise work m')).toEqual(['mix']);
	expect(offered('fanwise work nothing ')).toEqual(offered('fanwise work '));
});

test('bash is offered the options of the command in hand, and files where an option wants a value', () => {
	expect(offered('fanwise work mix --ra')).toEqual(['--ratio']);
	expect(offered('fanwise spray cart.yaml --tr')).toEqual(['--trigger']);
	expect(offered('fanwise spray --trigger ')).toEqual([]);
	expect(offered('fanwise rehearse ca')).toEqual([]);
});

test('zsh and fish are given the same words', () => {
	const zsh = run(['completion', 'zsh']).stdout;
	const fish = run(['completion', 'fish']).stdout;
	for (const { name } of commands) {
		expect(zsh).toContain(`'${name}:`);
		expect(fish).toContain(` -a ${name} `);
	}
	expect(zsh).toContain("'spray --trigger'");
	expect(fish).toMatch(/from spray' -l trigger -r -F/);
});

test('for no shell, or an unknown one, one line says which there are', () => {
	expect(run(['completion'])).toMatchObject({ status: 2, stdout: '' });
	expect(run(['completion', 'fihs']).stderr).toMatch(/nearest is "fish"/);
});

test('every help has an example, and every example is a line that its command takes', async () => {
	const all = (await everyCommand()).flatMap(command => [
		{ command, path: [command.name] },
		...(command.parts ?? []).map(part => ({ command: part, path: [command.name, part.name] })),
	]);
	for (const { command, path } of all) {
		expect([path.join(' '), command.examples.length > 0]).toEqual([path.join(' '), true]);
		for (const example of command.examples) {
			const words = commandWords(example.replace(/ [|<>].*$/, ''));
			expect(words[0]).toBe(path[0]);
			const part = command.parts?.find(({ name }) => name === words[1]);
			const used = part ?? command;
			expect([example, parse(used, words.slice(part ? 2 : path.length))]).toEqual([
				example,
				expect.objectContaining({ ok: true }),
			]);
		}
	}
});
