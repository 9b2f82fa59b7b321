import { readdirSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { daysOfJob } from '../day/file/days.ts';
import { dataFolder, daysFolder, shelfFolder } from '../day/file/folder.ts';
import { changeable } from '../job/again.ts';
import { again, withoutHead } from '../job/asking/again.ts';
import { errorLines, type SheetError } from '../job/errors.ts';
import { nameOnSheet } from '../job/glimpse.ts';
import { loadJob } from '../job/load.ts';
import { readText } from '../job/read-text.ts';
import { readShelf } from '../job/shelf.ts';
import { askedWith, askSheet } from './asked-sheet.ts';
import { begunSheet } from './begun-sheet.ts';
import type { Command, Io } from './command.ts';
import { told } from './day-files.ts';
import { whyNoFile } from './room-for-file.ts';

/** A job is known by its name: another of the same name would go on where this one's last day ended. */
function nameTaken(folder: string): (name: string) => string | null {
	const names = readdirSync(folder)
		.filter(file => /\.ya?ml$/i.test(file))
		.flatMap(file => {
			const read = readText(join(folder, file), '');
			return (read.ok && nameOnSheet(read.text)?.toLowerCase()) || [];
		});
	return name => {
		const isSheet = names.includes(name.toLowerCase());
		if (!isSheet && daysOfJob(daysFolder(), name).length === 0) return null;
		return `${name} is a job already, and its coats would count: choose another name`;
	};
}

async function run(path: string | undefined, io: Io, isJson: boolean): Promise<number> {
	const refuse = (lines: readonly string[]): number => {
		for (const line of lines) io.stderr.write(`${line}\n`);
		return 2;
	};
	const wrong = (errors: readonly SheetError[]) => refuse(errorLines(errors));
	if (path === undefined) return refuse(['fanwise again: name a job sheet: fanwise again JOB.yaml']);
	const loaded = await loadJob(path, shelfFolder());
	if (!loaded.ok) return wrong(loaded.errors);
	const read = readText(path, 'it was there a moment ago');
	if (!read.ok) return wrong(read.errors);
	const text = withoutHead(read.text);
	const can = changeable(text, path);
	if (Array.isArray(can)) return wrong(can);
	const folder = dirname(path);
	const shut = whyNoFile(folder) ?? whyNoFile(dataFolder(), 'made');
	if (shut !== null) return refuse([`fanwise again: ${shut}`]);
	const shelf = can.shelf === undefined ? shelfFolder() : resolve(folder, can.shelf);
	const sheet = { text, file: basename(path), can, nameTaken: nameTaken(folder) };
	const asked = askedWith(readShelf(shelf), io);
	const begun = begunSheet('again-sheet.json', resolve(path));
	const begin = () => again(sheet, asked);
	return askSheet({ command: 'fanwise again', begin, begun, at: { folder }, shelf }, io, isJson);
}

/** Asks what of a job is another this time, and writes its sheet. */
export const againCommand: Command = {
	name: 'again',
	summary: 'the same job in other numbers or colours: asks for those alone, and writes its sheet',
	usage: ['again JOB.yaml [--json]'],
	options: { json: { type: 'boolean', says: 'one object a question, one line an answer' } },
	examples: ['again eight-garden-chairs.yaml'],
	words: 1,
	run: ({ positionals: [path], options }, io) =>
		told('again', io, () => run(path, io, options.json === true)),
};
