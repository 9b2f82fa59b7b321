import { expect, test } from 'vitest';
import { openingRecord } from '../../src/day/open.ts';
import { openSession } from '../../src/day/session.ts';
import { settingsSchema } from '../../src/day/settings.ts';
import { runScreen } from '../../src/screen/run.ts';
import { portOf } from '../../src/screen/session-port.ts';
import { setupOf } from '../../src/screen/show-day.ts';
import { heard, openVoice } from '../../src/voice/voice.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { fakeSession, fakeTerminal } from '../screen/harness.ts';
import { viewOf } from '../screen/views.ts';

const start = Date.parse('2027-03-02T08:00:00Z');

/** The first screens of a day at a terminal, and what was heard of them. */
function atTerminal() {
	const terminal = fakeTerminal();
	const first = openingRecord(
		{
			job: smallJob(),
			lists: smallLists(),
			settings: settingsSchema.parse({}),
			clock: 'moved',
			program: '0.0.0',
			before: { faces: {}, letters: 0 },
			zone: 'UTC',
		},
		{ wall: start, mono: 0 },
	);
	const clock = {
		now: () => ({ wall: start + terminal.clock.mono(), mono: terminal.clock.mono() }),
		wakeAt() {},
	};
	const day = openSession({
		sink: { records: [first], append() {}, close() {} },
		clock,
		rehearsal: false,
	});
	const log: string[] = [];
	const voice = openVoice({
		say: sentence => log.push(`says ${sentence}`),
		hush: () => log.push('hush'),
		play: sound => log.push(`plays ${sound}`),
		notify: text => log.push(`tells ${text}`),
		close: () => log.push('closed'),
		told: () => ({ warnEarly_min: 10, warnLate_min: 2, overdue: false }),
	});
	const settings = settingsSchema.parse({});
	const left = runScreen(
		{ ...terminal.ports, session: heard(portOf(day), voice) },
		setupOf(settings, { LANG: 'C.UTF-8' }),
	);
	const type = (bytes: string) => {
		terminal.clock.pass(600);
		terminal.stdin.emit('data', Buffer.from(bytes));
		terminal.clock.pass(100);
	};
	return { log, type, left, day, clock: terminal.clock };
}

test('the first question is said as the screen comes up, the next when it is answered, and none twice', async () => {
	const { log, type, day, clock } = atTerminal();
	expect(log).toEqual([`says ${day.view().say}`]);
	clock.pass(5000);
	expect(log).toHaveLength(1);
	type(',');
	expect(log).toEqual([log[0], `says ${day.view().say}`]);
	expect(log[1]).not.toBe(log[0]);
});

test('Tab says the sentence again; hold is sounded and said; leaving hushes', async () => {
	const { log, type, left, day } = atTerminal();
	type('\t');
	expect(log).toEqual([log[0], log[0]]);
	type(' ');
	expect(log.slice(2)).toEqual(['plays held', `says ${day.view().say}`]);
	type('\u0003');
	await left;
	expect(log.slice(4)).toEqual(expect.arrayContaining(['hush', 'closed']));
});

test('an answer that the day does not take is sounded, except while a face is sprayed', () => {
	const log: string[] = [];
	const voice = openVoice({
		say() {},
		hush() {},
		notify() {},
		close() {},
		play: sound => log.push(sound),
		told: () => ({ warnEarly_min: 10, warnLate_min: 2, overdue: false }),
	});
	const { fake, session } = fakeSession(viewOf('number'));
	fake.answers = () => ({ accepted: false });
	const day = heard(session, voice);
	day.view();
	day.answer({ number: 900 });
	expect(log).toEqual(['refused']);
	fake.change(viewOf('spraying'));
	day.view();
	day.answer({ number: 900 });
	voice.again();
	expect(log).toEqual(['refused']);
});
