import { existsSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { daysOfJob } from '../day/file/days.ts';
import { daysFolder, slugOf } from '../day/file/folder.ts';
import { makeFolders } from '../day/file/port.ts';
import { DayFileError, diskError, plainName } from '../day/file/trouble.ts';
import { localDate, localZone } from '../day/local-zone.ts';
import { afterLine, atQuestion, type Begin } from '../job/asking/at-question.ts';
import type { Asked, Outcome, Whole } from '../job/asking/ending.ts';
import { ask, choiceOf, type Question } from '../job/asking/question.ts';
import type { Job } from '../job/job.ts';
import { notesOf } from '../job/notes.ts';
import type { Shelf } from '../job/shelf.ts';
import { planJob } from '../plan/job-plan.ts';
import { stagesText } from '../plan/sheet-text.ts';
import { sentence } from '../words/say.ts';
import type { Begun } from './begun-sheet.ts';
import type { Io } from './command.ts';
import { type NextLine, putQuestion, withLines } from './put-question.ts';

/** A sheet asked for line by line, left and gone on with at any question, and written under a name that no file has. */

/** The next morning at eight, where nothing else is said. */
function morning(): string {
	const at = new Date();
	at.setDate(at.getDate() + 1);
	return `${localDate(at.getTime())} 08:00`;
}

function planned(job: Job, start: string | null, io: Io): string[] {
	const at = new Date((start ?? morning()).replace(' ', 'T')).getTime();
	const said = { start: at, zone: localZone(), units: io.units ?? job.units, width: 76 };
	try {
		const { stages, reasons } = planJob({ job, start: at });
		const kept = reasons.map(reason => `${sentence(reason)}.`);
		return [...stagesText(stages, said), ...(kept.length > 0 ? ['This cannot be kept:', ...kept] : [])];
	} catch (error) {
		if (!(error instanceof RangeError)) throw error;
		return [`no plan: ${error.message}`];
	}
}

const usual = (job: Job): string[] =>
	notesOf(job, job.units).filter(note => note.includes('usual, not measured'));

/** Whether days were sprayed under a name; days that cannot be looked for are none. */
function hasDays(name: string): boolean {
	try {
		return daysOfJob(daysFolder(), name).length > 0;
	} catch (error) {
		if (!(error instanceof DayFileError)) throw error;
		return false;
	}
}

/** What the questions are given from outside. */
export const askedWith = (shelf: Shelf, io: Io): Asked => ({
	shelf,
	hasDays,
	morning: morning(),
	planned: (job, start) => planned(job, start, io),
	usual,
});

type Talk = { next: NextLine; put(question: Question, at: number): void };

/** Puts every question until the sheet is whole or left; keeps each answer as it is taken. */
async function talked(begin: Begin, answers: readonly string[], begun: Begun, talk: Talk): Promise<Outcome> {
	for (let at = atQuestion(begin, answers); ; begun.keep(at.taken)) {
		if (at.step.done) return at.step.value;
		talk.put(at.step.value, at.taken.length + 1);
		const line = await talk.next();
		if (line === null || line === 'leave') return null;
		const after = afterLine(begin, at, line);
		if (after.step.done) return after.step.value;
		at = after;
	}
}

/** Whether a sheet that was begun goes on; null: neither was said. */
async function answersToGoOn(
	kept: readonly string[],
	{ next, put }: Talk,
): Promise<readonly string[] | null> {
	if (kept.length === 0) return kept;
	const choices = ['go on', 'begin anew'];
	const means = 'It was left before its end; begun anew, its answers are gone.';
	const begun = {
		question: 'begun',
		say: `${kept[0]}: go on with it?`,
		means,
		choices,
		offered: 'go on',
		ahead: 0,
	};
	const asking = ask(begun, answer => {
		const found = choiceOf(choices, answer);
		return found === undefined ? { wrong: `allowed: ${choices.join(', ')}` } : { is: found };
	});
	for (let step = asking.next(); ; ) {
		if (step.done) return step.value === 'go on' ? kept : [];
		put(step.value, 1);
		const answer = await next();
		if (answer === null || answer === 'leave') return null;
		step = asking.next(answer);
	}
}

/** A name in a folder that no file has. */
function freePath(folder: string, name: string): string {
	for (let count = 1; ; count++) {
		const path = join(folder, `${slugOf(name)}${count === 1 ? '' : `-${count}`}.yaml`);
		if (!existsSync(path)) return path;
	}
}

function write(path: string, text: string): void {
	try {
		makeFolders(dirname(path));
		writeFileSync(path, text, { flag: 'wx' });
	} catch (error) {
		throw diskError(path, 'it was not written', error);
	}
}

export type ToAsk = {
	/** The command, for what is said when it is left. */
	command: string;
	begin: Begin;
	begun: Begun;
	/** Where the sheet goes: a file, or a folder in which it gets a name of its own. */
	at: { file: string } | { folder: string };
	/** The folder of the shelf, for what it lacks. */
	shelf: string;
};

/** The sheet, and before it what the shelf lacked. */
function writeAll({ name, text, lacking }: Whole, { at, shelf }: ToAsk): { path: string; added: string[] } {
	const path = 'file' in at ? at.file : freePath(at.folder, name);
	const added = lacking.map(one => ({ path: join(shelf, one.path), text: one.text }));
	for (const one of [...added, { path, text }]) write(one.path, one.text);
	return { path, added: added.map(one => one.path) };
}

/**
 * Asks for a sheet and writes it.
 * @returns 0 written, 1 left
 */
export async function askSheet(asked: ToAsk, io: Io, isJson: boolean): Promise<number> {
	const { begin, begun } = asked;
	const put = (question: Question, at: number) => putQuestion(question, at, io, isJson);
	const outcome = await withLines(io, async next => {
		const kept = await answersToGoOn(begun.kept(), { next, put });
		return kept && talked(begin, kept, begun, { next, put });
	});
	if (!outcome || 'backTo' in outcome) {
		const kept = begun.kept().length > 0 ? `left; ${asked.command} goes on with it` : 'left; nothing is kept';
		io.stderr.write(`fanwise ${asked.command.split(' ')[1]}: ${kept}\n`);
		return 1;
	}
	const { path, added } = writeAll(outcome, asked);
	begun.forget();
	const says = [
		...added.map(one => `${plainName(one)}: written.`),
		`${plainName(path)}: written. Next: fanwise spray ${plainName(path)}`,
	];
	io.stdout.write(isJson ? `${JSON.stringify({ written: path, shelf: added })}\n` : `${says.join('\n')}\n`);
	return 0;
}
