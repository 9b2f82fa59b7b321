import {
	existsSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	statSync,
	writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runCommand } from '../../src/cli/command.ts';
import { reportCommand } from '../../src/cli/report.ts';
import { rehearsed } from '../day/rehearsed.ts';

let home: string;
let bytes: Uint8Array;
const name = '2027-03-02_coffee-cart-doors.day.jsonl';

beforeAll(() => {
	home = mkdtempSync(join(tmpdir(), 'fanwise-report-'));
	mkdirSync(join(home, 'days'));
	const day = rehearsed();
	day.toEnd();
	bytes = day.bytes();
	writeFileSync(join(home, 'days', name), bytes);
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

async function ran(...argv: string[]) {
	let out = '';
	let err = '';
	const status = await runCommand(reportCommand, argv, {
		stdout: { write: text => (out += text) },
		stderr: { write: text => (err += text) },
		env: { FANWISE_HOME: home },
	});
	return { status, out, err };
}
const at = (file: string) => join(home, file);

describe('fanwise report', () => {
	test.each([
		['.html', /^<!DOCTYPE html>/],
		['.csv', /^face,coat,/],
		['.ics', /^BEGIN:VCALENDAR\r\n/],
		['.json', /^\{/],
		['.HTML', /^<!DOCTYPE html>/],
	])('writes what the ending %s says, for its owner alone, and nothing beside it', async (ending, begins) => {
		const folder = mkdtempSync(join(home, 'out-'));
		const file = join(folder, `day${ending}`);
		expect(await ran('-o', file)).toMatchObject({ status: 0, err: '' });
		expect(readFileSync(file, 'utf8')).toMatch(begins);
		expect(statSync(file).mode & 0o777).toBe(0o600);
		expect(readdirSync(folder)).toEqual([`day${ending}`]);
		expect(readFileSync(join(home, 'days', name))).toEqual(Buffer.from(bytes));
	});

	test('the data hold the records whole, and tables whose keys end in their unit', async () => {
		await ran('-o', at('day.json'));
		const data = JSON.parse(readFileSync(at('day.json'), 'utf8'));
		expect(data.records.map(({ seq }: { seq: number }) => seq)).toEqual(
			Array.from({ length: data.records.length }, (_, nth) => nth + 1),
		);
		expect(data.tables.film[0]).toMatchObject({
			face: 'left door/edges',
			coat: 1,
			took_s: 60,
			should_s: 60,
			laid_wet_um: null,
			pace: null,
		});
		expect(data.traces).toEqual([]);
	});

	test.each([
		[['-o', 'day.txt'], /day\.txt: its ending says no kind of report: end it in .html, .csv, .ics, .json/],
		[['-o', 'day.htm'], /the nearest is \.html/],
		[['-o', 'day'], /its ending says no kind of report/],
		[[], /-o FILE is missing/],
		[['-o', 'x.csv', '--table', 'coat'], /--table "coat" is unknown.*nearest is "coats"/],
		[['-o', 'x.html', '--table', 'coats'], /--table is for \.csv/],
		[['-o', 'x.html', '--units', 'imperial'], /--units "imperial" is unknown/],
		[['no-such-day', '-o', 'x.html'], /no-such-day: no day of that name/],
	])('%j is refused in one line, and nothing is written', async (argv, says) => {
		const before = readdirSync(home);
		const inHome = argv.map((word, nth) => (argv[nth - 1] === '-o' ? at(word) : word));
		const { status, err, out } = await ran(...inHome);
		expect(status).toBe(2);
		expect(out).toBe('');
		expect(err).toMatch(says);
		expect(err.trimEnd().split('\n')).toHaveLength(1);
		expect(readdirSync(home)).toEqual(before);
	});

	test('a file of that name is kept unless it is to be written over', async () => {
		const file = at('kept.html');
		writeFileSync(file, 'mine');
		const refused = await ran('-o', file);
		expect(refused.status).toBe(2);
		expect(refused.err).toMatch(/there is a file of that name: choose another, or add --force/);
		expect(readFileSync(file, 'utf8')).toBe('mine');
		expect((await ran('-o', file, '--force')).status).toBe(0);
		expect(readFileSync(file, 'utf8')).toMatch(/^<!DOCTYPE html>/);
		expect(statSync(file).mode & 0o777).toBe(0o600);
	});

	test('a folder that is not there, and a folder in place of the file, are said', async () => {
		const gone = await ran('-o', at('gone/day.html'));
		expect(gone).toMatchObject({ status: 2, out: '' });
		expect(gone.err).toMatch(/its folder is not there/);
		mkdirSync(at('folder.html'));
		for (const argv of [
			['-o', at('folder.html')],
			['-o', at('folder.html'), '--force'],
		])
			expect((await ran(...argv)).status).toBe(2);
		expect(existsSync(at('folder.html.new'))).toBe(false);
	});

	test('a damaged day is no day to report on', async () => {
		const broken = Buffer.from(bytes);
		const middle = Math.floor(broken.length / 2);
		broken[middle] = (broken[middle] ?? 0) ^ 1;
		writeFileSync(at('broken.day.jsonl'), broken);
		const { status, err } = await ran(at('broken.day.jsonl'), '-o', at('broken.html'));
		expect(status).toBe(1);
		expect(err).toMatch(/the day file is damaged/);
		expect(existsSync(at('broken.html'))).toBe(false);
	});

	test('units are the ones asked for', async () => {
		await ran('-o', at('us.html'), '--units', 'us');
		expect(readFileSync(at('us.html'), 'utf8')).toMatch(/29\spsi/);
		await ran('-o', at('metric.html'));
		expect(readFileSync(at('metric.html'), 'utf8')).toMatch(/200\skPa/);
	});
});
