import { existsSync, readFileSync } from 'node:fs';
import { dirname, isAbsolute, join, resolve } from 'node:path';
import { type Checklist, checklistSchema, type ListName, listNameSchema } from './checklist.ts';
import { checklistsFolder } from './checklists-folder.ts';
import { readDocument, type Source } from './document.ts';
import { errorLine, type SheetError } from './errors.ts';
import type { Placed } from './fields.ts';
import { addTo, tooLong } from './list-additions.ts';
import { itemOf, type ListEntry, readList } from './list-shape.ts';
import { readText } from './read-text.ts';

export type Lists = { ok: true; lists: Checklist[] } | { ok: false; errors: SheetError[] };

type Read = { source: Source; entry: ListEntry; list: Placed<ListName> };

/** A list out of its text, or every error in it. */
export function parseList(text: string, file: string): Read | SheetError[] {
	const source = readDocument(text, file);
	if (!source.root && source.errors.length === 0)
		source.fail(0, 'is empty; a checklist begins "list: gun-check"');
	const entry = source.root ? readList(source, source.root, '', 0) : undefined;
	const list = entry?.values.list;
	return entry && list ? { source, entry, list } : source.errors;
}

/**
 * A list that comes with the program.
 * @param file its name, for what is wrong with it
 */
export function builtIn(text: string, file: string): Checklist | SheetError[] {
	const read = parseList(text, file);
	if (Array.isArray(read)) return read;
	const { source, entry, list } = read;
	const items = (entry.values.items ?? []).map(item => itemOf(source, item));
	const long = tooLong({ list: list.value, items: items.filter(item => item !== undefined) });
	if (long) source.fail(list.at, long);
	if (source.errors.length > 0) return source.errors;
	return checklistSchema.parse({ list: list.value, title: entry.values.title ?? list.value, items });
}

const builtInPath = (name: ListName): string => join(checklistsFolder(), `${name}.yaml`);

/** A list and the text it was read from. */
type ReadBefore = { text: string; list: Checklist };

/**
 * The lists that come with the program, read for the build to keep beside it.
 * @throws Error for a list that is not there or not right
 */
export const builtInForBuild = (): ReadBefore[] =>
	listNameSchema.options.map(name => {
		const text = readFileSync(builtInPath(name), 'utf8');
		const list = builtIn(text, builtInPath(name));
		if (Array.isArray(list)) throw new Error(list.map(errorLine).join('\n'));
		return { text, list };
	});

/** What the build has read, so that a start need not; run from the source there is none. */
function readByBuild(): ReadBefore[] {
	const path = join(import.meta.dirname, 'lists.json');
	return existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : [];
}

/** A list whose text is no longer the one that the build read is read anew. */
function builtInLists(): Lists {
	const known = readByBuild();
	const found = listNameSchema.options.map(name => {
		const read = readText(builtInPath(name), 'install fanwise again');
		if (!read.ok) return read.errors;
		return known.find(({ text }) => text === read.text)?.list ?? builtIn(read.text, builtInPath(name));
	});
	const errors = found.flatMap(one => (Array.isArray(one) ? one : []));
	if (errors.length > 0) return { ok: false, errors };
	return { ok: true, lists: found.flatMap(one => (Array.isArray(one) ? [] : [one])) };
}

/**
 * The lists in force: those that come with the program and what the files named by a sheet add to them.
 * @param job the names of its files, relative to the sheet
 * @param sheetPath where the sheet is
 * @returns the five lists, or every error of every file with its line and column
 */
export async function loadLists(job: { lists: readonly string[] }, sheetPath: string): Promise<Lists> {
	const own = builtInLists();
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
		const read = readText(path, `check the name under "lists" of the job sheet`);
		const found = read.ok
			? parseList(read.text, shownPath)
			: read.errors.map(one => ({ ...one, file: shownPath }));
		if (Array.isArray(found)) errors.push(...found);
		else {
			lists = addTo(lists, found.source, found.entry, found.list);
			errors.push(...found.source.errors);
		}
	}
	return errors.length > 0 ? { ok: false, errors } : { ok: true, lists };
}
