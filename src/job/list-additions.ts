import type { Checklist, ListItem, ListName } from './checklist.ts';
import type { Source } from './document.ts';
import { notAllowed } from './errors.ts';
import type { Placed } from './fields.ts';
import { type ItemEntry, itemOf, type ListEntry } from './list-shape.ts';

/** What no shop can take out, and why. */
const kept: Record<ListName, Partial<Record<string, string>>> = {
	'before-spraying': {
		mask: 'without breathing gear no face is sprayed',
		cans: 'cans without a mark cannot be told apart at the pour',
	},
	'gun-check': {
		mask: 'a mask laid down in a break is not missed until it is too late',
		batch: 'the letter is the only way to know what is in the cup',
		pattern: 'nothing but the pattern shows which way the fan lies',
	},
	mixing: {
		can: 'the mark of the can is the only guard against the wrong can',
		level: 'no batch reaches the gun whose hardener was not read',
		'stir-pot': 'hardener that is not stirred in never cures',
	},
	'after-a-break': { 'last-face': 'without it a face may be laid twice' },
	'clean-up': {},
};

/** How many items fit; with the one after a break a gun check has seven. */
const most: Record<ListName, number> = {
	'before-spraying': 12,
	'gun-check': 6,
	mixing: 7,
	'after-a-break': 1,
	'clean-up': 12,
};

const closed: Partial<Record<ListName, string>> = {
	mixing: 'its steps are the order of the data sheet; add it to before-spraying',
	'after-a-break': 'the gun check follows at once; add it there',
};

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

/** Another wording of an item that is there: nothing else of it can change. */
function reword(source: Source, items: ListItem[], entry: ItemEntry, code: string): ListItem[] {
	for (const key of ['answers', 'override', 'before'] as const)
		if (entry.has(key))
			source.fail(
				entry.place(key),
				`item ${code}, ${key}: only the wording of this item can change; take it out`,
			);
	const { say, why } = entry.values;
	return items.map(item =>
		item.code === code ? { ...item, say: say ?? item.say, why: why ?? item.why } : item,
	);
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
	if (items.length > most[base.list])
		source.fail(
			name.at,
			`${base.list}: ${items.length} items; at most ${most[base.list]} fit: take one out with "take out"`,
		);
	return lists.map(one => (one === base ? { ...base, title: entry.values.title ?? base.title, items } : one));
}
