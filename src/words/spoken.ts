import { inert } from '../job/inert.ts';
import { faceName, sentence } from './say.ts';

/** Most words of a spoken sentence: a listener with a mask on keeps no more. */
export const mostWords = 12;

const words = (text: string): string[] => text.split(/\s+/u).filter(word => word !== '');

/** At most so many words of a text from outside, made inert; what is cut off shows as `…`. */
export function short(text: string, most: number): string {
	const all = words(inert(text));
	return all.length <= most ? all.join(' ') : `${all.slice(0, most).join(' ')}…`;
}

/** A face's name in at most five words. */
export const shortFace = (id: string): string => short(faceName(id), 5);

/**
 * A topic from outside and what is asked or said of it, at most 12 words together: a long topic is cut, never what
 * is said of it.
 */
export const about = (topic: string, rest: string): string =>
	`${sentence(short(topic, Math.max(1, mostWords - words(rest).length)))}: ${rest}`;

/**
 * One spoken sentence: topic, place, action, at most 12 words.
 * @param rest place and action, joined by commas; empty ones are left out
 */
export function spoken(topic: string, ...rest: string[]): string {
	const parts = rest.filter(part => part !== '');
	const text = `${topic}${parts.length > 0 ? `: ${parts.join(', ')}` : ''}`;
	return `${sentence(short(text, mostWords))}.`;
}
