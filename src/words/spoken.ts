import { inert } from '../job/inert.ts';
import { faceName, groupedFaces, sentence } from './say.ts';

/** Most words of a spoken sentence: a listener with a mask on keeps no more. */
export const mostWords = 12;

const words = (text: string): string[] => text.split(/\s+/u).filter(word => word !== '');

/** At most so many words of a text from outside, made inert; what is cut off shows as `…`. */
export function short(text: string, most: number): string {
	const all = words(inert(text));
	return all.length <= most ? all.join(' ') : `${all.slice(0, most).join(' ')}…`;
}

/** A face's name in at most five words, fewer where what else is said of it leaves less room. */
export const shortFace = (id: string, ...beside: readonly string[]): string => {
	const left = mostWords - beside.flatMap(words).length;
	return short(faceName(id), Math.min(5, Math.max(1, left)));
};

/**
 * A topic from outside and what is asked or said of it, at most 12 words together: a long topic is cut, never what
 * is said of it.
 */
export const about = (topic: string, rest: string): string =>
	`${sentence(short(topic, Math.max(1, mostWords - words(rest).length)))}: ${rest}`;

/** Something said of faces, each by its name where so many words are kept. */
export function aboutFaces(ids: readonly string[], rest: string): string {
	const names = groupedFaces(ids);
	return about(words(`${names} ${rest}`).length <= mostWords ? names : `${ids.length} faces`, rest);
}

/**
 * One spoken sentence: topic, place, action, at most 12 words.
 * @param rest place and action, joined by commas; empty ones are left out
 */
export function spoken(topic: string, ...rest: string[]): string {
	const parts = rest.filter(part => part !== '');
	const text = `${topic}${parts.length > 0 ? `: ${parts.join(', ')}` : ''}`;
	return `${sentence(short(text, mostWords))}.`;
}
