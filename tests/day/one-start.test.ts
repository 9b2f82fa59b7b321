import { expect, test } from 'vitest';
import type { Line } from '../../src/day/rehearsal.ts';
import { rehearsed } from './rehearsed.ts';

/** How many keys begin a pass. */

const startIn = ({ corners }: Line) =>
	Object.entries(corners).flatMap(([corner, { text }]) =>
		text.includes('START') ? [`${corner} ${text}`] : [],
	);

/** The day at its first *ready*, with what is given to it before. */
const atReady = (options: Parameters<typeof rehearsed>[0] = {}) => {
	const day = rehearsed(options);
	day.toAsk('go');
	return day;
};

test('the start that follows on the last right reading of a check is one key, in a corner where no reading fits', () => {
	const day = atReady();
	expect(day.ofType('reading.taken').at(-1)).toMatchObject({ matched: true, feature: 'pattern' });
	expect(startIn(day.line())).toEqual(['bottomRight START']);
	expect(day.send('bottom-right').ask).toBe('spraying');
	expect(day.ofType('face.started')).toHaveLength(1);
});

test('struck twice, START stops nothing, and FINISHED starts nothing', () => {
	const day = atReady();
	day.send('bottom-right');
	expect(day.send('bottom-right')).toMatchObject({ accepted: false, ask: 'spraying' });
	day.send('wait 60 s', 'top-left');
	expect(day.line().ask).not.toBe('spraying');
	expect(day.send('top-left').ask).not.toBe('spraying');
	expect(day.ofType('face.started')).toHaveLength(1);
});

test('a start that follows on FINISHED with nothing to touch between is one key', () => {
	const day = atReady();
	day.until(({ ask, face }) => ask === 'go' && face === 'right door/flat');
	expect(startIn(day.line())).toEqual(['bottomRight START']);
});

const twoKeys = ['topLeft START'];

test.each([
	['a minute has gone by since', ['wait 61 s']],
	['there was a hold', ['hold']],
	['the machine slept', ['sleep 5 min']],
	['the program was killed', ['kill']],
])('two corners start it where %s, and one again behind that pass', (_, lines) => {
	const day = atReady();
	day.send(...lines);
	day.toAsk('go');
	expect(startIn(day.line())).toEqual(twoKeys);
	expect(startIn(day.send('top-left'))).toEqual(['bottomRight AND START']);
	day.send('bottom-right', 'wait 60 s', 'top-left');
	day.toAsk('go');
	expect(startIn(day.line())).toEqual(['bottomRight START']);
});

test('two corners where part of a coat is on', () => {
	const day = atReady();
	day.send('bottom-right', 'wait 20 s', 'hold');
	day.until(({ state }) => state === 'ready');
	expect(day.state().book.faces.get(day.line().face ?? '')?.part).not.toBeNull();
	expect(startIn(day.line())).toEqual(twoKeys);
});

test('two corners under a reason, and where a pattern card was read last', () => {
	const cards = atReady({ settings: { cards: true } });
	expect(startIn(cards.line())).toEqual(twoKeys);
	const day = rehearsed();
	day.painter.world.air.humidity = 0.87;
	day.toState('air.no');
	day.pick('go-on');
	day.pick('test-piece');
	day.toAsk('go');
	expect(day.ofType('override.given')).not.toEqual([]);
	expect(startIn(day.line())).toEqual(twoKeys);
});
