import type { ListName } from '../../job/checklist.ts';
import { filled, gapsIn, reasonOf, sentenceOf } from '../../job/list-words.ts';
import { sentence } from '../../words/say.ts';
import { mostWords, short } from '../../words/spoken.ts';
import type { Moment } from '../moment.ts';

/** What the lists in force have asked, with what a moment fills in. */

/** Names from the sheet: where they leave a sentence too long, they are cut; a figure never is. */
const names: readonly string[] = ['face', 'cup'];

const wordsIn = (text: string): number => text.split(/\s+/u).filter(word => word !== '').length;

/**
 * How an item of a list is asked, at most 12 words.
 * @param form which of its sentences; its own code: the one under `say`
 * @param gaps what stands in its braces
 */
export function worded(
	{ state: { book } }: Moment,
	list: ListName,
	code: string,
	form: string = code,
	gaps: Readonly<Record<string, string>> = {},
): string {
	const said = sentenceOf(book.opened.lists, list, code, form);
	const left = Math.max(
		1,
		mostWords - wordsIn(said) + gapsIn(said).filter(name => names.includes(name)).length,
	);
	const value = (name: string) => {
		const given = gaps[name];
		return given !== undefined && names.includes(name) ? short(given, left) : given;
	};
	return sentence(filled(said, value));
}

/** Why it is asked, where the list says so: a line below. */
export const whyAsked = ({ state: { book } }: Moment, list: ListName, code: string): string[] =>
	reasonOf(book.opened.lists, list, code);
