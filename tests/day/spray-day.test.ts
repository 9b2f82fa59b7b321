import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

test('a whole day is sprayed, and its file passes the checker', () => {
	const day = rehearsed();
	day.toEnd();
	expect(day.ofType('face.ended').map(({ face, coat }) => `${face} ${coat}`)).toEqual([
		'left door/edges 1',
		'left door/flat 1',
		'right door/flat 1',
		'left door/edges 2',
		'left door/flat 2',
		'right door/flat 2',
	]);
	expect(day.findings()).toEqual([]);
});

test('stretch by stretch, one key starts and one ends the faces that follow each other', () => {
	const day = rehearsed({ settings: { by: 'stretch' } });
	day.until(({ ask, face }) => ask === 'go' && face === 'left door/flat');
	day.send('top-left', 'bottom-right', 'wait 90 s');
	day.pick('finished');
	const ended = day.ofType('face.ended').slice(-2);
	expect(ended.map(({ face, estimated }) => [face, estimated])).toEqual([
		['left door/flat', true],
		['right door/flat', true],
	]);
	expect(Date.parse(ended[1]?.began ?? '') - Date.parse(ended[0]?.began ?? '')).toBe(45_000);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});
