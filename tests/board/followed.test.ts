import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { afterEach, expect, test } from 'vitest';
import { openCalls } from '../../src/board/calls.ts';
import { type Days, followDays } from '../../src/board/days.ts';
import { duesOf } from '../../src/board/due.ts';
import { disk } from '../../src/day/file/port.ts';
import { heardBy, shop, start, writtenDay } from './shop.ts';

let open: Days | null = null;
afterEach(() => open?.close());

function boardOf({ days, record }: ReturnType<typeof shop>, now: () => number) {
	const heard = heardBy();
	const calls = openCalls(record, error => {
		throw error;
	});
	open?.close();
	open = followDays({ folder: days, port: disk, hub: heard.hub, calls, now });
	return { ...heard, look: open.look };
}

test('every state of a day is seen, from its file alone, and the day is gone once it is closed', () => {
	const place = shop();
	const day = writtenDay(place.days, 'small');
	const board = boardOf(place, day.now);
	const words = new Set<string>();
	day.until(line => {
		day.write();
		board.look();
		const shown = board.last();
		if (line.ask !== 'closed' && shown) words.add(shown.word);
		return line.ask === 'closed';
	});
	expect([...words].sort()).toEqual(
		['AIR', 'BENCH', 'CHECK', 'CLEAN UP', 'LIST', 'MIX', 'READY', 'SPRAY', 'TOUCH', 'WAIT'].sort(),
	);
	expect(board.told.filter(({ about }) => about === 'gone')).toHaveLength(1);
});

test('while a face is sprayed fan and stroke stand there, and the coat; in a wait what is waited for is next', () => {
	const place = shop();
	const day = writtenDay(place.days, 'small');
	const board = boardOf(place, day.now);
	day.toAsk('spraying');
	day.write();
	board.look();
	expect(board.last()).toMatchObject({ word: 'SPRAY', face: day.line().face, coat: 1, timers: [] });
	expect(board.last()?.picture).toMatch(/^<svg[\s\S]*to scale[\s\S]*class="fan[\s\S]*class="stroke"/);
	day.toState('wait');
	day.write();
	board.look();
	const shown = board.last();
	expect(shown?.picture).toBeNull();
	if (!shown) throw new Error('no day is shown');
	const soonest = Math.min(...day.line().timers.map(({ due }) => Date.parse(due)));
	expect(duesOf([shown], [], day.now())[0]).toMatchObject({ at: soonest, isLate: false });
	expect(shown.timers.map(({ code }) => code)).toContain('opens');
});

test('a key that was withdrawn is shown no longer: the day is read anew', () => {
	const place = shop();
	const day = writtenDay(place.days, 'small');
	const board = boardOf(place, day.now);
	day.toAsk('spraying');
	day.write();
	board.look();
	const before = readFileSync(day.path);
	const sprayed = board.last();
	day.send('hold');
	day.write();
	board.look();
	expect(board.last()?.word).toBe('HOLD');
	expect(board.last()?.heldSince).toBe(day.now());
	writeFileSync(`${day.path}.new`, before);
	renameSync(`${day.path}.new`, day.path);
	board.look();
	expect(board.last()).toEqual(sprayed);
});

test('half a line is waited for, and a damaged day stands as it stood, and says so', () => {
	const place = shop();
	const day = writtenDay(place.days, 'small');
	const board = boardOf(place, day.now);
	day.toAsk('number');
	day.write();
	board.look();
	const whole = readFileSync(day.path);
	const before = board.last();
	writeFileSync(day.path, Buffer.concat([whole, Buffer.from('00000000 {"se')]));
	board.look();
	expect(board.last()).toEqual(before);
	writeFileSync(day.path, Buffer.concat([whole, Buffer.from('00000000 {"seq":1}\n')]));
	board.look();
	expect(board.last()).toEqual({ ...before, trouble: 'Its file cannot be read now' });
});

test('a job with no open day is told by what it comes to next', () => {
	const place = shop();
	const day = writtenDay(place.days, 'coffee-cart-doors');
	day.until(() => day.ofType('face.ended').length === 1);
	day.send('hold');
	day.pick('close');
	day.pick('close');
	expect(day.line().ask).toBe('closed');
	day.write();
	const board = boardOf(place, () => day.now() + 60_000);
	expect(board.last()).toBeUndefined();
	const told = board.told.find(one => one.about === 'elsewhere');
	if (told?.about !== 'elsewhere') throw new Error('nothing is told');
	expect(told.jobs).toMatchObject([{ job: 'Coffee cart doors' }]);
});

test('names turn no line of the page round, and hide nothing in it', () => {
	const place = shop();
	writtenDay(place.days, 'small', { named: 'cart\u202e\u0007\u2066doors' });
	const board = boardOf(place, () => start);
	expect(board.last()?.job).toMatch(/^cart.*doors$/);
	expect(JSON.stringify(board.told)).not.toMatch(/[\p{Cc}\u202e\u2066]|\\u/u);
});

test('what is next is told over jobs with no open day, too: a window missed comes first, then the soonest', () => {
	const job = { job: 'stools', from: null, until: null, isLate: false };
	const now = 1_000_000;
	const dues = duesOf(
		[],
		[
			{ ...job, what: 'coat 2', from: now + 60_000 },
			{ ...job, what: 'spray varnish', from: now - 1, until: now + 30_000 },
			{ ...job, what: 'scuff', from: now - 1 },
			{ ...job, what: 'sand', from: now - 5, isLate: true },
		],
		now,
	);
	expect(dues.map(({ says }) => says)).toEqual([
		'sand: its window was missed',
		'spray varnish, no later',
		'coat 2',
	]);
});
