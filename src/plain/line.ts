import { type Answer, type Corner, corners, type View } from '../day/view.ts';
import { asksNumber } from '../screen/captions.ts';
import { type Layout, padDigits } from '../screen/keys/layouts.ts';
import { noticeTexts } from '../screen/notices.ts';
import { parseQuantity } from '../trade/quantity.ts';
import { cornerNames } from './corner-names.ts';

/** What a line that was typed means. */
export type Meant =
	| { is: 'answer'; answer: Answer }
	| { is: 'again' }
	| { is: 'leave' }
	| { is: 'forward'; by_ms: number }
	| { is: 'refused'; why: string };

const refused = (why: string): Meant => ({ is: 'refused', why });

const named = (word: string): Corner | undefined =>
	corners.find(corner => cornerNames[corner] === word.replace(/[- ]+/g, ' '));

/** The corner that a word stands for: its name, one of its keys, what it shows, or the code of that. */
function cornerOf(word: string, view: View, { blocks, pad }: Layout): Corner | undefined {
	const shows = corners.find(corner => {
		const choice = view.corners[corner];
		return choice !== undefined && [choice.text.toLowerCase(), choice.code].includes(word);
	});
	const digit = pad && !asksNumber(view) ? padDigits[word] : undefined;
	return named(word) ?? corners.find(corner => blocks[corner].includes(word)) ?? shows ?? digit;
}

function numberIn(line: string, { min, max }: View): Meant {
	if (!/^-?\d{1,6}([.,]\d*)?$/.test(line)) return refused(noticeTexts['not-a-number']);
	const number = Number(line.replace(',', '.'));
	if (min !== undefined && number < min) return refused(noticeTexts['too-low']);
	if (max !== undefined && number > max) return refused(noticeTexts['too-high']);
	return { is: 'answer', answer: { number } };
}

function forward(line: string): Meant {
	const parsed = parseQuantity(line.slice('wait '.length), 'time');
	if (!parsed.ok) return refused(parsed.message);
	return { is: 'forward', by_ms: Math.max(0, Math.round(parsed.value * 1000)) };
}

/**
 * Gives a typed line its meaning. An empty line is hold, as the space bar is at a screen: one key, whatever is asked.
 *
 * @param line as it was typed, without its end
 */
export function meant(line: string, view: View, layout: Layout): Meant {
	const word = line.trim().toLowerCase();
	if (word === '' || word === 'hold') return { is: 'answer', answer: { key: 'hold' } };
	if (view.ask === 'text') {
		const corner = named(word);
		return { is: 'answer', answer: corner ? { key: corner } : { text: line.trim() } };
	}
	if (word === 'again' || word === '?') return { is: 'again' };
	if (word === 'quit') return { is: 'leave' };
	if (view.rehearsal && word.startsWith('wait ')) return forward(word);
	const corner = cornerOf(word, view, layout);
	if (corner)
		return view.corners[corner]
			? { is: 'answer', answer: { key: corner } }
			: refused(noticeTexts['no-answer-there']);
	if (asksNumber(view)) return numberIn(word, view);
	const clock = view.rehearsal ? '; "wait 15 min" puts the clock forward' : '';
	return refused(`"${line.trim().slice(0, 40)}" is no answer here${clock}`);
}
