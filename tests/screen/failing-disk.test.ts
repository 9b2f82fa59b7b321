import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Clock } from '../../src/day/clock.ts';
import { type Processes, processesOn } from '../../src/day/file/lock.ts';
import { disk, type FilePort } from '../../src/day/file/port.ts';
import { readDay } from '../../src/day/file/read.ts';
import { createDay, openDay } from '../../src/day/file/store.ts';
import { noHistory } from '../../src/day/history.ts';
import { openingRecord } from '../../src/day/open.ts';
import { openSession } from '../../src/day/session.ts';
import { settingsSchema } from '../../src/day/settings.ts';
import type { Corner } from '../../src/day/view.ts';
import { painterOf } from '../../src/painter/painter.ts';
import { runScreen } from '../../src/screen/run.ts';
import { portOf } from '../../src/screen/session-port.ts';
import { setupOf } from '../../src/screen/show-day.ts';
import { allDead } from '../day/file/faulty.ts';
import { newPlace } from '../day/file/place.ts';
import { start } from '../day/rehearsed.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { fakeTerminal } from './harness.ts';

/** A disk that can be full, for everything that is written to it. */
function fullable() {
	const state = { code: null as string | null };
	const unless =
		<Given extends unknown[], Found>(call: (...given: Given) => Found) =>
		(...given: Given): Found => {
			if (state.code) throw Object.assign(new Error(state.code), { code: state.code });
			return call(...given);
		};
	const { write, open, link, rename } = disk;
	const calls = { write: unless(write), open: unless(open), link: unless(link), rename: unless(rename) };
	const port: FilePort = { ...disk, sync: () => {}, syncFolder: () => {}, ...calls };
	return { port, state };
}

/** A small day on a screen, in a file of its own on such a disk; its clocks go as the terminal's does. */
function onScreen(size = { columns: 80, rows: 24 }, processes: Processes = allDead) {
	const folder = newPlace();
	const path = join(folder, 'a-name-as-long-as-that-of-a-day-in-a-home-of-somebody.day.jsonl');
	const job = smallJob();
	const settings = settingsSchema.parse({});
	const opening = { job, lists: smallLists(), settings, clock: 'real' as const, program: '0.0.0' };
	const { port, state } = fullable();
	const terminal = fakeTerminal(size);
	const wall = () => start + terminal.clock.mono();
	let callOff = () => {};
	const clock: Clock = {
		now: () => ({ wall: wall(), mono: terminal.clock.mono() }),
		wakeAt(at, wake) {
			callOff();
			callOff = at === null ? () => {} : terminal.clock.after(Math.max(0, at - wall()), wake);
		},
	};
	const first = openingRecord({ ...opening, before: noHistory, zone: 'UTC' }, clock.now());
	const sink = createDay(path, first, { port, processes });
	const session = openSession({ sink, clock, rehearsal: false });
	const ending = runScreen(
		{ ...terminal.ports, session: portOf(session) },
		setupOf(settings, { LANG: 'C.UTF-8' }),
	);
	const painter = painterOf(job, session.state);
	/** The painter answers, past the screen, until the day stands in a state; the screen is drawn once it does. */
	const until = (wanted: string) => {
		for (let count = 0; count < 300; count++) {
			if (session.state().machine.value === wanted) return terminal.clock.pass(6000);
			const { rehearsal: _, ...view } = session.view();
			const given = painter.answer({ ...view, events: [], accepted: true }) ?? 'hold';
			const [word = '', value] = given.split(' ');
			if (word === 'wait') terminal.clock.pass(Number(value) * 1000);
			else if (word === 'number') session.answer({ number: Number(value) });
			else session.answer({ key: word.replace(/-(.)/, (_all, letter) => letter.toUpperCase()) as Corner });
		}
		throw new Error(`never came to ${wanted}`);
	};
	return { ...terminal, disk: state, session, ending, until, path, read: () => readDay(readFileSync(path)) };
}

const sizes = [
	{ columns: 80, rows: 24 },
	{ columns: 120, rows: 40 },
	{ columns: 40, rows: 12 },
];

test.each(sizes)(
	'a full disk is said in words that matter at $columns x $rows, until it is well',
	async size => {
		const day = onScreen(size);
		day.until('mix');
		day.disk.code = 'ENOSPC';
		await day.type(' ');
		for (const wait_ms of [0, 5000, 60_000]) {
			day.clock.pass(wait_ms);
			const shown = (await day.shown()).replace(/[\s│▌▐]+/g, ' ');
			expect(shown).toContain('Disk full: nothing counts until there is room.');
			if (size.columns >= 80) expect(shown).toContain('Free some room on it.');
			expect(day.screen.reversed()).toBe(true);
		}
		expect(day.read().records.at(-1)?.type).not.toBe('break.began');
		day.disk.code = null;
		day.clock.pass(11_000);
		expect(await day.shown()).toContain('Held. Away');
		expect(await day.shown()).not.toContain('Disk');
		expect(day.read().records.at(-1)).toMatchObject({ type: 'break.began', kind: 'hold', by: 'painter' });
	},
);

test('what falls due on a full disk holds the day; nothing of it is lost once there is room', async () => {
	const day = onScreen();
	day.until('wait');
	day.disk.code = 'ENOSPC';
	day.clock.stall(3 * 3_600_000);
	day.clock.pass(5000);
	expect(await day.shown()).toContain('Disk full: nothing counts');
	day.disk.code = null;
	day.clock.pass(11_000);
	/** A recoat window may have moved in the hold. */
	const last = day.read().records.findLast(({ type }) => type !== 'window.moved');
	expect(last).toMatchObject({ type: 'break.began', kind: 'hold', by: 'program' });
	expect(day.session.unkept()).toBeNull();
});

test('while a face is sprayed nothing is said of the disk; the key that ends it is not taken, and the day is held', async () => {
	const day = onScreen();
	day.until('spraying');
	day.disk.code = 'ENOSPC';
	day.clock.pass(200_000);
	expect(await day.shown()).not.toContain('Disk');
	expect(day.session.view().ask).toBe('spraying');
	await day.type('e');
	day.clock.pass(100);
	expect(await day.shown()).toContain('Disk full: nothing counts');
	day.disk.code = null;
	day.clock.pass(11_000);
	expect(await day.shown()).toContain('was being sprayed');
	expect(
		day
			.read()
			.records.map(({ type }) => type)
			.slice(-4),
	).toContain('face.late');
});

test('breathing air that is lost on a full disk is shown as ever: leave', async () => {
	const day = onScreen();
	day.until('mix');
	day.disk.code = 'EIO';
	await day.type(' ');
	const press = (code: string) => {
		const [corner] = Object.entries(day.session.view().corners).find(([, one]) => one.code === code) ?? [];
		if (corner) day.session.answer({ key: corner as Corner });
	};
	press('trouble');
	press('air-lost');
	day.clock.pass(6000);
	expect(await day.shown()).toContain('Breathing air off: leave now. Mask on until you are outside.');
	expect(await day.shown()).not.toContain('Disk');
	day.disk.code = null;
	day.clock.pass(11_000);
	expect(day.read().records.at(-1)).toMatchObject({ type: 'break.began', kind: 'air-lost' });
});

const states = ['list', 'mix', 'check', 'ready', 'spraying', 'wait', 'hold'];
const signals = ['SIGHUP', 'SIGINT', 'SIGQUIT', 'SIGTERM'] as const;

test.each(states)(
	'in %s, a signal, a stop or Ctrl-C on a disk that fails leaves the terminal well and the file whole',
	async state => {
		for (const how of [...signals, 'Ctrl-C', 'the terminal goes', 'stopped'] as const) {
			const day = onScreen();
			if (state === 'hold') {
				day.until('mix');
				day.session.break('suspend');
			}
			day.until(state);
			const before = day.read().records;
			day.disk.code = 'EIO';
			if (how === 'stopped') {
				day.signals.emit('SIGTSTP');
				day.signals.emit('SIGCONT');
				expect(await day.shown(), state).toContain('Disk fails: nothing counts until it is well.');
				await day.type('\u0003');
			} else if (how === 'Ctrl-C') await day.type('\u0003');
			else if (how === 'the terminal goes') day.stdin.emit('end');
			else day.signals.emit(how);
			const { status } = await day.ending;
			expect(status === 0, `${state}, ${how}`).toBe(how === 'Ctrl-C' || how === 'stopped');
			expect(day.stdin.raw).toBe(false);
			expect(day.read()).toMatchObject({ damage: null });
			expect(day.read().records.slice(0, before.length)).toEqual(before);
			expect(day.session.unkept()).not.toBeNull();
		}
	},
);

test('a lock that another program has taken holds the day and is said; what that one wrote is not written over', async () => {
	const day = onScreen(undefined, processesOn(process.platform));
	day.until('mix');
	rmSync(`${day.path}.lock`);
	const other = openDay(day.path);
	const last = other.records.at(-1);
	if (!last) throw new Error('there is no record');
	other.append([
		{ type: 'break.began', kind: 'restart', by: 'program', seq: last.seq + 1, run: 2, at: last.at, mono: 0 },
	]);
	await day.type(' ');
	expect(await day.shown()).toContain('Day: another program has it. Nothing counts here.');
	const theirs = readFileSync(day.path);
	other.close();
	day.clock.pass(11_000);
	const shown = (await day.shown()).replace(/[\s│▌▐]+/g, ' ');
	expect(shown).toContain('Day: another program went on with it. Nothing counts here.');
	expect(shown).toContain('Leave here, and open it again.');
	expect(readFileSync(day.path)).toEqual(theirs);
});
