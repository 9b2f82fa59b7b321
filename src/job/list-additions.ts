import type { Checklist, ListItem, ListName } from './checklist.ts';
import type { Source } from './document.ts';
import { notAllowed } from './errors.ts';
import type { Placed } from './fields.ts';
import { brief } from './inert.ts';
import { type ItemEntry, itemOf, type ListEntry } from './list-shape.ts';
import { gapsIn, hasLooseBrace } from './list-words.ts';

/** What no shop can take out, and why. */
const kept: Record<ListName, Partial<Record<string, string>>> = {
	'before-spraying': {
		mask: 'without breathing gear no face is sprayed',
		supply: 'air that fails at the hose is not noticed until it is breathed',
		extractor: 'without extract the mist stays where you breathe, and burns',
		ignition: 'one spark lights the vapour of the whole area',
		fire: 'two-part coatings ask for a protected area and a way out of it',
		help: 'alone, nobody looks in when you do not come out',
		cans: 'cans without a mark cannot be told apart at the pour',
	},
	'gun-check': {
		mask: 'a mask laid down in a break is not missed until it is too late',
		extractor: 'it may have been shut off in the wait, and mist hangs then',
		batch: 'the letter is the only way to know what is in the cup',
		pattern: 'nothing but the pattern shows which way the fan lies',
	},
	mixing: {
		can: 'the mark of the can is the only guard against the wrong can',
		level: 'no batch reaches the gun whose hardener was not read',
		'stir-pot': 'hardener that is not stirred in never cures',
	},
	'after-a-break': { 'last-face': 'without it a face may be laid twice' },
	'clean-up': {
		bled: 'air left in the line makes a mist of the solvent',
		waste: 'left-over mix heats itself, and a shut can holds the heat',
		rags: 'rags in a heap catch fire hours later',
	},
};

/** How many items a list holds, whoever adds them; with the one after a break a gun check has seven. */
export const mostItems: Partial<Record<ListName, number>> = {
	'before-spraying': 12,
	'gun-check': 6,
	'clean-up': 12,
};

/** Lists that take no item more, and where it goes instead. */
export const closed: Partial<Record<ListName, string>> = {
	mixing: 'its steps are the order of the data sheet; add it to before-spraying',
	'after-a-break': 'the gun check follows at once; add it there',
};

/** What is wrong with the length of a list; null: nothing. */
export function tooLong({ list, items }: Pick<Checklist, 'list' | 'items'>): string | null {
	const most = mostItems[list] ?? items.length;
	return items.length > most
		? `${list}: ${items.length} items; at most ${most} fit: take one out with "take out"`
		: null;
}

/** Words that the program uses for its own readings. */
const reserved = ['breathing', 'card', 'horns', 'pattern-height', 'flooded', 'touch', 'which-face', 'one-go'];

function takeOut(source: Source, base: Checklist, codes: Placed<string>[]): ListItem[] {
	const gone = new Set<string>();
	const known = base.items.map(({ code }) => code);
	for (const { value, at } of codes) {
		const because = kept[base.list][value];
		if (because) source.fail(at, `take out: ${value} stays in ${base.list}: ${because}`);
		else if (!known.includes(value)) source.fail(at, `take out: ${notAllowed(value, known)}`);
		else if (base.list === 'mixing')
			source.fail(at, `take out: ${value} is a step of the data sheet; take it out of the material's order`);
		else gone.add(value);
	}
	return base.items.filter(({ code }) => !gone.has(code));
}

const braced = (name: string) => `{${name}}`;

/** A sentence leaves open what the one leaves open whose place it takes: without its name nobody knows which face. */
function checkGaps(source: Source, { value, at }: Placed<string>, name: string, standard: string): void {
	const found = gapsIn(value);
	const wanted = gapsIn(standard);
	const wrong = found.find(gap => !wanted.includes(gap));
	const missing = wanted.find(gap => !found.includes(gap));
	if (hasLooseBrace(value)) source.fail(at, `${name}: a brace stands alone; write it as in "${standard}"`);
	else if (wrong !== undefined)
		source.fail(
			at,
			wanted.length > 0
				? `${name}: ${notAllowed(braced(wrong), wanted.map(braced))}`
				: `${name}: found "${brief(braced(wrong))}"; nothing is filled in here`,
		);
	else if (missing !== undefined)
		source.fail(at, `${name}: ${braced(missing)} is missing; write it as in "${standard}"`);
}

/** The sentences of an entry, each with the form it is for: its own code for the one under `say`. */
function sentencesIn({ values: { say, forms }, place }: ItemEntry, code: string): [string, Placed<string>][] {
	const own: [string, Placed<string>][] = say === undefined ? [] : [[code, { value: say, at: place('say') }]];
	return [...own, ...(forms ?? [])];
}

/** Another wording of one form of an item. */
function rewordForm(source: Source, item: ListItem, form: string, said: Placed<string>): ListItem {
	const isSay = form === item.code;
	const standard = isSay ? item.say : item.forms?.[form];
	const forms = Object.keys(item.forms ?? {});
	if (standard === undefined || standard === null) {
		const name = isSay ? 'say' : 'forms';
		const allowed = forms.length > 0 ? notAllowed(form, forms) : 'it is asked in one way; write "say"';
		source.fail(
			said.at,
			`item ${item.code}, ${name}: ${isSay ? `it is asked by its forms: ${forms.join(', ')}` : allowed}`,
		);
		return item;
	}
	checkGaps(source, said, `item ${item.code}, ${isSay ? 'say' : form}`, standard);
	return isSay ? { ...item, say: said.value } : { ...item, forms: { ...item.forms, [form]: said.value } };
}

/** Another wording of an item that is there: nothing else of it can change. */
function reword(source: Source, items: ListItem[], entry: ItemEntry, code: string): ListItem[] {
	for (const key of ['answers', 'override', 'before', 'pair'] as const)
		if (entry.has(key))
			source.fail(
				entry.place(key),
				`item ${code}, ${key}: only the wording of this item can change; take it out`,
			);
	return items.map(item => {
		if (item.code !== code) return item;
		const worded = sentencesIn(entry, code).reduce(
			(one, [form, said]) => rewordForm(source, one, form, said),
			item,
		);
		return { ...worded, why: entry.values.why ?? item.why };
	});
}

function placeFor(source: Source, items: ListItem[], list: ListName, entry: ItemEntry): number {
	const last = list === 'gun-check' ? items.findIndex(({ code }) => code === 'pattern') : items.length;
	const before = entry.values.before;
	if (!before) return last;
	const found = items.findIndex(({ code }) => code === before.value);
	if (found < 0)
		source.fail(
			before.at,
			`item, before: ${notAllowed(
				before.value,
				items.map(({ code }) => code),
			)}`,
		);
	return found < 0 ? last : found;
}

function addItem(source: Source, items: ListItem[], list: ListName, entry: ItemEntry): ListItem[] {
	const code = entry.values.code?.value ?? '';
	const because = closed[list];
	if (because) {
		source.fail(entry.at, `item ${code}: ${list} takes no items of a shop: ${because}`);
		return items;
	}
	if (reserved.includes(code))
		source.fail(entry.place('code'), `item ${code}: the program keeps this word for a reading of its own`);
	if (!entry.has('answers'))
		source.fail(
			entry.at,
			`item ${code}, answers is missing: write what can be keyed, and which of it passes`,
		);
	if (entry.has('forms'))
		source.fail(
			entry.place('forms'),
			`item ${code}, forms: an item of a shop is asked in one way; take it out`,
		);
	for (const [, said] of sentencesIn(entry, code)) checkGaps(source, said, `item ${code}, say`, '');
	const item = itemOf(source, entry);
	const at = placeFor(source, items, list, entry);
	return item ? items.toSpliced(at, 0, item) : items;
}

/**
 * A shop's file on top of the lists so far: items of a known code are worded anew, others are added, always
 * before the pattern. Complaints go to the file's own source.
 */
export function addTo(
	lists: Checklist[],
	source: Source,
	entry: ListEntry,
	name: Placed<ListName>,
): Checklist[] {
	const base = lists.find(({ list }) => list === name.value);
	if (!base) return lists;
	let items = takeOut(source, base, entry.values['take out'] ?? []);
	for (const item of entry.values.items ?? []) {
		const code = item.values.code?.value;
		if (code === undefined) continue;
		const known = items.some(one => one.code === code);
		items = known ? reword(source, items, item, code) : addItem(source, items, base.list, item);
	}
	const long = tooLong({ list: base.list, items });
	if (long) source.fail(name.at, long);
	return lists.map(one => (one === base ? { ...base, title: entry.values.title ?? base.title, items } : one));
}
