import { inert } from '../inert.ts';

/** What has been typed at the bench so far. Screen state only: it always starts empty and is lost on hold. */
export type Entry = { text: string };

export const emptyEntry: Entry = { text: '' };

/** Characters of a number; code points of words, as many as a record keeps. */
const longest = { number: 8, text: 200 };

/** Adds a character to a number: one decimal point, a minus only at its head. Others are not taken. */
export function typeNumber(entry: Entry, character: string): Entry {
	const text = entry.text + character;
	if (text.length > longest.number || !/^-?(\d+(\.\d*)?)?$/.test(text)) return entry;
	return { text };
}

/** Adds a character to words, unless it could act on a terminal. The space bar being hold, `_` writes a space. */
export function typeText(entry: Entry, character: string): Entry {
	if ([...entry.text].length >= longest.text || inert(character) !== character) return entry;
	return { text: entry.text + (character === '_' ? ' ' : character) };
}

/** Takes the last character back. */
export const erase = (entry: Entry): Entry => ({ text: [...entry.text].slice(0, -1).join('') });

export type NumberLimits = { min?: number; max?: number };
export type EntryRefusal = 'empty' | 'no-words' | 'not-a-number' | 'too-low' | 'too-high';

/** Reads a typed number, in the unit that was asked for, within its limits. */
export function numberOf(entry: Entry, limits: NumberLimits): { number: number } | { refused: EntryRefusal } {
	if (entry.text === '') return { refused: 'empty' };
	if (!/\d/.test(entry.text)) return { refused: 'not-a-number' };
	const number = Number(entry.text);
	if (!Number.isFinite(number)) return { refused: 'not-a-number' };
	if (limits.min !== undefined && number < limits.min) return { refused: 'too-low' };
	if (limits.max !== undefined && number > limits.max) return { refused: 'too-high' };
	return { number };
}
