import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { shelfFolder } from '../day/file/folder.ts';
import { plainName, saySystemError } from '../day/file/trouble.ts';
import { wrongIn } from '../job/check-shelf.ts';
import { type Asked, linesOf, nameLine, questionsOf } from '../job/data-sheet.ts';
import { errorLine, notAllowed } from '../job/errors.ts';
import { nameOnShelf, readShelf, type ShelfKind, shelfKinds, shelfPath } from '../job/shelf.ts';
import type { Command, Io } from './command.ts';

type Place = { at: number; of: number };
/** One line an answer; null: there are no more. */
type Ask = (question: Asked, place: Place, wrong: string | null) => Promise<string | null>;

function asker(io: Io, isJson: boolean): Ask {
	const input = createInterface({ input: io.stdin ?? process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
	const answers = input[Symbol.asyncIterator]();
	return async ({ key, say, like, may = false }, { at, of }, wrong) => {
		const text = `${at} of ${of}  ${say} As in: ${like}${may ? ' (Enter: leave it out)' : ''}\n`;
		const asked = { question: key, say, like, may, at, of, ...(wrong !== null && { wrong }) };
		io.stdout.write(isJson ? `${JSON.stringify(asked)}\n` : `${wrong === null ? '' : `  ${wrong}\n`}${text}`);
		const next = await answers.next();
		return next.done ? null : next.value.trim();
	};
}

/** The lines that one question gives; null: the answers ended. What is not on the data sheet stays to be seen. */
async function linesFor(kind: ShelfKind, question: Asked, place: Place, ask: Ask): Promise<string[] | null> {
	const lines: string[] = [];
	let wrong: string | null = null;
	for (;;) {
		const given: string | null = await ask(question, place, wrong);
		if (given === null) return null;
		if (given === '-') return [...lines, `# not on the sheet: ${question.key}`];
		if (given === '' && (question.may || lines.length > 0)) return lines;
		const read = linesOf(kind, question, given);
		wrong = 'wrong' in read ? read.wrong : null;
		if ('wrong' in read) continue;
		lines.push(lines.length > 0 ? read.lines.replace(/^[^\n]*\n/, '') : read.lines);
		if (!question.again) return lines;
	}
}

/** Every line of a new file, its name first; null: the answers ended before. */
async function asked(kind: ShelfKind, name: string, ask: Ask): Promise<string[] | null> {
	const questions = questionsOf[kind];
	const lines = [name];
	for (const [nth, question] of questions.entries()) {
		const { where } = question;
		if (where && !lines.some(line => line.startsWith(`${where[0]}:`) && where[1].test(line))) continue;
		const more = await linesFor(kind, question, { at: nth + 1, of: questions.length }, ask);
		if (!more) return null;
		lines.push(...more);
	}
	return lines;
}

const isKind = (word: string | undefined): word is ShelfKind => shelfKinds.some(kind => kind === word);

async function add(kind: ShelfKind, name: string, io: Io, isJson: boolean): Promise<number> {
	const refuse = (says: string): number => {
		io.stderr.write(`fanwise shelf add: ${says}\n`);
		return 2;
	};
	const first = nameLine(kind, name);
	if ('wrong' in first) return refuse(first.wrong);
	const folder = shelfFolder();
	const own = nameOnShelf(kind, first.lines);
	const there = readShelf(folder).files.find(
		file => file.kind === kind && (kind === 'shop' || file.name === own),
	);
	if (there) return refuse(`${plainName(there.path)} is there already, and is left as it is`);
	const lines = await asked(kind, first.lines, asker(io, isJson));
	if (!lines) {
		io.stderr.write('fanwise shelf add: the answers ended; nothing was written\n');
		return 1;
	}
	const path = join(folder, shelfPath(kind, name));
	const text = `${lines.join('\n')}\n`;
	try {
		mkdirSync(dirname(path), { recursive: true });
		writeFileSync(path, text, { flag: 'wx' });
	} catch (error) {
		return refuse(`${plainName(path)}: it was not written; ${saySystemError(error)}`);
	}
	const errors = wrongIn({ kind, name: own, path, text });
	for (const error of errors) io.stderr.write(`${errorLine(error)}\n`);
	const says = errors.length === 0 ? 'Sheets can name it.' : 'Mend these lines before a sheet names it.';
	io.stdout.write(
		isJson ? `${JSON.stringify({ written: path, errors })}\n` : `${plainName(path)}: written. ${says}\n`,
	);
	return 0;
}

/** Asks for the lines of a data sheet in their order, and puts them on the shelf. */
export const addPart: Command = {
	name: 'add',
	summary: 'asks for a material, a gun or the shop line by line, and writes its file',
	usage: ['shelf add material|gun|shop NAME [--json]'],
	options: {
		json: { type: 'boolean', says: 'one object a question, one line an answer' },
	},
	examples: ['shelf add material "grey epoxy"', 'shelf add gun large'],
	words: 2,
	run({ positionals: [kind, name], options }, io) {
		if (isKind(kind) && name !== undefined) return add(kind, name, io, options.json === true);
		const says =
			kind === undefined || isKind(kind)
				? 'say what, and its name: fanwise shelf add material "grey epoxy"'
				: notAllowed(kind, shelfKinds);
		io.stderr.write(`fanwise shelf add: ${says}\n`);
		return 2;
	},
};
