import { type Key, keyOfPoint, press } from './key.ts';
import { keyOfSequence, keyOfShift3 } from './sequence.ts';
import { type Utf8State, utf8Push, utf8Start } from './utf8.ts';

/**
 * Bytes in, keys out. Pure: a state and a byte give a state and keys, so it is one and the same however a
 * terminal cuts or joins its chunks. Time comes in only as `waited`.
 */

type Mode =
	| { in: 'ground' }
	| { in: 'escape' }
	| { in: 'shift3' }
	| { in: 'sequence'; body: string }
	/** Device strings: swallowed up to their end. */
	| { in: 'string'; escaped: boolean }
	/** A bracketed paste; `tail` is as much of its end mark as has been seen. */
	| { in: 'paste'; tail: string }
	/** Characters that belong to the sequence before them, such as an old mouse report. */
	| { in: 'skip'; left: number };

export type ParserState = { utf8: Utf8State; mode: Mode };

export const parserStart: ParserState = { utf8: utf8Start, mode: { in: 'ground' } };

const ground: Mode = { in: 'ground' };
const ESC = 0x1b;
const longestSequence = 64;
const pasteEnd = '\u001b[201~';

/** The eight-bit control characters stand for `ESC` and the character 0x40 lower. */
const eightBit = new Set([0x8f, 0x90, 0x98, 0x9b, 0x9d, 0x9e, 0x9f]);
const opensString = new Set(['P', 'X', ']', '^', '_']);

type Step = [Mode, Key[]];

function onGround(point: number): Step {
	if (point === ESC) return [{ in: 'escape' }, []];
	if (eightBit.has(point)) return afterEscape(point - 0x40);
	return [ground, [keyOfPoint(point)]];
}

function afterEscape(point: number): Step {
	const character = String.fromCodePoint(point);
	if (point === ESC) return [{ in: 'escape' }, [press('escape')]];
	if (character === '[') return [{ in: 'sequence', body: '' }, []];
	if (character === 'O') return [{ in: 'shift3' }, []];
	if (opensString.has(character)) return [{ in: 'string', escaped: false }, []];
	const key = keyOfPoint(point);
	return [ground, [{ ...key, alt: true }]];
}

/** A control character inside a sequence ends it, and counts: nothing may swallow a hold. */
const isControl = (point: number) => point < 0x20 || point === 0x7f || (point >= 0x80 && point < 0xa0);

function endSequence(body: string, final: string): Step {
	if (final === '~' && body === '200') return [{ in: 'paste', tail: '' }, []];
	if (body === '' && final === 'M') return [{ in: 'skip', left: 3 }, []];
	if (body === '' && final === '[') return [{ in: 'skip', left: 1 }, []];
	if (/[ -/]/.test(body)) return [ground, []];
	const key = keyOfSequence(body, final);
	return [ground, key ? [key] : []];
}

function inSequence(body: string, point: number): Step {
	if (isControl(point)) return onGround(point);
	if (point > 0x7e) return [ground, [press('unknown')]];
	const character = String.fromCodePoint(point);
	if (point >= 0x40) return endSequence(body, character);
	if (body.length >= longestSequence) return [ground, [press('unknown')]];
	return [{ in: 'sequence', body: body + character }, []];
}

function inString(escaped: boolean, point: number): Step {
	if (point === 0x07 || point === 0x9c || (escaped && point === 0x5c)) return [ground, []];
	if (escaped && point !== ESC) return afterEscape(point);
	return [{ in: 'string', escaped: point === ESC }, []];
}

function inPaste(tail: string, point: number): Step {
	const seen = tail + String.fromCodePoint(point);
	if (seen === pasteEnd) return [ground, [press('paste')]];
	if (pasteEnd.startsWith(seen)) return [{ in: 'paste', tail: seen }, []];
	return [{ in: 'paste', tail: point === ESC ? '\u001b' : '' }, []];
}

function step(mode: Mode, point: number): Step {
	switch (mode.in) {
		case 'ground':
			return onGround(point);
		case 'escape':
			return afterEscape(point);
		case 'shift3':
			if (isControl(point)) return onGround(point);
			return [ground, [keyOfShift3(String.fromCodePoint(point))]];
		case 'sequence':
			return inSequence(mode.body, point);
		case 'string':
			return inString(mode.escaped, point);
		case 'paste':
			return inPaste(mode.tail, point);
		case 'skip':
			return [mode.left > 1 ? { in: 'skip', left: mode.left - 1 } : ground, []];
	}
}

/**
 * Reads bytes as a terminal sent them.
 *
 * @returns the state to go on from, and the keys completed by these bytes, in order
 */
export function parse(state: ParserState, bytes: Uint8Array): { state: ParserState; keys: Key[] } {
	let { utf8, mode } = state;
	const keys: Key[] = [];
	for (const byte of bytes) {
		const [next, points] = utf8Push(utf8, byte);
		utf8 = next;
		for (const point of points) {
			const [after, made] = step(mode, point);
			mode = after;
			keys.push(...made);
		}
	}
	return { state: { utf8, mode }, keys };
}

/** What the parser would be told by a silence: that an escape was the key itself, that a paste is over. */
export function awaits(state: ParserState): 'escape' | 'paste' | null {
	if (state.mode.in === 'paste') return 'paste';
	return state.mode.in === 'ground' ? null : 'escape';
}

/** Nothing more has come for as long as `awaits` asks: what was begun is over. */
export function waited(state: ParserState): { state: ParserState; keys: Key[] } {
	const ends: Partial<Record<Mode['in'], Key[]>> = { escape: [press('escape')], paste: [press('paste')] };
	return { state: parserStart, keys: ends[state.mode.in] ?? [] };
}
