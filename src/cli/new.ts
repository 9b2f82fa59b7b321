import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { shelfFolder, slugOf } from '../day/file/folder.ts';
import { diskError, plainName } from '../day/file/trouble.ts';
import { localDate, localZone } from '../day/local-zone.ts';
import { afterLine, atQuestion } from '../job/asking/at-question.ts';
import type { Asked, Outcome, Whole } from '../job/asking/interview.ts';
import { ask, choiceOf, type Question } from '../job/asking/question.ts';
import { wrongIn } from '../job/check-shelf.ts';
import { errorLines } from '../job/errors.ts';
import type { Job } from '../job/job.ts';
import { notesOf } from '../job/notes.ts';
import { readShelf } from '../job/shelf.ts';
import { planJob } from '../plan/job-plan.ts';
import { stagesText } from '../plan/sheet-text.ts';
import { sentence } from '../words/say.ts';
import { answersKept, forgetAnswers, keepAnswers } from './begun-sheet.ts';
import type { Command, Io } from './command.ts';
import { told } from './day-files.ts';
import { type NextLine, putQuestion, withLines } from './put-question.ts';

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

type Talk = { next: NextLine; put(question: Question, at: number): void };

/** Puts every question until the sheet is whole or left; keeps each answer as it is taken. */
async function talked(asked: Asked, kept: readonly string[], { next, put }: Talk): Promise<Outcome> {
	for (let at = atQuestion(asked, kept); ; keepAnswers(at.taken)) {
		if (at.step.done) return at.step.value;
		put(at.step.value, at.taken.length + 1);
		const line = await next();
		if (line === null || line === 'leave') return null;
		const after = afterLine(asked, at, line);
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
	const begun = { question: 'begun', say: `${kept[0]}: go on with it?`, choices, offered: 'go on', ahead: 0 };
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

/** A name that no file has. */
function freePath(name: string): string {
	for (let count = 1; ; count++) {
		const path = `${slugOf(name)}${count === 1 ? '' : `-${count}`}.yaml`;
		if (!existsSync(path)) return path;
	}
}

function write(path: string, text: string): void {
	try {
		mkdirSync(dirname(path), { recursive: true });
		writeFileSync(path, text, { flag: 'wx' });
	} catch (error) {
		throw diskError(path, 'it was not written', error);
	}
}

/** The sheet under a name of its own, and before it what the shelf lacked. */
function writeAll(
	{ name, text, lacking }: Whole,
	file: string | undefined,
): { path: string; added: string[] } {
	const path = file ?? freePath(name);
	const added = lacking.map(one => ({ path: join(shelfFolder(), one.path), text: one.text }));
	for (const one of [...added, { path, text }]) write(one.path, one.text);
	forgetAnswers();
	return { path, added: added.map(one => one.path) };
}

async function run(file: string | undefined, io: Io, isJson: boolean): Promise<number> {
	const refuse = (lines: readonly string[]): number => {
		for (const line of lines) io.stderr.write(`${line}\n`);
		return 2;
	};
	if (file !== undefined && existsSync(file))
		return refuse([`fanwise new: ${plainName(file)} is there already, and is left as it is`]);
	const shelf = readShelf(shelfFolder());
	const shop = shelf.files.find(({ kind }) => kind === 'shop');
	const errors = shop ? wrongIn(shop) : [];
	if (errors.length > 0) return refuse(errorLines(errors));
	const asked: Asked = {
		shelf,
		morning: morning(),
		planned: (job, start) => planned(job, start, io),
		usual,
	};
	const put = (question: Question, at: number) => putQuestion(question, at, io, isJson);
	const outcome = await withLines(io, async next => {
		const kept = await answersToGoOn(answersKept(), { next, put });
		return kept && talked(asked, kept, { next, put });
	});
	if (!outcome || 'backTo' in outcome) {
		const kept = answersKept().length > 0 ? 'left; fanwise new goes on with it' : 'left; nothing is kept';
		io.stderr.write(`fanwise new: ${kept}\n`);
		return 1;
	}
	const { path, added } = writeAll(outcome, file);
	const says = [
		...added.map(one => `${plainName(one)}: written.`),
		`${plainName(path)}: written. Next: fanwise spray ${plainName(path)}`,
	];
	io.stdout.write(isJson ? `${JSON.stringify({ written: path, shelf: added })}\n` : `${says.join('\n')}\n`);
	return 0;
}

/** Asks for a job, and writes its sheet. */
export const newCommand: Command = {
	name: 'new',
	summary: 'asks for a job line by line, shows its plan, and writes its sheet',
	usage: ['new [FILE] [--json]'],
	options: { json: { type: 'boolean', says: 'one object a question, one line an answer' } },
	examples: ['new', 'new chairs.yaml'],
	words: 1,
	run: ({ positionals: [file], options }, io) => told('new', io, () => run(file, io, options.json === true)),
};
