import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readDay } from '../../src/day/file/read.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { allDead, type Fault, faultyPort } from './file/faulty.ts';
import { newPlace } from './file/place.ts';
import { keptDay } from './kept-day.ts';

const states = ['list', 'bench', 'mix', 'check', 'ready', 'spraying', 'wait', 'hold'] as const;
type State = (typeof states)[number];

/** What comes without a key: time, a terminal that closes or a signal, a stop, a clock that is set, a trigger. */
const happenings = ['wait 3 h', 'hangup', 'sleep 2 min', 'clock -1 h', 'trigger off'] as const;

const bare = (records: readonly DayRecord[]) => records.map(({ more: _, ...record }) => record);

/** A day that stands in a state, on a disk that can be made to fail from now on. */
function standing(state: State, fault: Fault, lasting: boolean) {
	const path = join(newPlace(), 'a.day.jsonl');
	const wrong: number[] = [];
	const { port, calls } = faultyPort(wrong, fault, lasting);
	const day = keptDay(path, port, allDead);
	if (state === 'bench') {
		day.until('mix');
		day.send('hold', 'top-left');
	}
	if (state === 'hold') {
		day.until('wait');
		day.send('hold');
	}
	day.until(state);
	const before = calls.length;
	return {
		...{ path, day },
		fail: (call: number) => void wrong.push(before + call),
		heal: () => void wrong.splice(0),
		/** Calls since it stood there. */
		since: () => calls.slice(before),
		read: () => readDay(readFileSync(path)),
	};
}

/** The file is whole, holds all that was told to be there, and can be gone on with. */
function expectWhole({ day, read, path }: ReturnType<typeof standing>, where: string) {
	const { records, damage } = read();
	expect(damage, where).toBeNull();
	expect(bare(records).slice(0, day.acknowledged.length), where).toEqual(bare(day.acknowledged));
	expect(checkDayFile(readFileSync(path)), where).toEqual([]);
}

/** With the disk well again everything comes to it, and the file is the day as it stands. */
function expectHealed(stood: ReturnType<typeof standing>, where: string) {
	stood.heal();
	stood.day.send('wait 6 s');
	expect(stood.day.session().unkept(), where).toBeNull();
	expect(bare(stood.read().records), where).toEqual(bare(stood.day.acknowledged));
	expect(stood.day.session().state().book.last.seq, where).toBe(stood.day.acknowledged.at(-1)?.seq);
	expectWhole(stood, where);
}

test.each(states)('in %s no call that fails while nobody keys ends the program or harms the file', state => {
	for (const happening of happenings.slice(0, 3)) {
		const unharmed = standing(state, 'fail', false);
		unharmed.day.send(happening);
		const calls = unharmed.since();
		// A write that fails once is made good by writing the day anew: those calls can fail too.
		for (let call = 1; call <= calls.length + 8; call++) {
			const stood = standing(state, 'half-then-fail', false);
			stood.fail(call);
			stood.day.send(happening);
			const where = `${happening}, call ${call} (${stood.since()[call - 1]})`;
			expectWhole(stood, where);
			expectHealed(stood, where);
			stood.day.close();
		}
	}
});

test.each(states)('in %s a disk that fails for good leaves the day in hold, and says so', state => {
	for (const happening of happenings) {
		const stood = standing(state, 'half-then-fail', true);
		stood.fail(1);
		const line = stood.day.send(happening);
		const where = `${happening}: ${line.say}`;
		if (stood.since().length === 0) continue;
		expect(stood.day.session().unkept(), where).not.toBeNull();
		expectWhole(stood, where);
		const { value } = stood.day.session().state().machine;
		expect(value, where).toBe(happening === 'trigger off' && state === 'spraying' ? 'spraying' : 'hold');
		if (value === 'hold')
			expect(line.say, where).toBe('Disk: it cannot be written. Nothing counts until it can.');
		stood.day.send('hangup');
		expectWhole(stood, `${where}, left`);
		expectHealed(stood, where);
		stood.day.close();
	}
});
