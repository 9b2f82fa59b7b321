import { expect, test } from 'vitest';
import { asColdPaint, asPaint } from '../../src/trade/paint-warmth.ts';
import { steady } from '../../src/trade/process-clock.ts';

/** This project's own choice: no source. */
test.each([
	[300, null, 21],
	[301, null, 22],
	[300, 25, 26],
	[300, 15, 21],
])('%d mL in air of 20 °C, read at %s °C, is clocked at %d °C', (make_mL, read_C, wanted_C) => {
	expect(asPaint(steady(20), { make_mL, read_C }).map(({ from_C, to_C }) => [from_C, to_C])).toEqual([
		[wanted_C, wanted_C],
	]);
});

test.each([
	[null, 20],
	[15, 15],
	[25, 20],
])('a batch that stands in air of 20 °C, read at %s °C, counts on no more than %d °C', (read_C, wanted_C) => {
	expect(asColdPaint(steady(20), read_C).map(({ from_C, to_C }) => [from_C, to_C])).toEqual([
		[wanted_C, wanted_C],
	]);
});
