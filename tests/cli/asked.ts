import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { vi } from 'vitest';
import type { Command } from '../../src/cli/command.ts';
import { shelf } from '../job/chairs/long-form.ts';
import { folder } from './run.ts';

/** A home with the shelf of the Pump Yard workshop. */
export function filledHome() {
	const home = folder();
	cpSync(shelf, join(home, 'shelf'), { recursive: true });
	return home;
}

export const typed = (lines: readonly string[]) => lines.map(line => `${line}\n`).join('');

/** Runs a command that asks, in this process; `vi.unstubAllEnvs()` gives up its home. */
export async function asked(
	command: Command,
	home: string,
	file: string,
	answers: readonly string[],
	{ json = false } = {},
) {
	vi.stubEnv('FANWISE_HOME', home);
	let [stdout, stderr] = ['', ''];
	const status = await command.run(
		{ positionals: [file], options: { json } },
		{
			stdin: Readable.from([typed(answers)]),
			stdout: { write: text => (stdout += text) },
			stderr: { write: text => (stderr += text) },
			env: {},
		},
	);
	return { status, stdout, stderr };
}
