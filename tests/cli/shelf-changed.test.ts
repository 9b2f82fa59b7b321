import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, expect, test } from 'vitest';
import { readSheet, type Sheet } from '../../src/cli/sheet.ts';
import { heldOn, ShelfChangedError, shelfQuestion } from '../../src/cli/shelf-changed.ts';
import { makeDaysFolder } from '../../src/day/file/folder.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import { noHistory } from '../../src/day/history.ts';
import { openingRecord } from '../../src/day/open.ts';
import { standardSettings } from '../../src/day/standard-settings.ts';
import { folder, run } from './run.ts';

const start = Date.parse('2026-03-02T08:00:00Z');
let home: string;
let sheetPath: string;

beforeEach(() => {
	home = folder();
	cpSync('tests/job/chairs', home, { recursive: true });
	sheetPath = join(home, 'eight-chairs.yaml');
	writeFileSync(sheetPath, `shelf: shelf\n${readFileSync(sheetPath, 'utf8')}`);
});

function change(file: string, from: string, to: string): void {
	const path = join(home, file);
	const text = readFileSync(path, 'utf8');
	expect(text).toContain(from);
	writeFileSync(path, text.replace(from, to));
}
const io = { env: {}, stdout: { write() {} }, stderr: { write() {} } };
async function read(): Promise<Sheet> {
	const sheet = await readSheet(sheetPath, io, 'spray');
	if (!sheet) throw new Error('the sheet does not load');
	return sheet;
}
/** The file of a day that was opened with a sheet, and closed. */
function dayOn(sheet: Sheet & { turnedDown?: string }, nth = 1): string {
	const opening = { ...sheet, settings: standardSettings, clock: 'real' as const, program: '0.0.0' };
	const at = { wall: start + nth * 86_400_000, mono: 0 };
	const first = openingRecord({ ...opening, before: noHistory, zone: 'UTC' }, at);
	const path = join(makeDaysFolder(join(home, 'days')), `2026-03-0${nth + 2}_eight-garden-chairs.day.jsonl`);
	const shut = { ...first, seq: 2, type: 'day.closed' as const, job: sheet.job.name, why: 'early' as const };
	const { seq, run: nthRun, at: when, mono, type, job, why } = shut;
	writeFileSync(
		path,
		Buffer.concat([
			encodeKey([first], undefined),
			encodeKey([{ seq, run: nthRun, at: when, mono, type, job, why }], first),
		]),
	);
	return path;
}
const asked = async (sheet: Sheet, day: string): Promise<ShelfChangedError> => {
	const error = await heldOn(sheet, day, null).catch(one => one);
	if (!(error instanceof ShelfChangedError)) throw new Error('nothing was asked');
	return error;
};
const epoxy = 'shelf/materials/grey-epoxy.yaml';

test('a shelf that is as it was is asked about on no day, nor one whose job begins', async () => {
	const sheet = await read();
	expect(await heldOn(sheet, dayOn(sheet), null)).toBe(sheet);
	expect(await heldOn(sheet, undefined, null)).toBe(sheet);
});

test('a file changed meanwhile is asked about: KEEP or USE THE NEW, and what is another in it', async () => {
	const day = dayOn(await read());
	change(epoxy, 'wet edge: 3 min', 'wet edge: 2 min');
	change(epoxy, 'pot life: 4 h', 'pot life: 5 h');
	const question = shelfQuestion(await asked(await read(), day));
	expect(question).toMatchObject({
		say: 'Grey epoxy: changed on the shelf. Which holds?',
		lines: ['grey epoxy: pot life, wet edge.'],
	});
	expect(question.answers.map(({ text }) => text)).toEqual(['KEEP', 'USE THE NEW', 'LEAVE']);
});

test('the new one holds where that is said, else the job goes on as it was', async () => {
	const old = await read();
	const day = dayOn(old);
	change(epoxy, 'pot life: 4 h', 'pot life: 5 h');
	change('shelf/guns/large.yaml', '200 mL/min', '240 mL/min');
	const sheet = await read();
	expect(sheet.job).not.toEqual(old.job);
	expect((await heldOn(sheet, day, 'new')).job).toEqual(sheet.job);
	expect((await heldOn(sheet, day, 'keep')).job).toEqual(old.job);
});

test('it is asked once: not again on the day after, until the shelf changes again', async () => {
	const old = await read();
	change(epoxy, 'pot life: 4 h', 'pot life: 5 h');
	const kept = await heldOn(await read(), dayOn(old), 'keep');
	const second = dayOn(kept, 2);
	expect((await heldOn(await read(), second, null)).job).toEqual(old.job);
	change(epoxy, 'pot life: 5 h', 'pot life: 6 h');
	expect((await asked(await read(), second)).changed).toMatchObject([
		{ name: 'grey epoxy', keys: ['pot life'] },
	]);
});

test('what the sheet itself says is no matter of the shelf: it holds from the next day, as it is written', async () => {
	const day = dayOn(await read());
	change('eight-chairs.yaml', 'name: Eight', 'risk: 5%\nname: Eight');
	const sheet = await read();
	expect((await heldOn(sheet, day, null)).job).toEqual(sheet.job);
});

test('where nobody sits at a terminal no day is begun, and one line says why', async () => {
	dayOn(await read());
	change(epoxy, 'pot life: 4 h', 'pot life: 5 h');
	const { status, stderr } = run(['spray', sheetPath, '--plain'], { home });
	expect(status).toBe(1);
	expect(stderr).toContain(
		'the shelf changed since the last day: grey epoxy (pot life): say at a terminal which holds',
	);
});
