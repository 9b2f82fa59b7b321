import { expect, test } from 'vitest';
import { corners } from '../../src/day/view.ts';
import { type Bound, bind, type Typing } from '../../src/screen/keys/bind.ts';
import { type LayoutName, type LearnedKeys, layoutOf } from '../../src/screen/keys/layouts.ts';
import { parse, parserStart } from '../../src/screen/keys/parse.ts';

const learned: LearnedKeys = {
	topLeft: ['a'],
	topRight: ['l'],
	bottomLeft: ['f5'],
	bottomRight: ['page-down'],
	hold: ['f12'],
};

function said(text: string, typing: Typing = 'nothing', name: LayoutName = 'us', signed = false): string[] {
	const { keys } = parse(parserStart, new TextEncoder().encode(text));
	const show = (bound: Bound) =>
		bound.is === 'corner' ? bound.corner : bound.is === 'type' ? bound.character : bound.is;
	return keys.map(key => show(bind(key, layoutOf(name, learned), typing, signed)));
}

test('each corner block is one button, with a dead key between', () => {
	expect(said('er')).toEqual(['topLeft', 'topLeft']);
	expect(said('iop')).toEqual(['topRight', 'topRight', 'topRight']);
	expect(said('xcv')).toEqual(['bottomLeft', 'bottomLeft', 'bottomLeft']);
	expect(said(',./')).toEqual(['bottomRight', 'bottomRight', 'bottomRight']);
	expect(new Set(said('tyubnmasdfghjkl;'))).toEqual(new Set(['dead']));
	expect(said('ER')).toEqual(['topLeft', 'topLeft']);
});

test('keys that sit elsewhere on a German or French keyboard are dead until learned', () => {
	for (const layout of ['us', 'german', 'french'] as const)
		expect(new Set(said('qawzym', 'nothing', layout))).toEqual(new Set(['dead']));
	expect(said(',.-', 'nothing', 'german')).toEqual(['bottomRight', 'bottomRight', 'bottomRight']);
	expect(said(';:!,', 'nothing', 'french')).toEqual(['bottomRight', 'bottomRight', 'bottomRight', 'dead']);
});

test('the space bar is hold whatever is asked, and with any other key held', () => {
	for (const typing of ['nothing', 'number', 'text'] as const)
		expect(said(' \u001b \u0000\u001b[32;5u', typing)).toEqual(['hold', 'hold', 'hold', 'hold']);
});

test('Tab has the last sentence said again, whatever is asked', () => {
	for (const typing of ['nothing', 'number', 'text'] as const) expect(said('\t', typing)).toEqual(['again']);
	expect(said('\u001b[9;1:2u\u001b[9;5u')).toEqual(['dead', 'dead']);
});

test('number pad corners answer where no number is being typed', () => {
	expect(said('7913')).toEqual(['topLeft', 'topRight', 'bottomLeft', 'bottomRight']);
	expect(said('7913', 'number')).toEqual(['7', '9', '1', '3']);
	expect(new Set(said('024568'))).toEqual(new Set(['dead']));
});

test('where the terminal tells the number pad apart, the number row is dead', () => {
	expect(said('\u001b[55u\u001b[57406u\u001b[57423u')).toEqual(['dead', 'topLeft', 'topLeft']);
});

test('where the terminal tells the place of a key, the place counts on any layout', () => {
	expect(said('\u001b[59::44u')).toEqual(['bottomRight']);
	expect(said('\u001b[44::109u')).toEqual(['dead']);
});

test('a number takes digits, one sort of decimal, and a minus only where it may be negative', () => {
	expect(said('2,5.-\u007f\r\u001b[57408u', 'number')).toEqual([
		'2',
		'.',
		'5',
		'.',
		'dead',
		'erase',
		'enter',
		'9',
	]);
	expect(said('-', 'number', 'us', true)).toEqual(['-']);
	expect(said('eixv', 'number')).toEqual(['topLeft', 'topRight', 'bottomLeft', 'bottomLeft']);
});

test('words take every character, and no corner', () => {
	expect(said('ei7é_', 'text')).toEqual(['e', 'i', '7', 'é', '_']);
});

test('learned keys take the place of all others; the space bar stays hold', () => {
	expect(said('al\u001b[15~\u001b[6~e7', 'nothing', 'learned')).toEqual([...corners, 'dead', 'dead']);
	expect(said(' \u001b[24~', 'nothing', 'learned')).toEqual(['hold', 'hold']);
});

test('a release is no key; Ctrl-C leaves, Ctrl-Z suspends, in every state', () => {
	expect(said('\u001b[101;1:3u')).toEqual(['dead']);
	expect(said('\u0003\u001a', 'text')).toEqual(['quit', 'suspend']);
});
