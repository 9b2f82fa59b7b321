import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { loadJob, parseJob } from '../../src/job/load.ts';
import { allDays } from '../day/all-days.ts';
import { answered, chairs, inOrder, written } from '../job/asking/answered.ts';
import { jobs, shelf as workshopShelf } from '../job/asking/workshop-jobs.ts';
import { shelf } from '../job/chairs/long-form.ts';
import { inTerminal, type Pty } from './pty.ts';

/** A job asked for in a terminal, as a person types it: an answer when its question stands there. */

const program = resolve('dist/fanwise.js');

beforeAll(() => {
	if (!existsSync(program)) throw new Error(`${program} is not built: npm run build`);
});

function begun(home: string, columns = 80): Pty {
	const here = join(home, 'here');
	mkdirSync(here, { recursive: true });
	return inTerminal(['sh', '-c', `cd ${here} && exec ${process.execPath} ${program} new`], {
		...{ columns, rows: 60 },
		env: { FANWISE_HOME: home },
	});
}

/** The number of the question that waits, from its last line. */
const numberOn = (screen: string): number =>
	Number([...screen.matchAll(/^(\d+) of \d+ {2}/gm)].at(-1)?.[1] ?? 0);

/** Types every answer once the question with its number stands there. */
async function typed(terminal: Pty, answers: readonly string[], from = 1): Promise<void> {
	for (const [nth, answer] of answers.entries()) {
		await terminal.until(screen => numberOn(screen) === from + nth);
		terminal.type(`${answer}\r`);
	}
}

/** Letters and Enters at 30 words a minute, five letters a word; min. */
const minutesOf = (answers: readonly string[]): number =>
	answers.reduce((sum, answer) => sum + answer.length + 1, 0) / (30 * 5);

async function jobIn(
	home: string,
	name = 'eight-garden-chairs',
): Promise<{ job: Job; text: string; sheet: string }> {
	const sheet = join(home, 'here', `${name}.yaml`);
	const loaded = await loadJob(sheet, join(home, 'shelf'));
	if (!loaded.ok) throw new Error(loaded.errors.map(({ says }) => says).join('\n'));
	return { job: loaded.job, text: readFileSync(sheet, 'utf8'), sheet };
}

const epoxy = [
	...['1:1 by volume', '15%', 'stir, base, hardener, reducer, stand, strain', '15 min', '4 h at 20 °C'],
	...['190 micron', 'full: 30 um', '130 um', '30 min to 8 h at 20 °C'],
	'grey epoxy, 15 to 30 °C: wait 0 to 30 min, spray 30 min to 8 h, scuff 8 h to 24 h, sand from 24 h',
	...['', '8 h at 20 °C', '6 h at 20 °C', '320', '3 min', '20 min', '60 min', '46%'],
	...['air: 12 to 35 °C, humidity: 80%, over dew point: 3 °C', 'no'],
	'mixing: filter mask with A2-P3, spraying: filter mask with A2-P3, sanding: filter mask with P3',
];
const green = [
	...['2:1 by volume', '10%', 'stir, base, hardener, reducer, strain', 'none'],
	...['3 h at 15 °C, 2 h at 20 °C, 1 h at 30 °C', '125 micron', 'tack: 12 um, full: 28 um', '95 um'],
	'15 min to 2 h at 20 °C',
	'moss green satin, 12 to 30 °C: wait 0 to 15 min, spray 15 min to 2 h, wait 2 h to 16 h, sand from 16 h',
	'grey epoxy, 12 to 30 °C: wait 0 to 4 h, spray 4 h to 8 h, sand from 8 h',
	...['', '16 h at 20 °C', '', '', '2 min', '10 min', '30 min', '50%'],
	...['air: 12 to 32 °C, surface: 12 to 30 °C, humidity: 75%, over dew point: 3 °C', 'yes'],
	'mixing: supplied air, spraying: supplied air',
];
const large = [
	'NEW',
	'large',
	'2 bar',
	'25 cm',
	'15 cm',
	'6 cm',
	'100 mL in 30 s',
	'50%',
	'50% ± 10%',
	'600 mL gravity',
];
const shop = ['the Pump Yard workshop', 'metric', '20 °C', '50%', '9 h'];

const emptyHome = [
	...chairs.slice(0, 10),
	...shop,
	...['NEW', 'grey epoxy', ...epoxy, ...chairs.slice(11, 13)],
	...large,
	...['NEW', 'moss green satin', ...green, ...chairs.slice(15)],
];

test('eight chairs from a filled shelf: at most 25 questions, 35 lines, and its days run to their end', async () => {
	const home = mkdtempSync(join(tmpdir(), 'fanwise-new-'));
	cpSync(shelf, join(home, 'shelf'), { recursive: true });
	const terminal = begun(home);
	expect(chairs.length).toBeLessThanOrEqual(25);
	await typed(terminal, chairs.slice(0, -1));
	await terminal.until('overnight');
	await terminal.until('usual, not measured');
	await terminal.until('grey epoxy: dry to handle');
	await typed(terminal, chairs.slice(-1), chairs.length);
	await terminal.until(screen => screen.replaceAll('\n', '').includes('eight-garden-chairs.yaml: written.'));
	expect(await terminal.ended).toBe(0);
	const { job, text } = await jobIn(home);
	expect(text.trimEnd().split('\n').length).toBeLessThanOrEqual(35);
	const { days, laid, planned, findings } = await allDays(job);
	expect([laid, findings]).toEqual([planned, []]);
	expect(days).toBeLessThanOrEqual(4);
}, 600_000);

test('eight chairs from an empty home: at most 85 answers and ten minutes of typing, and the same job', async () => {
	const home = mkdtempSync(join(tmpdir(), 'fanwise-new-'));
	const terminal = begun(home);
	expect(emptyHome.length).toBeLessThanOrEqual(85);
	expect(minutesOf(emptyHome)).toBeLessThanOrEqual(10);
	await typed(terminal, emptyHome);
	await terminal.until(screen => screen.replaceAll('\n', '').includes('eight-garden-chairs.yaml: written.'));
	expect(await terminal.ended).toBe(0);
	const { job, sheet } = await jobIn(home);
	const byHand = await loadJob(sheet, shelf);
	if (!byHand.ok) throw new Error(byHand.errors[0]?.says);
	const neverDefaulted = ({ materials }: Job) =>
		Object.values(materials).map(({ ratio, breathing, isocyanate, potLife, clocks, recoat, coats }) => [
			...[ratio, breathing, isocyanate, potLife, clocks, recoat, coats],
		]);
	expect(neverDefaulted(job)).toEqual(neverDefaulted(byHand.job));
	expect(job.faces).toEqual(byHand.job.faces);
	expect(job.materials['grey epoxy']?.dryTo).toEqual({ handle: [{ at_C: 20, hours: 6 }] });
}, 90_000);

/** Of each the answers, the minutes of typing and the lines of the sheet. */
const counted: { job: keyof typeof jobs; wanted: [number, number, number] }[] = [
	{ job: 'six kitchen doors, both sides, two colours', wanted: [21, 1.4, 21] },
	{ job: 'round parts', wanted: [22, 1.2, 20] },
	{ job: 'a single panel', wanted: [18, 0.9, 15] },
];

test.each(counted)(
	'$job: typed in a terminal, counted; it is the job whose days run to their end (asked-sheets.test.ts)',
	async ({ job: called, wanted }) => {
		const answers: string[] = jobs[called];
		const home = mkdtempSync(join(tmpdir(), 'fanwise-new-'));
		for (const { path, text } of workshopShelf.files) {
			const to = join(home, 'shelf', path.slice(path.lastIndexOf('shelf/') + 6));
			mkdirSync(dirname(to), { recursive: true });
			writeFileSync(to, text);
		}
		const slug = (answers[0] ?? '').toLowerCase().replaceAll(' ', '-');
		const terminal = begun(home);
		await typed(terminal, answers);
		await terminal.until(screen => screen.replaceAll('\n', '').includes(`${slug}.yaml: written.`));
		expect(await terminal.ended).toBe(0);
		const { job, text } = await jobIn(home, slug);
		const count = [answers.length, Number(minutesOf(answers).toFixed(1)), text.trimEnd().split('\n').length];
		expect(count).toEqual(wanted);
		const inMemory = written(answered(workshopShelf, inOrder(answers)).outcome);
		const loaded = parseJob(inMemory.text, 'new.yaml', () => workshopShelf);
		if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
		expect(job).toEqual(loaded.job);
	},
	120_000,
);

test('left by Ctrl-C amid a data sheet, it is gone on with at the same question', async () => {
	const home = mkdtempSync(join(tmpdir(), 'fanwise-new-'));
	const first = begun(home);
	const [some, rest] = [emptyHome.slice(0, 24), emptyHome.slice(24, 27)];
	await typed(first, some);
	await first.until(screen => numberOn(screen) === some.length + 1);
	first.type('\u0003');
	await first.ended;
	const again = begun(home);
	await again.until('Eight garden chairs: go on with it?');
	again.type('\r');
	await typed(again, rest, some.length + 1);
	await again.until(screen => numberOn(screen) === some.length + rest.length + 1);
	again.type('back\r');
	await again.until(screen => numberOn(screen) === some.length + rest.length);
	again.type('leave\r');
	await again.until('left; fanwise new goes on with it');
	expect(await again.ended).toBe(1);
	expect(existsSync(join(home, 'here', 'eight-garden-chairs.yaml'))).toBe(false);
}, 120_000);
