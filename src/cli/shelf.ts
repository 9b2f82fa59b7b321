import { statSync } from 'node:fs';
import { basename } from 'node:path';
import { shelfFolder } from '../day/file/folder.ts';
import { doubled, lookedAt } from '../job/check-shelf.ts';
import { errorLine, notAllowed, type SheetError } from '../job/errors.ts';
import { brief } from '../job/inert.ts';
import { readShelf, type Shelf, type ShelfFile } from '../job/shelf.ts';
import type { Args, Command, Io } from './command.ts';
import { addPart } from './shelf-add.ts';

type Row = { file: ShelfFile; errors: SheetError[]; usual: readonly string[] };

/** Every file of the shelf with what is wrong in it; two of one name are wrong, too. */
function rowsOf(shelf: Shelf): Row[] {
	const again = new Set(doubled(shelf));
	return shelf.files.map(file => {
		const twice = { file: file.path, line: 1, column: 1, says: 'another file of the shelf has this name' };
		const { errors, usual } = lookedAt(file);
		return { file, errors: [...errors, ...(again.has(file) ? [twice] : [])], usual };
	});
}

const dateOf = (path: string): string =>
	statSync(path, { throwIfNoEntry: false })?.mtime.toISOString().slice(0, 10) ?? '';
const nameOf = ({ name, path }: ShelfFile): string => brief(name ?? basename(path), 60);

function lineOf({ file, errors, usual }: Row): string {
	const [first] = errors;
	const state = first
		? `cannot be used: ${errors.length === 1 ? '1 error' : `${errors.length} errors`}, first in line ${first.line}`
		: usual.length > 0
			? `can be used; ${usual.join(', ')} usual, not measured`
			: 'can be used';
	return `${file.kind.padEnd(8)}  ${nameOf(file).padEnd(24)}  ${dateOf(file.path)}  ${state}`;
}

const dataOf = ({ file, errors, usual }: Row) => ({
	...{ kind: file.kind, name: file.name, path: file.path, changed: dateOf(file.path) },
	...{ valid: errors.length === 0, errors, usual },
});

const json = { type: 'boolean', says: 'as JSON, with every error' } as const;
const noneYet = (folder: string) =>
	`The shelf is empty: fanwise shelf add material NAME begins it, in ${brief(folder, 200)}\n`;

function list({ options }: Args, io: Io): number {
	const shelf = readShelf(shelfFolder());
	const rows = rowsOf(shelf);
	if (options.json) io.stdout.write(`${JSON.stringify({ folder: shelf.folder, files: rows.map(dataOf) })}\n`);
	else for (const row of rows) io.stdout.write(`${lineOf(row)}\n`);
	for (const error of shelf.errors) io.stderr.write(`${errorLine(error)}\n`);
	if (!options.json && rows.length === 0) io.stdout.write(noneYet(shelf.folder));
	return 0;
}

function check({ positionals: [name], options }: Args, io: Io): number {
	const shelf = readShelf(shelfFolder());
	const all = rowsOf(shelf);
	const rows = all.filter(({ file }) => name === undefined || file.name === name);
	if (name !== undefined && rows.length === 0) {
		const known = all.map(({ file }) => nameOf(file));
		io.stderr.write(`fanwise shelf check: ${notAllowed(name, known)}\n`);
		return 2;
	}
	const errors = [...rows.flatMap(row => row.errors), ...(name === undefined ? shelf.errors : [])];
	for (const error of errors) io.stderr.write(`${errorLine(error)}\n`);
	if (options.json) io.stdout.write(`${JSON.stringify({ valid: errors.length === 0, errors })}\n`);
	else if (all.length === 0) io.stdout.write(noneYet(shelf.folder));
	else if (errors.length === 0)
		io.stdout.write(`Nothing is wrong with ${rows.map(({ file }) => nameOf(file)).join(', ')}.\n`);
	return errors.length === 0 ? 0 : 2;
}

const checkPart: Command = {
	name: 'check',
	summary: 'validates one file of the shelf by its name, or all of them',
	usage: ['shelf check [NAME] [--json]'],
	options: { json },
	examples: ['shelf check', 'shelf check "grey epoxy"'],
	words: 1,
	run: check,
};

/** What the shop keeps for every job. */
export const shelfCommand: Command = {
	name: 'shelf',
	summary: 'the materials, guns and shapes that sheets only name: listed, added, checked',
	usage: ['shelf [--json]', 'shelf add material|gun|shape|shop NAME [--json]', 'shelf check [NAME] [--json]'],
	options: { json },
	examples: ['shelf', 'shelf check "grey epoxy"'],
	parts: [addPart, checkPart],
	run: list,
};
