import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

/** A pull that the trigger line saw outside a pass may be a coat: it is told before anything rests on it. */

function pulledAtReady(seconds = 5) {
	const day = rehearsed();
	day.toState('ready');
	day.send('trigger on', `wait ${seconds} s`, 'trigger off', 'screen');
	return day;
}

test('a pull at ready is asked about before the face can be started', () => {
	const day = pulledAtReady();
	expect(day.line()).toMatchObject({
		state: 'stray',
		say: 'Trigger: pulled 5 s, and no face begun. On what?',
	});
	expect(Object.values(day.line().corners).map(({ code }) => code)).not.toContain('start');
});

test('it was on paper: ready stands as before, and nothing is counted', () => {
	const day = pulledAtReady();
	day.pick('none');
	expect(day.line()).toMatchObject({ state: 'ready', face: 'left door/edges', coat: 1 });
	day.toEnd();
	expect(day.ofType('face.ended').length).toBe(6);
	expect(day.findings()).toEqual([]);
});

test('it was the face that comes next: its pass is begun, and how much is on is asked', () => {
	const day = pulledAtReady();
	day.pick('begun');
	expect(day.line()).toMatchObject({ state: 'spraying', face: 'left door/edges' });
	day.send('trigger on', 'wait 3 s', 'trigger off');
	day.pick('finished');
	expect(day.line()).toMatchObject({ state: 'spraying.soon', ask: 'last-face' });
	expect(day.findings()).toEqual([]);
});

test('it was on another part: what lies there nobody knows, and the part is set aside', () => {
	const day = pulledAtReady();
	day.pick('elsewhere');
	day.pick('right door/flat');
	expect(day.ofType('part.setAside')).toMatchObject([
		{ part: 'right door', faulty: ['right door/flat'], why: 'sprayed outside a pass' },
	]);
	expect(day.line().state).not.toBe('stray');
	expect(day.findings()).toEqual([]);
});

test('in a wait or a hold it is asked about once that is over', () => {
	const day = rehearsed();
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	day.send('trigger on', 'wait 2 s', 'trigger off', 'hold', 'trigger on', 'wait 4 s', 'trigger off');
	expect(day.line().ask).toBe('hold');
	day.until(({ state }) => state === 'stray');
	expect(day.line().say).toBe('Trigger: pulled 6 s, and no face begun. On what?');
	day.pick('none');
	day.toEnd();
	expect(day.ofType('face.ended').length).toBe(6);
	expect(day.findings()).toEqual([]);
});

test('a touch of the trigger lays nothing, and the bursts that a check asks for are its own', () => {
	const day = rehearsed();
	day.until(({ ask }) => ask === 'pattern');
	day.send('trigger on', 'wait 2 s', 'trigger off');
	day.toState('ready');
	day.send('trigger on', 'trigger off', 'screen');
	expect(day.line().state).toBe('ready');
});
