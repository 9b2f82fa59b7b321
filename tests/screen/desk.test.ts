import { expect, test } from 'vitest';
import { openDesk } from '../../src/screen/desk.ts';
import { press } from '../../src/screen/keys/key.ts';
import { layoutOf } from '../../src/screen/keys/layouts.ts';
import { atDesk, fakeSession } from './harness.ts';
import { testClock } from './test-clock.ts';
import { viewOf } from './views.ts';

test('a corner block answers once it has stood for the chord time', async () => {
	const desk = atDesk(viewOf('pattern'));
	desk.clock.pass(600);
	await desk.type('e');
	expect(desk.fake.log).toEqual([]);
	desk.clock.pass(60);
	expect(desk.fake.log).toEqual([{ key: 'topLeft' }]);
});

test('hold answers at once, even in the first instant of a screen', async () => {
	const desk = atDesk(viewOf('pattern'));
	await desk.type(' ');
	expect(desk.fake.log).toEqual([{ key: 'hold' }]);
});

test('a key that is taken is drawn once', () => {
	const { session } = fakeSession(viewOf('pattern'));
	let draws = 0;
	const desk = openDesk(
		{
			session,
			clock: testClock(),
			show: () => {
				draws++;
			},
			blind: () => false,
			leave() {},
			suspend() {},
		},
		{ layout: layoutOf('us', null), oneKey: false },
	);
	const before = draws;
	desk.key(press('space'));
	expect(draws - before).toBe(1);
	desk.close();
});

test('two blocks at once answer nothing, and the screen says so', async () => {
	const desk = atDesk(viewOf('pattern'));
	desk.clock.pass(600);
	await desk.type('ei');
	desk.clock.pass(300);
	expect(desk.fake.log).toEqual([]);
	expect(await desk.shown()).toContain('two keys at once: none counted');
	desk.clock.pass(5000);
	expect(await desk.shown()).not.toContain('two keys at once');
});

test('a corner that shows no answer is not passed on', async () => {
	const desk = atDesk(viewOf('hold'));
	desk.clock.pass(600);
	await desk.type('x');
	desk.clock.pass(60);
	expect(desk.fake.log).toEqual([]);
	expect(await desk.shown()).toContain('nothing in that corner');
});

test('a refused answer shows the reason that the day gives', async () => {
	const desk = atDesk(viewOf('pattern'));
	desk.fake.answers = () => ({ accepted: false, reason: { code: 'settle', text: 'ten seconds first' } });
	desk.clock.pass(600);
	await desk.type('e');
	desk.clock.pass(60);
	expect(await desk.shown()).toContain('ten seconds first');
});

test('a number is typed, mended and entered; the next number starts empty', async () => {
	const desk = atDesk(viewOf('number'));
	desk.clock.pass(600);
	await desk.type('22');
	await desk.type('\u007f1.5');
	await desk.type('\r');
	expect(desk.fake.log).toEqual([{ number: 21.5 }]);
	desk.fake.change({ ...viewOf('number'), state: 'air.surfaceC', of: 'surfaceC' });
	desk.clock.pass(600);
	await desk.type('\r');
	expect(desk.fake.log).toHaveLength(1);
	expect(await desk.shown()).toContain('type a number first');
});

test('a number outside its limits is not passed on', async () => {
	const desk = atDesk(viewOf('number'));
	desk.clock.pass(600);
	await desk.type('70\r');
	expect(desk.fake.log).toEqual([]);
	expect(await desk.shown()).toContain('too high for this');
	await desk.type('7\r');
	expect(desk.fake.log).toEqual([{ number: 7 }]);
});

test('a half-typed number is lost on hold', async () => {
	const desk = atDesk(viewOf('number'));
	desk.clock.pass(600);
	await desk.type('2 1\r');
	expect(desk.fake.log).toEqual([{ key: 'hold' }, { number: 1 }]);
});

test('a paste answers nothing', async () => {
	const desk = atDesk(viewOf('pattern'));
	desk.clock.pass(600);
	await desk.type('\u001b[200~e e e\r\u001b[201~');
	desk.clock.pass(600);
	expect(desk.fake.log).toEqual([]);
	expect(await desk.shown()).toContain('a paste is no answer');
});

test('after a stall only hold counts', async () => {
	const desk = atDesk(viewOf('pattern'));
	desk.clock.pass(1000);
	desk.clock.stall(400);
	await desk.type('e');
	desk.clock.pass(60);
	expect(desk.fake.log).toEqual([]);
	await desk.type(' ');
	expect(desk.fake.log).toEqual([{ key: 'hold' }]);
});

test('keys that come in with the end of a stall are dropped, even before the clock was looked at', async () => {
	const desk = atDesk(viewOf('pattern'));
	desk.clock.pass(1000);
	desk.stdin.pause();
	desk.stdin.write('e');
	const before = desk.clock.mono();
	desk.clock.stall(400);
	expect(desk.clock.mono() - before).toBe(400);
	desk.stdin.resume();
	await new Promise(done => setImmediate(done));
	desk.clock.pass(100);
	expect(desk.fake.log).toEqual([]);
});

test('a change that no key made is shown, and drops a corner meant for the screen before', async () => {
	const desk = atDesk(viewOf('wait'));
	desk.clock.pass(600);
	await desk.type('i');
	desk.fake.change(viewOf('touch'));
	desk.clock.pass(600);
	expect(desk.fake.log).toEqual([]);
	expect(await desk.shown()).toContain('Tape tab by the right door');
});

test('while the day is at work on an answer it is not looked at, so that no answer meets an unseen screen', async () => {
	const desk = atDesk(viewOf('pattern'));
	desk.clock.pass(600);
	const looked: number[] = [];
	desk.fake.answers = () => {
		const before = desk.fake.looks;
		desk.fake.change(viewOf('touch'));
		looked.push(desk.fake.looks - before);
		return { accepted: true };
	};
	await desk.type('e');
	desk.clock.pass(60);
	expect(looked).toEqual([0]);
	expect(await desk.shown()).toContain('Tape tab by the right door');
});

test('in a rehearsal the arrows move the clock; on the real clock they do nothing', async () => {
	const desk = atDesk(viewOf('rehearsal-list'));
	await desk.type('\u001b[C\u001b[A');
	expect(desk.fake.log).toEqual(['clock +60000', 'clock +600000']);
	const real = atDesk(viewOf('wait'));
	await real.type('\u001b[C');
	expect(real.fake.log).toEqual([]);
});

test('on a window too small to read, only hold counts, and nothing typed is lost', async () => {
	const desk = atDesk(viewOf('pattern'));
	desk.clock.pass(600);
	desk.resize(39, 12);
	expect(await desk.shown()).toContain('at least 40 x 12, now 39 x 12');
	await desk.type('e');
	desk.clock.pass(600);
	await desk.type(' ');
	expect(desk.fake.log).toEqual([{ key: 'hold' }]);
	desk.resize(40, 12);
	expect(await desk.shown()).toContain('TALL');
});

test('with one key, presses choose a corner, the choice is shown, one more confirms', async () => {
	const desk = atDesk(viewOf('pattern'), undefined, { oneKey: true });
	desk.clock.pass(600);
	await desk.type('b');
	desk.clock.pass(250);
	await desk.type('b');
	expect(await desk.shown()).toContain('pressed 2');
	desk.clock.pass(900);
	expect(await desk.shown()).toContain('once more to answer');
	expect(desk.fake.log).toEqual([]);
	await desk.type('b');
	desk.clock.pass(400);
	expect(desk.fake.log).toEqual([{ key: 'topRight' }]);
});

test('with one key, the space bar is still hold and a number is still typed', async () => {
	const desk = atDesk(viewOf('number'), undefined, { oneKey: true, layout: layoutOf('us', null) });
	desk.clock.pass(600);
	await desk.type('21\r ');
	expect(desk.fake.log).toEqual([{ number: 21 }, { key: 'hold' }]);
});

test('Tab has the last sentence said again, and answers nothing', async () => {
	const desk = atDesk(viewOf('pattern'));
	desk.clock.pass(600);
	await desk.type('\t');
	desk.clock.pass(300);
	expect(desk.fake.log).toEqual(['again']);
});
