import type { LayoutName } from './layouts.ts';

/** Where keys sit on a keyboard, in key widths, so that it can be said which of them touch. */
type Place = { x: number; y: number };

/** Rows of each layout from the digits down; the second character row is a quarter key in, and so on. */
const rows: Record<Exclude<LayoutName, 'learned'>, string[]> = {
	us: ['`1234567890-=', 'qwertyuiop[]\\', "asdfghjkl;'", '\u0000zxcvbnm,./'],
	german: ['^1234567890ß´', 'qwertzuiopü+', 'asdfghjklöä#', '<yxcvbnm,.-'],
	french: ['²&é"\'(-è_çà)=', 'azertyuiop^$', 'qsdfghjklmù*', '<wxcvbn,;:!'],
};
const firstOfRow = [0, 1.5, 1.75, 1.25];

const named: Record<string, Place> = {
	escape: { x: 0, y: -1.3 },
	...Object.fromEntries(
		Array.from({ length: 12 }, (_, index) => [
			`f${index + 1}`,
			{ x: 2 + index + Math.floor(index / 4) * 0.5, y: -1.3 },
		]),
	),
	tab: { x: 0.25, y: 1 },
	backspace: { x: 13.5, y: 0 },
	enter: { x: 13, y: 2 },
	insert: { x: 15.5, y: 0 },
	home: { x: 16.5, y: 0 },
	'page-up': { x: 17.5, y: 0 },
	delete: { x: 15.5, y: 1 },
	end: { x: 16.5, y: 1 },
	'page-down': { x: 17.5, y: 1 },
	up: { x: 16.5, y: 3 },
	left: { x: 15.5, y: 4 },
	down: { x: 16.5, y: 4 },
	right: { x: 17.5, y: 4 },
};

const pad: Record<string, Place> = {
	...Object.fromEntries(
		['789', '456', '123'].flatMap((row, y) =>
			[...row].map((digit, x) => [digit, { x: 19 + x, y: y + 1 }] as const),
		),
	),
	'0': { x: 19.5, y: 4 },
	decimal: { x: 21, y: 4 },
	divide: { x: 20, y: 0 },
	multiply: { x: 21, y: 0 },
	minus: { x: 22, y: 0 },
	plus: { x: 22, y: 1.5 },
	enter: { x: 22, y: 3.5 },
	home: { x: 19, y: 1 },
	'page-up': { x: 21, y: 1 },
	end: { x: 19, y: 3 },
	'page-down': { x: 21, y: 3 },
};

/** Every place a key may have: a digit sits in the number row and on the pad, where nothing tells them apart. */
function placesOf(key: string, layout: Exclude<LayoutName, 'learned'>): Place[] {
	if (key.startsWith('pad-')) return [pad[key.slice(4)]].filter(place => place !== undefined);
	const inRows = rows[layout].flatMap((row, y) => {
		const x = [...row].indexOf(key);
		return x < 0 ? [] : [{ x: (firstOfRow[y] ?? 0) + x, y }];
	});
	const elsewhere = [named[key], /^\d$/.test(key) ? pad[key] : undefined];
	return [...inRows, ...elsewhere.filter(place => place !== undefined)];
}

/** Clear distance that gloves want between two keys, in key widths: 13 mm of 19 mm (MIL-STD-1472E 5.4.3). */
const wantedGap = 13 / 19;

const gapBetween = (one: Place, other: Place): number =>
	Math.hypot(Math.max(0, Math.abs(one.x - other.x) - 1), Math.max(0, Math.abs(one.y - other.y) - 1));

/** Whether a gloved finger could strike both keys; keys whose place is not known are taken to lie apart. */
export function keysTouch(one: string, other: string, layout: Exclude<LayoutName, 'learned'>): boolean {
	const others = placesOf(other, layout);
	return placesOf(one, layout).some(place => others.some(next => gapBetween(place, next) < wantedGap));
}
