import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { loadJob, parseJob } from '../../src/job/load.ts';
import { allDays } from '../day/all-days.ts';
import { answered, chairs, inOrder, written } from '../job/asking/answered.ts';
import { fromEmpty, minutesOf } from '../job/asking/from-empty.ts';
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

async function jobIn(
	home: string,
	name = 'eight-garden-chairs',
): Promise<{ job: Job; text: string; sheet: string }> {
	const sheet = join(home, 'here', `${name}.yaml`);
	const loaded = await loadJob(sheet, join(home, 'shelf'));
	if (!loaded.ok) throw new Error(loaded.errors.map(({ says }) => says).join('\n'));
	return { job: loaded.job, text: readFileSync(sheet, 'utf8'), sheet };
}

const emptyHome = fromEmpty['eight chairs'];

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

test('eight chairs from an empty home: at most 85 answers and ten minutes of typing, two guns among them', async () => {
	const home = mkdtempSync(join(tmpdir(), 'fanwise-new-'));
	const terminal = begun(home);
	expect(emptyHome.length).toBeLessThanOrEqual(85);
	expect(minutesOf(emptyHome)).toBeLessThanOrEqual(10);
	await typed(terminal, emptyHome);
	await terminal.until(screen => screen.replaceAll('\n', '').includes('eight-garden-chairs.yaml: written.'));
	expect(await terminal.ended).toBe(0);
	const { job, sheet } = await jobIn(home);
	expect(Object.keys(job.guns ?? {})).toEqual(['large', 'small']);
	const filled = mkdtempSync(join(tmpdir(), 'fanwise-new-'));
	cpSync(shelf, filled, { recursive: true });
	cpSync(join(home, 'shelf/guns'), join(filled, 'guns'), { recursive: true });
	cpSync(join(home, 'shelf/shop.yaml'), join(filled, 'shop.yaml'));
	const byHand = await loadJob(sheet, filled);
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
	{ job: 'six kitchen doors, both sides, two colours', wanted: [23, 1.4, 21] },
	{ job: 'round parts', wanted: [23, 1.2, 20] },
	{ job: 'a single panel', wanted: [19, 0.9, 15] },
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
