import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

/** What a painter is told before all else: paint that died meanwhile, and the face that trouble is likeliest about. */

test('a batch that dies in a hold stands first among the lines of it, and there alone', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold');
	expect(day.line().lines.join(' ')).not.toMatch(/past its life/);
	day.send('wait 3 h');
	expect(day.line().lines[0]).toBe('Batch A: past its life. Outside with it; heat builds in it.');
});

test('a run is asked for on the faces that have paint, the last sprayed first', () => {
	const day = rehearsed();
	day.until(({ ask }) => ask === 'go' && day.ofType('face.ended').length === 2);
	const sprayed = day.ofType('face.ended').map(({ face }) => face);
	day.pick('trouble');
	day.pick('wet-fault');
	day.pick('run');
	expect(Object.values(day.line().corners).map(({ code }) => code)).toEqual(sprayed.toReversed());
});

test('where nothing has paint yet, every face is offered: no screen is without an answer', () => {
	const day = rehearsed();
	day.send('hold');
	day.pick('trouble');
	day.pick('wet-fault');
	day.pick('run');
	expect(Object.keys(day.line().corners).length).toBeGreaterThan(0);
});
