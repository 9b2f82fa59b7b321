import { expect, test } from 'vitest';
import { movedClock } from '../../src/day/clock.ts';
import { openingRecord } from '../../src/day/open.ts';
import type { DayRecord } from '../../src/day/records.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import { openSession } from '../../src/day/session.ts';
import { settingsSchema } from '../../src/day/settings.ts';
import { painterOf } from '../../src/painter/painter.ts';
import { openTalk } from '../../src/plain/talk.ts';
import { layoutOf } from '../../src/screen/keys/layouts.ts';
import { portOf } from '../../src/screen/session-port.ts';
import { smallJob, smallLists } from '../day/small-job.ts';

const start = Date.parse('2027-03-02T08:00:00Z');

/** A small day told and answered in lines. */
function talking() {
	const settings = settingsSchema.parse({});
	const records: DayRecord[] = [
		openingRecord(
			{
				job: smallJob(),
				lists: smallLists(),
				settings,
				clock: 'moved',
				program: '0.0.0',
				before: { faces: {}, letters: 0 },
				zone: 'UTC',
			},
			{ wall: start, mono: 0 },
		),
	];
	const clock = movedClock(start);
	const day = openSession({
		sink: { records: [...records], append: made => void records.push(...made), close() {} },
		clock,
		rehearsal: true,
	});
	const printed: string[] = [];
	const left: string[] = [];
	const talk = openTalk(
		{
			session: portOf(day, clock.pass),
			write: text => printed.push(text),
			mono: () => clock.now().mono,
			leave: why => left.push(why),
		},
		layoutOf('us', null),
		settings,
	);
	const line = (): Line => ({ ...day.view(), events: [], accepted: true });
	const painter = painterOf(smallJob(), day.state);
	/** The painter answers in lines until something holds. */
	const until = (holds: () => boolean) => {
		talk.look();
		for (let count = 0; count < 2000 && !holds(); count++) {
			const next = painter.answer(line());
			if (next === null) return;
			talk.take(next.replace(/^(number|text) /, ''), false);
		}
	};
	return { talk, until, printed, left, line, clock, records, take: (text: string) => talk.take(text, false) };
}

test('a whole day is told and answered in lines: every question printed, nothing but text', () => {
	const { until, printed, left, line, records } = talking();
	const asked = new Set<string>();
	until(() => {
		asked.add(line().say);
		return left.length > 0;
	});
	expect(left).toEqual(['closed']);
	expect(records.at(-1)?.type).toBe('day.closed');
	const text = printed.join('');
	expect(asked.size).toBeGreaterThan(30);
	for (const say of asked) if (!/^Wait /.test(say)) expect(text).toContain(`${say}\n`);
	expect([...text].filter(character => character < ' ' && character !== '\n')).toEqual([]);
});

test('while a face is sprayed its page is printed once and nothing after it', () => {
	const { talk, until, printed, line, clock } = talking();
	until(() => line().state === 'spraying');
	expect(printed.at(-1)).toContain('FINISHED');
	const before = printed.length;
	for (let second = 0; second < 40; second++) {
		clock.pass(1000);
		talk.look();
	}
	expect(printed).toHaveLength(before);
});

test('a wait prints its warnings in the words that are spoken', () => {
	const { talk, until, printed, line, clock } = talking();
	until(() => line().state === 'wait');
	printed.length = 0;
	while (line().state === 'wait') {
		clock.pass(1000);
		talk.look();
	}
	const warned = printed.filter(text => text.startsWith('Wait: '));
	expect(warned).toHaveLength(3);
	expect(warned[2]).toMatch(/15 s left, come to the screen\.\n$/);
});

test('a line that comes to stand beside the question is printed once, by itself', () => {
	const { talk, until, printed, line, clock } = talking();
	until(() => line().state === 'wait');
	printed.length = 0;
	for (let minute = 0; minute < 20; minute++) {
		clock.pass(60_000);
		talk.look();
	}
	expect(printed.filter(text => text.startsWith('Gun: wet the tip.'))).toEqual([
		expect.stringMatching(/^Gun: wet the tip\. Flush in \d+ min\.\n$/),
	]);
});

test('a line typed before the question could be heard is not taken for it; hold always is', () => {
	const { talk, printed, line, clock } = talking();
	talk.look();
	const first = line().say;
	talk.take('supplied air', true);
	expect(printed.at(-1)).toContain('too soon');
	expect(line().say).toBe(first);
	clock.pass(600);
	talk.take('supplied air', true);
	expect(line().say).not.toBe(first);
	talk.take('', true);
	expect(line().state).toBe('hold');
});

test('quit leaves in the middle; again prints the question once more; a wrong word is said, not taken', () => {
	const { talk, printed, left, line, take } = talking();
	talk.look();
	take('again');
	expect(printed[1]).toBe(printed[0]);
	take('purple');
	expect(printed.at(-1)).toBe('"purple" is no answer here; "wait 15 min" puts the clock forward\n');
	expect(printed.at(-1)).not.toContain(line().say);
	take('quit');
	expect(left).toEqual(['left']);
});

test('a program that was stopped counts the time away from when it last looked, both clocks going on', () => {
	const { talk, printed, records, clock } = talking();
	talk.look();
	clock.pass(90_000);
	talk.cutOff('suspend');
	talk.look();
	expect(records.at(-1)).toMatchObject({
		type: 'break.began',
		kind: 'suspend',
		since: new Date(start).toISOString(),
	});
	expect(printed.at(-1)).toContain('The program stood still. Away 90 s.');
	talk.cutOff('suspend');
	expect(records.at(-1)).not.toHaveProperty('since');
});
