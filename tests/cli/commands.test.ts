import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { commands } from '../../src/cli/commands.ts';
import { run } from './run.ts';

test('each command is what its line says, and stands in the README', async () => {
	const readme = readFileSync('README.md', 'utf8');
	for (const { name, summary, load } of commands) {
		const command = await load();
		expect(command).toMatchObject({ name, summary });
		expect(readme).toContain(`fanwise ${name}`);
		expect(command.usage.length).toBeGreaterThan(0);
	}
});

test.each(commands.map(({ name }) => name))('%s --help says what it does, with an example', name => {
	const { status, stdout, stderr } = run([name, '--help']);
	expect(status).toBe(0);
	expect(stderr).toBe('');
	expect(stdout).toMatch(/fanwise/);
});

test('--help names every command; --version is the package’s; an unknown command names the nearest', () => {
	const { stdout } = run(['--help']);
	for (const { name } of commands) expect(stdout).toContain(name);
	const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
	expect(run(['--version']).stdout).toBe(`${version}\n`);
	expect(run(['reherse'])).toMatchObject({ status: 2, stdout: '' });
	expect(run(['reherse']).stderr).toMatch(/rehearse/);
	expect(run(['mix', '2:1']).stderr).toMatch(/the nearest is "work mix"/);
	expect(run(['flim']).stderr).toMatch(/the nearest is "work film"/);
});

test('without a terminal the program plays the demo: a visitor, a fan caught, a run set aside, the summary', () => {
	const { status, stdout } = run([]);
	expect(status).toBe(0);
	expect(stdout).toMatch(/Read (TALL|WIDE)\. Wanted (WIDE|TALL)\./);
	expect(stdout).toMatch(/Set aside: left door/);
	expect(stdout).toMatch(/Day closed/);
	expect(run(['demo']).stdout).toBe(stdout);
});

test('spray needs a terminal, and says what to do without one', () => {
	const { status, stderr } = run(['spray', 'checklists/example/coffee-cart.yaml']);
	expect(status).toBe(2);
	expect(stderr).toMatch(/rehearse/);
});
