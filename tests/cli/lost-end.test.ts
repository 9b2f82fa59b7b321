import { appendFileSync, mkdirSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { lostOf } from '../../src/day/file/lost.ts';
import { readDay } from '../../src/day/file/read.ts';
import { newPlace } from '../day/file/place.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { example, folder, run } from './run.ts';

/** A day left open in a home of its own, the last of its records turned to zeros, as after a power cut. */
function afterPowerCut() {
	const home = folder();
	run(['spray', example, '--plain'], { home, input: 'e\ne\ne\n' });
	const name = readdirSync(join(home, 'days'))[0] ?? '';
	const path = join(home, 'days', name);
	const lines = readFileSync(path, 'utf8').trimEnd().split('\n');
	const behind = 1 + lines.findIndex((line, index) => index > 0 && !line.includes('"more":true'));
	const kept = lines.slice(0, behind).map(line => `${line}\n`);
	truncateSync(path, Buffer.byteLength(kept.join('')));
	appendFileSync(path, Buffer.alloc(1000));
	return { home, path, name, behind };
}

test('an end that the disk lost is said when the day is gone on with, in its log and in its report', () => {
	const { home, path, name, behind } = afterPowerCut();
	const sentence = `Behind record ${behind}, 1000 bytes were no whole record, as after a power cut, and do not count`;
	const before = run(['log'], { home });
	expect(before.stdout).toContain(`\n          ${sentence}: they still stand at its end.\n`);
	expect(before.lines.at(-2)).toMatch(new RegExp(`^\\S+ +${behind}  `));
	const { stdout, stderr } = run(['spray', example, '--plain'], { home });
	expect(stdout).toMatch(
		/The program was started again\..*\nDisk: what came after \d\d:\d\d was lost\. It does not count\.\n/,
	);
	expect(stderr).toBe(
		`${path}: 1000 bytes at its end were no whole record, as after a power cut: they do not count, and are kept in ${path}.torn-${behind + 1}\n`,
	);
	expect(run(['spray', example, '--plain'], { home })).toMatchObject({ stderr: '' });

	const log = run(['log'], { home });
	expect(log.stdout).toContain(sentence);
	expect(log.stdout).toContain(`they are kept in ${name}.torn-${behind + 1}.`);
	const data = run(['log', '--json'], { home });
	expect(data.stderr).toContain(sentence);
	expect(data.lines.map(line => JSON.parse(line).seq)).toEqual(
		readDay(readFileSync(path)).records.map(one => one.seq),
	);
	for (const ending of ['html', 'json']) {
		const report = join(home, `day.${ending}`);
		expect(run(['report', '-o', report], { home }).status).toBe(0);
		const text = readFileSync(report, 'utf8');
		if (ending === 'html') expect(text).toContain(sentence);
		else
			expect(JSON.parse(text).lost).toEqual([
				{ what: 'torn', behind, bytes: 1000, kept: `${name}.torn-${behind + 1}` },
			]);
	}
});

test('of a day from which nothing was lost nothing is said', () => {
	const home = folder();
	run(['spray', example, '--plain'], { home, input: 'e\n' });
	expect(run(['spray', example, '--plain'], { home }).stdout).not.toContain('Disk');
	expect(run(['log'], { home }).stdout).not.toContain('Behind record');
});

test('what was set aside beside a day is found by its name, and nothing else', () => {
	const place = newPlace();
	const path = join(place, 'a.day.jsonl');
	writeFileSync(path, rehearsed().bytes());
	const names = ['torn-3', 'torn-3-2', 'other-7', 'torn-x', 'lock', 'other-7.new', 'torn-1'];
	for (const name of names) writeFileSync(`${path}.${name}`, 'x'.repeat(5));
	mkdirSync(`${path}.torn-9`);
	writeFileSync(join(place, 'b.day.jsonl.torn-2'), 'x');
	expect(lostOf(path).map(({ what, behind, kept }) => [what, behind, kept?.slice(12)])).toEqual([
		['torn', 0, 'torn-1'],
		['torn', 2, 'torn-3'],
		['torn', 2, 'torn-3-2'],
		['other', 7, 'other-7'],
	]);
});
