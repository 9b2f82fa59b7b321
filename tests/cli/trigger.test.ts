import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { example, folder, program, run } from './run.ts';

const pull = (on: boolean, after_ms: number) =>
	`${JSON.stringify({ trigger: on ? 'on' : 'off', after_ms })}\n`;
const start = ['--start', '2027-03-02T08:00:00Z'];

test('a recording is played in a rehearsal at its own times, and only there', () => {
	const home = folder();
	const recording = join(home, 'pulls.jsonl');
	writeFileSync(recording, `${pull(true, 90_000)}no line\n${pull(false, 95_500)}`);
	const day = join(home, 'played.day.jsonl');
	const { status, stderr } = run(
		['rehearse', example, '--json', ...start, '--day', day, '--trigger', recording],
		{ home, input: 'wait 1 min\nwait 1 min\n' },
	);
	expect({ status, stderr }).toEqual({
		status: 0,
		stderr: 'Trigger line: a line of its recording could not be read.\n',
	});
	const pulls = loadDay(day).filter(({ type }) => type.startsWith('trigger'));
	expect(pulls.map(({ type, at }) => [type, at])).toEqual([
		['trigger.on', '2027-03-02T08:01:30.000Z'],
		['trigger.off', '2027-03-02T08:01:35.500Z'],
	]);
	expect(checkDayFile(readFileSync(day))).toEqual([]);
});

test('sprayed with a trigger line, the day has its pulls and the recording has them too', () => {
	const home = folder();
	const line = join(home, 'line.cjs');
	writeFileSync(line, `console.log('{"trigger":"on"}'); console.log('{"trigger":"off"}')`);
	const kept = join(home, 'kept.jsonl');
	const painter = join(home, 'painter.cjs');
	writeFileSync(
		painter,
		`const { spawn } = require('node:child_process');
const child = spawn(process.execPath, process.argv.slice(2), { stdio: ['pipe', 'pipe', 'inherit'] });
let said = '';
child.stdout.on('data', bytes => {
	said += bytes;
	process.stdout.write(bytes);
	if (said.includes('it has ended')) child.stdin.end();
});
child.on('exit', status => process.exit(status));`,
	);
	const spray = [program, 'spray', example, '--plain', '--record', kept];
	const { status, stdout } = run([...spray, '--trigger', `command: "${process.execPath}" "${line}"`], {
		home,
		program: painter,
	});
	expect(status).toBe(0);
	expect(stdout).toContain('Trigger line: it has ended. Breaks are told by keys.');
	const [file = ''] = readdirSync(join(home, 'days'));
	const types = loadDay(join(home, 'days', file)).map(({ type }) => type);
	expect(types.filter(type => type.startsWith('trigger'))).toEqual(['trigger.on', 'trigger.off']);
	expect(readFileSync(kept, 'utf8').match(/"trigger":"o[nf]+"/g)).toHaveLength(2);
});

test('a line that is not there, or a recording without a line, is refused before a day is begun', () => {
	const home = folder();
	for (const options of [
		['--trigger', '/nowhere/line'],
		['--record', join(home, 'kept.jsonl')],
	])
		for (const command of ['spray', 'rehearse']) {
			const { status, stderr } = run([command, example, '--plain', ...options], { home });
			expect(status).toBe(2);
			expect(stderr.trimEnd().split('\n')).toHaveLength(1);
		}
	expect(readdirSync(home)).toEqual([]);
});
