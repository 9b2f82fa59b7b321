import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { shelfFolder } from '../day/file/folder.ts';
import { makeFolders } from '../day/file/port.ts';
import { plainName, saySystemError } from '../day/file/trouble.ts';
import { adding } from '../job/asking/adding.ts';
import type { Question } from '../job/asking/question.ts';
import { wrongIn } from '../job/check-shelf.ts';
import { nameLine } from '../job/data-sheet.ts';
import { errorLine, notAllowed } from '../job/errors.ts';
import { nameOnShelf, readShelf, type ShelfKind, shelfKinds, shelfPath } from '../job/shelf.ts';
import type { Command, Io } from './command.ts';
import { type NextLine, putQuestion, withLines } from './put-question.ts';
import { whyNoFile } from './room-for-file.ts';

/** Every line of a new file, its name first; null: the answers ended before. */
async function asked(
	kind: ShelfKind,
	name: string,
	put: (question: Question, at: number) => void,
	next: NextLine,
): Promise<string[] | null> {
	const asking = adding(kind, name);
	let step = asking.next();
	for (let at = 1; !step.done; ) {
		put(step.value, at);
		const answer = await next();
		if (answer === null) return null;
		step = asking.next(answer);
		if (step.done || step.value.wrong === null) at++;
	}
	return step.value;
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
	const shut = whyNoFile(folder, 'made');
	if (shut !== null) return refuse(shut);
	const own = nameOnShelf(kind, first.lines);
	const there = readShelf(folder).files.find(
		file => file.kind === kind && (kind === 'shop' || file.name === own),
	);
	if (there) return refuse(`${plainName(there.path)} is there already, and is left as it is`);
	const put = (question: Question, at: number) => putQuestion(question, at, io, isJson);
	const lines = await withLines(io, next => asked(kind, first.lines, put, next));
	if (!lines) {
		io.stderr.write('fanwise shelf add: the answers ended; nothing was written\n');
		return 1;
	}
	const path = join(folder, shelfPath(kind, name));
	const text = `${lines.join('\n')}\n`;
	try {
		makeFolders(dirname(path));
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
	summary: 'asks for a material, a gun, a shape or the shop line by line, and writes its file',
	usage: ['shelf add material|gun|shape|shop NAME [--json]'],
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
