import { expect, test } from 'vitest';
import { handsDue, handsStart, newScreen, passTime, stood, strikeKey } from '../../src/screen/hands.ts';
import { press } from '../../src/screen/keys/key.ts';
import { layoutOf } from '../../src/screen/keys/layouts.ts';
import { atDesk } from './harness.ts';
import { viewOf } from './views.ts';

/** Two figures of the air are taken by themselves, as a glove need not find Enter. */

const air = () => {
	const desk = atDesk(viewOf('number'));
	desk.clock.pass(600);
	return desk;
};

test('two figures are taken a second and a half after the last, once', async () => {
	const desk = air();
	await desk.type('2');
	desk.clock.pass(1400);
	await desk.type('1');
	desk.clock.pass(1400);
	expect(desk.fake.log).toEqual([]);
	desk.clock.pass(100);
	expect(desk.fake.log).toEqual([{ number: 21 }]);
	desk.clock.pass(5000);
	expect(desk.fake.log).toEqual([{ number: 21 }]);
});

test('Enter takes them at once; one figure, and a decimal, wait for it', async () => {
	const desk = air();
	await desk.type('21\r');
	expect(desk.fake.log).toEqual([{ number: 21 }]);
	const one = air();
	await one.type('8');
	one.clock.pass(10_000);
	expect(one.fake.log).toEqual([]);
	const decimal = air();
	await decimal.type('21.');
	decimal.clock.pass(10_000);
	expect(decimal.fake.log).toEqual([]);
});

test('taken back once, what is typed waits for Enter', async () => {
	const desk = air();
	await desk.type('28\u007f1');
	desk.clock.pass(10_000);
	expect(desk.fake.log).toEqual([]);
	await desk.type('\r');
	expect(desk.fake.log).toEqual([{ number: 21 }]);
});

test('what was typed before the program stood still waits for Enter', () => {
	const setup = { layout: layoutOf('us', null), oneKey: false };
	const view = viewOf('number');
	const shown = newScreen(handsStart, view, 0).state;
	const typed = ['2', '1'].reduce(
		(state, key, nth) => strikeKey(state, view, setup, press(key), 1000 + nth).state,
		shown,
	);
	expect(handsDue(typed)).toBe(2501);
	const after = stood(typed, view, 2000).state;
	expect(passTime(after, view, 60_000).effects.filter(({ do: does }) => does === 'answer')).toEqual([]);
	expect(passTime(typed, view, 2501).effects).toContainEqual({ do: 'answer', answer: { number: 21 } });
});

test('a level waits for Enter', async () => {
	const desk = atDesk({ ...viewOf('number'), of: 'level_mL' });
	desk.clock.pass(600);
	await desk.type('21');
	desk.clock.pass(10_000);
	expect(desk.fake.log).toEqual([]);
});

test('hold drops them', async () => {
	const desk = air();
	await desk.type('21 ');
	desk.clock.pass(10_000);
	expect(desk.fake.log).toEqual([{ key: 'hold' }]);
});
