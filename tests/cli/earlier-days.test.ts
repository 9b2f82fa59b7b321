import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { makeDaysFolder } from '../../src/day/file/folder.ts';
import { dayId } from '../../src/day/file/glimpse.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import { headOf, sumsPath } from '../../src/day/file/sums.ts';
import { historyAfter } from '../../src/day/history.ts';
import type { DayRecord, Head } from '../../src/day/records.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { example, folder, run } from './run.ts';

const day_ms = 86_400_000;
let days: DayRecord[][];

const asReal = (day: ReturnType<typeof rehearsed>) =>
	day.records().map((one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'real' } : one));

/** The example's primer, and the beginning of its topcoat. */
beforeAll(async () => {
	const loaded = await loadJob(example);
	if (!loaded.ok) throw new Error('the example does not load');
	const { job } = loaded;
	const first = rehearsed({ job, at: Date.now() - 9 * day_ms, settings: { by: 'face' } });
	first.toEnd();
	const primer = asReal(first);
	const second = rehearsed({ job, at: Date.now() - 7 * day_ms, before: historyAfter(primer) });
	second.toState('spraying');
	second.send('hold');
	for (const code of ['close', 'none', 'close']) second.pick(code);
	days = [primer, asReal(second)];
});

function homeWithDays() {
	const home = folder();
	const store = makeDaysFolder(join(home, 'days'));
	const paths = days.map(day => {
		const path = join(store, `${day[0]?.at.slice(0, 10)}_market-coffee-cart.day.jsonl`);
		writeFileSync(path, encodeKey(day, undefined));
		return path;
	});
	/** Begins a day, and says with what; it is taken away again. */
	const begun = () => {
		expect(run(['spray', example, '--plain'], { home })).toMatchObject({ status: 0, stderr: '' });
		const path = readdirSync(store)
			.map(name => join(store, name))
			.find(one => one.endsWith('.jsonl') && !paths.includes(one));
		const [opened] = loadDay(path ?? '');
		if (opened?.type !== 'day.opened') throw new Error('no day was begun');
		rmSync(path ?? '');
		return { before: opened.before, rates: opened.rates, of: opened.of, after: opened.after };
	};
	return { home, store, paths, begun };
}

test('a day begins with the same history and rates whether its forerunners are read or what is kept beside them', () => {
	const { paths, begun } = homeWithDays();
	const read = begun();
	expect(read.before).toEqual(historyAfter(days.at(-1) ?? []));
	expect(Object.keys(read.rates ?? {})).not.toEqual([]);
	const [first, last] = paths.map(path => readFileSync(path));
	if (!first || !last) throw new Error('no days');
	expect(read.of).toBe(dayId(first));
	expect(read.after).toEqual([headOf(last, days.at(-1)?.length ?? 0)]);
	for (const path of paths) expect(existsSync(sumsPath(path))).toBe(true);
	expect(begun()).toEqual(read);
	for (const text of ['', 'written by hand', readFileSync(sumsPath(paths[0] ?? ''))]) {
		writeFileSync(sumsPath(paths[1] ?? ''), text);
		expect(begun()).toEqual(read);
	}
	for (const path of paths) rmSync(sumsPath(path));
	expect(begun()).toEqual(read);
});

test('what is kept beside the newest day never hides that the day is damaged', () => {
	const { home, paths, begun } = homeWithDays();
	begun();
	const [, newest = ''] = paths;
	const bytes = readFileSync(newest);
	const at = bytes.length >> 1;
	bytes[at] = (bytes[at] ?? 0) ^ 1;
	writeFileSync(newest, bytes);
	const { status, stderr } = run(['spray', example, '--plain'], { home });
	expect(status).toBe(1);
	expect(stderr).toMatch(/the day file is damaged/);
	expect(run(['plan', example, '--rest'], { home }).status).toBe(1);
});

test('a first day of a job is of none, and no day begins where two follow the same one', () => {
	const { home, store, paths, begun } = homeWithDays();
	const [primer, topcoat] = days;
	const [first, second] = paths;
	if (!primer || !topcoat || !first || !second) throw new Error('no days');
	const after: Head[] = [headOf(readFileSync(first), primer.length)];
	const open = topcoat.filter(one => one.type !== 'day.closed');
	const onPrimer = (program: string, records = topcoat) =>
		encodeKey(
			records.map(one => (one.type === 'day.opened' ? { ...one, program, of: after[0]?.day, after } : one)),
			undefined,
		);
	writeFileSync(second, onPrimer('here'));
	expect(begun().of).toBe(after[0]?.day);
	const beside = second.replace('.day', '-2.day');
	writeFileSync(beside, onPrimer('there'));
	const line = new RegExp(
		`^fanwise: ${beside}: it follows the same day as ${second}, and neither counts the coats of the other: ` +
			'move one of them to another folder: its coats are then not counted\\n$',
	);
	const refused = run(['spray', example, '--plain'], { home });
	expect(refused).toMatchObject({ status: 1, stdout: '' });
	expect(`fanwise: ${refused.stderr}`).toMatch(line);
	expect(run(['plan', example, '--rest'], { home })).toMatchObject({ status: 1, stdout: '' });
	const face = topcoat.find(one => one.type === 'face.started');
	if (face?.type !== 'face.started') throw new Error('no face was sprayed');
	const asked = ['--fault', 'run', '--face', face.face, '--coat', String(face.coat)];
	const spoken = [
		['now', beside],
		['trace', beside, ...asked],
		['trace', '--all'],
		['report', beside, '-o', join(home, 'day.json')],
	].map(words => run(words, { home }));
	for (const { status, stderr } of spoken) {
		expect(status).toBe(0);
		expect(stderr).toMatch(line);
	}
	writeFileSync(beside, onPrimer('there', open));
	const carriedOn = run(['spray', example, '--plain'], { home });
	expect(carriedOn).toMatchObject({ status: 0, stderr: '' });
	expect(carriedOn.stdout).toContain('Days: two follow the same one. Coats of the other do not count.');
	rmSync(beside);
	expect(begun().of).toBe(after[0]?.day);
	for (const name of readdirSync(store)) rmSync(join(store, name));
	expect(begun()).toMatchObject({ of: undefined, after: undefined });
});
