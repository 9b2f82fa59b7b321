import { existsSync } from 'node:fs';
import { dirname, isAbsolute, join, resolve } from 'node:path';
import { type Checklist, checklistSchema, type ListName, listNameSchema } from './checklist.ts';
import { readDocument, type Source } from './document.ts';
import type { SheetError } from './errors.ts';
import type { Placed } from './fields.ts';
import { addTo } from './list-additions.ts';
import { itemOf, type ListEntry, readList } from './list-shape.ts';
import { readText } from './read-text.ts';

export type Lists = { ok: true; lists: Checklist[] } | { ok: false; errors: SheetError[] };

type Read = { source: Source; entry: ListEntry; list: Placed<ListName> };

function readListText(text: string, file: string): Read | SheetError[] {
	const source = readDocument(text, file);
	if (!source.root && source.errors.length === 0)
		source.fail(0, 'is empty; a checklist begins "list: gun-check"');
	const entry = source.root ? readList(source, source.root, '', 0) : undefined;
	const list = entry?.values.list;
	return entry && list ? { source, entry, list } : source.errors;
}

async function readListFile(path: string): Promise<Read | SheetError[]> {
	const read = await readText(path, 'check the name');
	return read.ok ? readListText(read.text, path) : read.errors;
}

/** A list that comes with the program. */
function builtIn({ source, entry, list }: Read): Checklist | SheetError[] {
	const items = (entry.values.items ?? []).map(item => itemOf(source, item));
	if (source.errors.length > 0) return source.errors;
	return checklistSchema.parse({ list: list.value, title: entry.values.title ?? list.value, items });
}

/** The folder of the lists that come with the program, found from the source and from the built file alike. */
export function checklistsFolder(from = import.meta.dirname): string {
	const folder = join(from, 'checklists');
	if (existsSync(join(folder, 'gun-check.yaml'))) return folder;
	const above = dirname(from);
	if (above === from)
		throw new Error('the folder "checklists" that comes with fanwise is gone: install it again');
	return checklistsFolder(above);
}

async function builtInLists(): Promise<Lists> {
	const files = listNameSchema.options.map(name => join(checklistsFolder(), `${name}.yaml`));
	const read = await Promise.all(files.map(readListFile));
	const lists = read.map(one => (Array.isArray(one) ? one : builtIn(one)));
	const errors = lists.flatMap(one => (Array.isArray(one) ? one : []));
	if (errors.length > 0) return { ok: false, errors };
	return { ok: true, lists: lists.flatMap(one => (Array.isArray(one) ? [] : [one])) };
}

/**
 * The lists in force: those that come with the program and what the files named by a sheet add to them.
 * @param job the names of its files, relative to the sheet
 * @param sheetPath where the sheet is
 * @returns the five lists, or every error of every file with its line and column
 */
export async function loadLists(job: { lists: readonly string[] }, sheetPath: string): Promise<Lists> {
	const own = await builtInLists();
	if (!own.ok) return own;
	const errors: SheetError[] = [];
	let { lists } = own;
	for (const name of job.lists) {
		const path = join(dirname(resolve(sheetPath)), name);
		const shownPath = join(dirname(sheetPath), name);
		if (isAbsolute(name)) {
			errors.push({
				file: name,
				line: 1,
				column: 1,
				says: 'is not relative to the job sheet: move it beside the sheet',
			});
			continue;
		}
		const read = await readText(path, `check the name under "lists" of the job sheet`);
		const found = read.ok
			? readListText(read.text, shownPath)
			: read.errors.map(one => ({ ...one, file: shownPath }));
		if (Array.isArray(found)) errors.push(...found);
		else {
			lists = addTo(lists, found.source, found.entry, found.list);
			errors.push(...found.source.errors);
		}
	}
	return errors.length > 0 ? { ok: false, errors } : { ok: true, lists };
}
