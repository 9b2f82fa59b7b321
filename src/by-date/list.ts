import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod/mini';
import { checklistsFolder } from '../job/checklists-folder.ts';
import { readDocument } from '../job/document.ts';
import { errorLine, type SheetError } from '../job/errors.ts';
import { list, map, must, value } from '../job/fields.ts';
import { code, reason, sentence } from '../job/list-shape.ts';
import { complain, fromText } from '../job/values.ts';

/** What is asked by date, as the list that comes with the program has it. */

export type ByDateItem = { code: string; every_months: number; say: string; why: string };
export type ByDateList = { caution: string; items: ByDateItem[] };

const months = fromText((text, ctx): number => {
	const found = Number(/^(\d{1,3}) months?$/.exec(text)?.[1]);
	return found >= 1 && found <= 120 ? found : complain(ctx, 'allowed: 1 to 120 months, as in "12 months"');
});

const shape = {
	list: must(value(z.literal('by-date'))),
	title: must(value(reason)),
	caution: must(value(sentence)),
	items: must(
		list(
			map({
				code: must(value(code)),
				every: must(value(months)),
				say: must(value(sentence)),
				why: must(value(reason)),
			}),
			1,
		),
	),
};

/** The list out of its text, or every error in it. */
export function parseByDate(text: string, file: string): ByDateList | SheetError[] {
	const source = readDocument(text, file);
	const entry = source.root ? map(shape)(source, source.root, '', 0) : undefined;
	const { caution, items } = entry?.values ?? {};
	if (caution === undefined || items === undefined || source.errors.length > 0) return source.errors;
	return {
		caution,
		items: items.flatMap(({ values: { code, every, say, why } }) =>
			code !== undefined && every !== undefined && say !== undefined && why !== undefined
				? [{ code, every_months: every, say, why }]
				: [],
		),
	};
}

/**
 * The list that comes with the program.
 * @throws Error where it is not there or not right
 */
export function byDateList(): ByDateList {
	const path = join(checklistsFolder(), 'by-date.yaml');
	const read = parseByDate(readFileSync(path, 'utf8'), path);
	if (Array.isArray(read)) throw new Error(read.map(errorLine).join('\n'));
	return read;
}
