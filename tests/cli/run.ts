import { spawnSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { built } from '../built.ts';

export const program = built();
export const example = 'checklists/example/coffee-cart.yaml';

/** An empty folder of its own. */
export const folder = (): string => mkdtempSync(join(tmpdir(), 'fanwise-'));

/** Runs the built program as a shell would, with a data folder of its own; a day begins once a line has come. */
export function run(
	args: string[],
	{
		input = args[0] === 'spray' ? '\n' : '',
		home = folder(),
		program: file = program,
		cwd = process.cwd(),
	} = {},
) {
	const { status, stdout, stderr } = spawnSync(process.execPath, [resolve(file), ...args], {
		input,
		cwd,
		encoding: 'utf8',
		env: { ...process.env, FANWISE_HOME: home },
		maxBuffer: 64 * 1024 * 1024,
	});
	return { status, stdout, stderr, lines: stdout.split('\n').filter(Boolean) };
}
