import * as z from 'zod/mini';
import { type ListItem, listNameSchema } from './checklist.ts';
import type { Source } from './document.ts';
import {
	type Entry,
	list,
	map,
	may,
	must,
	type Placed,
	pairsOf,
	placed,
	type Reader,
	value,
} from './fields.ts';
import { word, yesOrNo } from './values.ts';

const mostWords = 12;

export const code = z.string().check(
	z.regex(/^[a-z][a-z0-9-]{0,30}$/, {
		message: 'allowed: small letters, digits and hyphens, as in "earth-clip"',
	}),
);
export const sentence = z.string().check(
	z.refine(text => text.split(/\s+/).length <= mostWords, { message: `allowed: up to ${mostWords} words` }),
	z.refine(text => text.length <= 90, { message: 'allowed: up to 90 letters' }),
);
export const reason = z
	.string()
	.check(z.refine(text => text.length <= 160, { message: 'allowed: up to 160 letters' }));
const shown = z.string().check(
	z.regex(/^[\p{Lu}\d][\p{Lu}\d '-]{0,15}$/u, {
		message: 'allowed: up to 16 capitals, as in "NOT YET"',
	}),
);

/** Sentences by the code of the form in which an item is asked. */
const formsByCode: Reader<Map<string, Placed<string>>> = (source, node, name, at) => {
	const pairs = pairsOf(source, node, name, at);
	if (!pairs) return undefined;
	const read = pairs.flatMap(pair => {
		const said = value(sentence)(source, pair.node, `${name}, ${pair.key}`, pair.at);
		return said === undefined ? [] : [[pair.key, { value: said, at: pair.at }] as const];
	});
	return new Map(read);
};

const answerShape = {
	code: must(value(code)),
	shows: must(value(shown)),
	short: may(value(shown)),
	passes: must(value(word({ yes: 'yes', no: 'no', 'unless isocyanate': 'unless-isocyanate' }))),
};
const itemShape = {
	code: must(placed(value(code))),
	say: may(value(sentence)),
	forms: may(formsByCode),
	why: may(value(reason)),
	answers: may(list(map(answerShape), 1)),
	override: may(value(yesOrNo)),
	before: may(placed(value(code))),
	pair: may(value(code)),
};
const listShape = {
	list: must(placed(value(listNameSchema))),
	title: may(value(reason)),
	items: may(list(map(itemShape))),
	'take out': may(list(placed(value(code)))),
};
/** Reads a list, as it comes with the program or as a shop writes it. */
export const readList = map(listShape);
export type ItemEntry = Entry<typeof itemShape>;
export type ListEntry = Entry<typeof listShape>;

/** The answers of an item; one of them must close it, and no more than the four corners hold them. */
function answersOf(source: Source, entry: ItemEntry): ListItem['answers'] {
	const answers = entry.values.answers;
	if (!answers) return null;
	const read = answers.flatMap(({ values: { code, shows, short, passes } }) =>
		code && shows && passes ? [{ code, text: shows, passes, ...(short !== undefined && { short }) }] : [],
	);
	const codes = new Set(read.map(({ code }) => code));
	if (answers.length > 4)
		source.fail(entry.place('answers'), 'answers: found more than the four corners hold');
	else if (read.length === answers.length && !read.some(({ passes }) => passes === 'yes'))
		source.fail(entry.place('answers'), 'answers: none of them passes; one must close the item');
	else if (codes.size < read.length) source.fail(entry.place('answers'), 'answers: two have the same code');
	return read;
}

/** An item as a list carries it. */
export function itemOf(source: Source, entry: ItemEntry): ListItem | undefined {
	const {
		code,
		say = null,
		forms = new Map<string, Placed<string>>(),
		why = null,
		override,
		pair,
	} = entry.values;
	if (!entry.has('say') && forms.size === 0)
		source.fail(entry.at, 'item, say is missing: write what is asked');
	const answers = answersOf(source, entry);
	if (!code || (!say && forms.size === 0)) return undefined;
	const said = Object.fromEntries([...forms].map(([form, { value }]) => [form, value]));
	return {
		code: code.value,
		say,
		...(answers === null && { forms: said }),
		why,
		answers,
		overridable: override ?? false,
		...(pair !== undefined && { pair }),
	};
}
