import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { openCalls } from '../../src/board/calls.ts';
import { followDays } from '../../src/board/days.ts';
import { disk } from '../../src/day/file/port.ts';
import { heardBy, shop, writtenDay } from './shop.ts';

/** A painter who is alone and falls silent: when the board calls, and until when. */

const min_ms = 60_000;

function alone(given: Parameters<typeof writtenDay>[2] = {}) {
	const place = shop();
	const day = writtenDay(place.days, 'small', given);
	let ahead_ms = 0;
	const now = () => day.now() + ahead_ms;
	const open = () => {
		const heard = heardBy();
		const calls = openCalls(place.record, error => {
			throw error;
		});
		const board = followDays({ folder: place.days, port: disk, hub: heard.hub, calls, now });
		board.close();
		return { ...board, ...heard, calls };
	};
	let board = open();
	/** Since when the board calls, so long after the day's last key; null: it does not. */
	const callsAfter = (ms: number): number | null => {
		day.write();
		ahead_ms = ms;
		board.look();
		return board.last()?.calling ?? null;
	};
	return {
		...{ day, place, now, callsAfter },
		lookedIn: (name: string) => board.calls.lookedIn(board.last()?.day ?? '', name, now()),
		startedAgain() {
			board = open();
		},
	};
}

/** It calls at a moment, and not a second before. */
function expectCall(painter: ReturnType<typeof alone>, after_ms: number) {
	expect(painter.callsAfter(after_ms - 1000)).toBeNull();
	expect(painter.callsAfter(after_ms)).toBe(painter.now());
}

test('silent while a face is sprayed: three minutes after its time', () => {
	const painter = alone();
	painter.day.toAsk('spraying');
	const [face] = painter.day.ofType('face.started').slice(-1);
	const coat = painter.day.job.faces.find(({ id }) => id === face?.face)?.coats[0];
	const passed_ms = painter.day.now() - Date.parse(face?.at ?? '');
	expectCall(painter, (coat?.spray_s ?? 0) * 1000 + 3 * min_ms - passed_ms);
});

test('silent in a check: ten minutes after the last answer, however soon the program goes into hold', () => {
	const painter = alone();
	painter.day.toAsk('pattern');
	const answered = painter.day.now();
	expectCall(painter, 10 * min_ms);
	const other = alone();
	other.day.toAsk('pattern');
	other.day.send('wait 5 min');
	expect(other.day.line().ask).toBe('hold');
	other.day.write();
	expect(other.day.now()).toBe(answered + 5 * min_ms);
	expectCall(other, 5 * min_ms);
});

test('silent in a wait: ten minutes past its end', () => {
	const painter = alone();
	painter.day.toState('wait');
	const [wait] = painter.day.ofType('wait.began').slice(-1);
	const left_ms = Date.parse(wait?.due ?? '') - painter.day.now();
	expect(left_ms).toBeGreaterThan(min_ms);
	expectCall(painter, left_ms + 10 * min_ms);
	painter.day.send(`wait ${Math.ceil(left_ms / min_ms) + 2} min`);
	expect(painter.day.line().state).not.toBe('wait');
});

test('the breathing air lost: at once', () => {
	const painter = alone();
	painter.day.toAsk('spraying');
	painter.day.pick('trouble');
	painter.day.pick('air-lost');
	expect(painter.callsAfter(0)).toBe(painter.now());
});

test('who answers is not called for, and held by his own key he has half an hour', () => {
	const painter = alone();
	for (let count = 0; count < 40; count++) {
		painter.day.send(painter.day.painter.answer(painter.day.line()) ?? '');
		expect(painter.callsAfter(2 * min_ms)).toBeNull();
	}
	painter.day.send('hold');
	expectCall(painter, 30 * min_ms);
});

test('a call goes on, though it is started again and though he answers, until a name is given; the name is kept', () => {
	const painter = alone();
	painter.day.toAsk('pattern');
	const called = painter.callsAfter(11 * min_ms);
	expect(called).not.toBeNull();
	painter.startedAgain();
	expect(painter.callsAfter(12 * min_ms)).toBe(called);
	painter.day.send('hold');
	painter.startedAgain();
	expect(painter.callsAfter(1000)).toBe(called);
	expect(painter.lookedIn('Kim')).toBe(true);
	expect(painter.callsAfter(2000)).toBeNull();
	expect(painter.lookedIn('Kim')).toBe(false);
	const lines = readFileSync(painter.place.record, 'utf8').split('\n').filter(Boolean);
	expect(lines.map(line => JSON.parse(line))).toEqual([
		expect.objectContaining({ called: new Date(called ?? 0).toISOString() }),
		expect.objectContaining({ name: 'Kim' }),
	]);
});

test('half a line in the record of calls is passed over, and the next stands on a line of its own', () => {
	const { record } = shop();
	const calls = openCalls(record, error => {
		throw error;
	});
	const silent = { answered: 0, calls: 1000, isLost: false };
	expect(calls.calling('one', silent, true, 1000)).toBe(1000);
	const again = openCalls(record, () => {});
	expect(again.calling('one', silent, true, 999)).toBe(1000);
	expect(again.lookedIn('one', 'Kim', 5000)).toBe(true);
	expect(again.calling('one', silent, true, 5000 + 10 * min_ms - 1)).toBeNull();
	expect(again.calling('one', silent, true, 5000 + 10 * min_ms)).toBe(5000 + 10 * min_ms);
	expect(again.lookedIn('one', 'Kim', 900_000)).toBe(true);
	/** No program has the day: nobody is at it whom another look would find. */
	expect(again.calling('one', silent, false, 9_000_000)).toBeNull();
});

test('with somebody beside the painter nobody is called for', () => {
	const painter = alone({ settings: { alone: false } });
	painter.day.toAsk('pattern');
	expect(painter.callsAfter(600 * min_ms)).toBeNull();
});
