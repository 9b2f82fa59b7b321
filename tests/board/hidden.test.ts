import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { openCalls } from '../../src/board/calls.ts';
import { followDays } from '../../src/board/days.ts';
import { timerSays } from '../../src/board/due.ts';
import type { DayShown, Told } from '../../src/board/shown.ts';
import { disk } from '../../src/day/file/port.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import { hiddenIn, watchOf } from '../model/hidden.ts';
import { heardBy, shop, writtenDay } from './shop.ts';

/**
 * Property 10 on the wall: what a reading should be is in nothing that the board tells before it is keyed, as it is on
 * no screen. Days are sprayed key by key, and all that was told since the last instruction is searched.
 */

/** All that can be read of the board, as a screen of words: events as they are sent, and what the page makes of them. */
const asWords = (told: readonly Told[], record: string, now: number): string[] => [
	...told.flatMap(one => (one.about === 'day' ? wordsOf(one.shown, now) : [JSON.stringify(one)])),
	existsSync(record) ? readFileSync(record, 'utf8') : '',
];

/** Identity and instants are numbers of no reading. */
function wordsOf({ day: _, answered, heldSince, calling, ...shown }: DayShown, now: number): string[] {
	const timers = shown.timers.map(timer => timerSays(timer, now, shown.zone));
	const drawn =
		shown.picture?.replace(/="[-\d. ]*"|\bd="[^"]*"|id="[^"]*"|aria-labelledby="[^"]*"/g, '') ?? '';
	return [
		JSON.stringify({ ...shown, picture: drawn, timers: [], faces: [] }),
		...shown.faces.map(({ face, aside }) => `${face} ${aside}`),
		`cup ${shown.cup?.join(' + ') ?? ''}`,
		...timers.map(text => text.replace(/\b\d+ (?:s|min|h)\b|\d+:\d\d/g, '')),
	];
}

function searched(seed: number, betray: (shown: DayShown | undefined, line: Line) => string = () => '') {
	const found: string[] = [];
	const watch = watchOf((_, text) => void found.push(text));
	const place = shop();
	const day = writtenDay(place.days, 'small', { seed, settings: { cards: seed % 2 === 1 } });
	const { hub, told, last } = heardBy();
	const calls = openCalls(place.record, error => {
		throw error;
	});
	const board = followDays({ folder: place.days, port: disk, hub, calls, now: day.now });
	for (let count = 0; count < 700 && day.line().ask !== 'closed'; count++) {
		const line = day.line();
		day.write();
		told.length = 0;
		board.look();
		const lines = [...asWords(told, place.record, day.now()), betray(last(), line)];
		const answer = day.painter.answer(line);
		if (answer === null) break;
		const before = day.records().length;
		day.send(answer);
		const { cup: _c, gun: _g, ...bare } = line;
		const shown: Line = { ...bare, say: '', lines, do: [], open: [], unit: null };
		hiddenIn(watch, { ...shown, ask: line.ask, do: [] }, answer, day.records().slice(before), day.line());
	}
	board.close();
	return { found, readings: watch.readings, screens: watch.screens };
}

test('whole days: no reading is given away by anything that the board tells', () => {
	for (const seed of [0, 1]) {
		const { found, readings } = searched(seed);
		expect(found).toEqual([]);
		expect(readings).toBeGreaterThan(10);
	}
});

test('a board that drew what the face in hand wants, or named the batch before it is read, is found out', () => {
	const { found } = searched(0, (_, { state }) =>
		state.startsWith('gunCheck') ? 'horns level, tall, wide, cup A' : '',
	);
	expect(found.join('\n')).toMatch(/pattern wants (tall|wide)/);
	expect(found.join('\n')).toMatch(/batch wants A/);
});
