import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type Command, runCommand } from '../../src/cli/command.ts';
import { logCommand } from '../../src/cli/log.ts';
import { summaryCommand } from '../../src/cli/summary.ts';
import { traceCommand } from '../../src/cli/trace.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { dayNamed } from '../report/hostile.ts';

const evil = 'a\u001b[2J\u0007\u009b31m\u202eb\u200bc\u2066\u0000\r\n\u001b]0;x\u0007d';
const face = `${evil}/${evil}`;

const bytesOf = (records: readonly DayRecord[]) =>
	Buffer.concat(records.map((record, index) => encodeKey([record], records[index - 1])));

/** A day file whose every name would do something to a terminal. */
function hostileHome(): string {
	const home = mkdtempSync(join(tmpdir(), 'fanwise-hostile-'));
	mkdirSync(join(home, 'days'));
	const names = {
		job: evil,
		part: evil,
		face: evil,
		material: evil,
		reason: evil,
		fault: 'run',
		zone: 'UTC',
	};
	writeFileSync(join(home, 'days', '2027-03-02_x.day.jsonl'), bytesOf(dayNamed(names)));
	return home;
}

const asks: [string, Command, string[]][] = [
	['log', logCommand, []],
	['summary', summaryCommand, []],
	['summary of one coat', summaryCommand, ['--face', face, '--coat', '1']],
	['trace', traceCommand, ['--fault', 'run', '--face', face, '--coat', '1']],
	['trace of every day', traceCommand, ['--all']],
	[
		'trace of a face that is none',
		traceCommand,
		['--fault', 'run', '--face', `${face}${evil}`, '--coat', '1'],
	],
	['log of a day that is none', logCommand, [evil]],
];

test.each(asks)('%s: what names hold is shown and does nothing', async (name, command, argv) => {
	let said = '';
	const stream = {
		write(text: string) {
			said += text;
		},
	};
	const env = { FANWISE_HOME: hostileHome() };
	await runCommand(command, argv, { stdout: stream, stderr: stream, env });
	if (!/every day/.test(name)) expect(said).toContain('[2J');
	expect(said.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\u200b-\u200f\u202a-\u202e\u2060-\u2069]/u);
});
