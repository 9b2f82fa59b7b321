import { existsSync } from 'node:fs';
import { dirname } from 'node:path';
import { dataFolder, shelfFolder } from '../day/file/folder.ts';
import { plainName } from '../day/file/trouble.ts';
import { interview } from '../job/asking/interview.ts';
import { wrongIn } from '../job/check-shelf.ts';
import { errorLines } from '../job/errors.ts';
import { readShelf } from '../job/shelf.ts';
import { askedWith, askSheet } from './asked-sheet.ts';
import { begunSheet } from './begun-sheet.ts';
import type { Command, Io } from './command.ts';
import { told } from './day-files.ts';
import { whyNoFile } from './room-for-file.ts';

async function run(file: string | undefined, io: Io, isJson: boolean): Promise<number> {
	const refuse = (lines: readonly string[]): number => {
		for (const line of lines) io.stderr.write(`${line}\n`);
		return 2;
	};
	if (file !== undefined && existsSync(file))
		return refuse([`fanwise new: ${plainName(file)} is there already, and is left as it is`]);
	const wrong = whyNoFile(dirname(file ?? 'sheet.yaml')) ?? whyNoFile(dataFolder(), 'made');
	if (wrong !== null) return refuse([`fanwise new: ${wrong}`]);
	const shelf = readShelf(shelfFolder());
	const shop = shelf.files.find(({ kind }) => kind === 'shop');
	const errors = shop ? wrongIn(shop) : [];
	if (errors.length > 0) return refuse(errorLines(errors));
	const asked = askedWith(shelf, io);
	const at = file === undefined ? { folder: '' } : { file };
	const begun = begunSheet('new-sheet.json');
	const begin = () => interview(asked);
	return askSheet({ command: 'fanwise new', begin, begun, at, shelf: shelfFolder() }, io, isJson);
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
