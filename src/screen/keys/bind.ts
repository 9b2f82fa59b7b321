import { type Corner, corners } from '../../day/view.ts';
import type { Key } from './key.ts';
import { builtIn, type Layout, padCorners, padDigits } from './layouts.ts';

/** What is being asked decides which keys are characters. */
export type Typing = 'nothing' | 'number' | 'text';

export type BoundTyping = { is: 'type'; character: string } | { is: 'erase' | 'clear' | 'enter' };
export type Bound =
	| { is: 'hold' }
	| { is: 'corner'; corner: Corner }
	| BoundTyping
	/** Says once more what the voice said last. */
	| { is: 'again' }
	| { is: 'quit' | 'suspend' | 'paste' | 'dead' };

const dead: Bound = { is: 'dead' };
const decimals = new Set(['.', ',', 'pad-decimal', 'pad-separator']);

function cornerIn(blocks: Layout['blocks'], key: string): Corner | undefined {
	return corners.find(corner => blocks[corner].includes(key));
}

function cornerOf(key: Key, layout: Layout): Corner | undefined {
	const character = key.key.toLowerCase();
	const learned = cornerIn(layout.blocks, character);
	if (!layout.pad) return learned;
	if (key.place !== undefined) return cornerIn(builtIn.us, key.place.toLowerCase());
	if (key.key.startsWith('pad-')) return padCorners[key.key.slice(4)];
	return learned ?? (key.exact ? undefined : padDigits[character]);
}

function typed(key: Key, typing: Typing, signed: boolean): string | null {
	if (typing === 'nothing' || key.ctrl || key.alt) return null;
	const character = key.key.startsWith('pad-') && key.key.length === 5 ? key.key.slice(4) : key.key;
	if (typing === 'number') {
		if (/^[0-9]$/.test(character)) return character;
		if (decimals.has(key.key)) return '.';
		return signed && (key.key === '-' || key.key === 'pad-minus') ? '-' : null;
	}
	return [...character].length === 1 ? character : null;
}

function command(key: Key): Bound | null {
	if (key.ctrl && key.key === 'c') return { is: 'quit' };
	if (key.ctrl && key.key === 'z') return { is: 'suspend' };
	if (key.key === 'paste') return { is: 'paste' };
	return null;
}

function editing(key: Key, typing: Typing): Bound | null {
	if (typing === 'nothing') return null;
	if (key.key === 'backspace' || key.key === 'delete') return { is: 'erase' };
	if (key.key === 'escape') return { is: 'clear' };
	if (key.key === 'enter' || key.key === 'pad-enter') return { is: 'enter' };
	return null;
}

/**
 * Gives a key its meaning. The space bar is hold whatever is being asked and whatever is held down with it.
 *
 * @param typing what characters are wanted for
 * @param signed a minus would be taken as the sign of a number
 */
export function bind(key: Key, layout: Layout, typing: Typing, signed = false): Bound {
	if (key.kind === 'release') return dead;
	if (layout.hold.includes(key.key.toLowerCase())) return { is: 'hold' };
	const whole = command(key);
	if (whole) return whole;
	const edit = editing(key, typing);
	if (edit) return edit;
	const character = typed(key, typing, signed);
	if (character !== null) return key.kind === 'repeat' ? dead : { is: 'type', character };
	if (key.ctrl || key.alt) return dead;
	const corner = typing === 'text' ? undefined : cornerOf(key, layout);
	if (corner) return { is: 'corner', corner };
	return key.key === 'tab' && key.kind === 'press' ? { is: 'again' } : dead;
}
