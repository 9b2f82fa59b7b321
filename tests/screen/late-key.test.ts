import { expect, test } from 'vitest';
import { type Effect, handsStart, strikeKey } from '../../src/screen/hands.ts';
import { press } from '../../src/screen/keys/key.ts';
import { layoutOf } from '../../src/screen/keys/layouts.ts';
import { viewOf } from './views.ts';

const setup = { layout: layoutOf('us', null), oneKey: false };
const answers = (effects: Effect[]) => effects.filter(effect => effect.do === 'answer');

test('where a corner ripens only with the next key, that key is dropped: it was meant for the screen before', () => {
	const view = { ...viewOf('number'), corners: { topLeft: { code: 'discard', text: 'DISCARD' } } };
	let state = strikeKey(handsStart, view, setup, press('7'), 1000).state;
	state = strikeKey(state, view, setup, press('e'), 2000).state;
	const { effects } = strikeKey(state, view, setup, press('enter'), 2100);
	expect(answers(effects)).toEqual([{ do: 'answer', answer: { key: 'topLeft' } }]);
});
