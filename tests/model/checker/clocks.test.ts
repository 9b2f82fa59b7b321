import { describe, expect, test } from 'vitest';
import type { Bounds } from './clocks.ts';
import { finished } from './coats.ts';
import { dayOf, elapsed } from './day.ts';
import type { Raw } from './lines.ts';
import { is, type Note, readNotes } from './notes.ts';

/** Runs made by hand on a machine whose true time is known, read as notes: what its clocks leave between any two of them. */

const minute_ms = 60_000;

/** A machine beside the true time. `asleep`: how its uptime takes a sleep. */
function machine(asleep: 'counts' | 'stands still' | 'is not told') {
	const start = Date.parse('2027-03-02T08:00:00.000Z');
	const now = { truth: 0, wall: start, mono: 0, up: 600_000, run: 1 };
	const lines: { line: number; raw: Raw }[] = [];
	const truths: number[] = [];
	const note = (type: string, fields: Raw = {}) => {
		const line = lines.length + 1;
		const { run, mono } = now;
		const up = asleep === 'is not told' ? {} : { up: now.up };
		const at = new Date(now.wall).toISOString();
		lines.push({ line, raw: { seq: line, run, at, mono, ...up, type, ...fields } });
		truths.push(now.truth);
	};
	const acts = {
		runs(ms: number) {
			for (const clock of ['truth', 'wall', 'mono', 'up'] as const) now[clock] += ms;
		},
		sleeps(ms: number) {
			now.truth += ms;
			now.wall += ms;
			if (asleep === 'counts') now.up += ms;
		},
		/** Somebody else's machine stops this one, and puts its wall clock right. */
		isStopped(ms: number) {
			now.truth += ms;
			now.wall += ms;
		},
		isSet(ms: number) {
			now.wall += ms;
		},
		hasNoProgram(ms: number) {
			now.truth += ms;
			now.wall += ms;
			now.up += ms;
			now.run++;
			now.mono = 0;
		},
		isOff(ms: number) {
			acts.hasNoProgram(ms);
			now.up = Math.min(ms, 20_000);
		},
	};
	const breaks = () => note('break.began', { kind: 'clock', by: 'program' });
	const isBack = (jump?: string) => note('break.ended', { kind: 'clock', jump });
	const read = () => {
		const { notes, findings } = readNotes(lines);
		expect(findings).toEqual([]);
		return notes.map((one, n) => ({ one, truth: truths[n] ?? Number.NaN }));
	};
	/** A coat and its end; the share of it that is estimated, by the wall clock. */
	const starts = () => {
		const face = { face: 'left door/edges', coat: 1, cup: [], check: 1, air: 1, overrides: [] };
		note('face.started', { ...face, window: 'bare', from: 'start' });
	};
	const ends = () => {
		const [began, ended] = [lines.at(-1)?.raw.at, new Date(now.wall).toISOString()];
		note('face.ended', { face: 'left door/edges', coat: 1, extent: 'all', began, ended });
	};
	note('day.opened', { v: 2, sheet: {}, settings: {} });
	return { ...acts, note: () => note('wait.ended'), breaks, isBack, starts, ends, read };
}

test('a coat is never finished later than it was told to be, whatever the wall clock says of its share', () => {
	const finishedAt = (set_min: number) => {
		const made = machine('is not told');
		made.starts();
		made.runs(4 * minute_ms);
		made.isSet(set_min * minute_ms);
		made.ends();
		const notes = made.read().map(({ one }) => one);
		const [day, ended] = [dayOf(notes), notes.at(-1)];
		if (!day || !is(ended, 'face.ended')) throw new Error('no coat');
		return minutes(finished(day, ended).lapse);
	};
	expect(finishedAt(0)).toEqual([4, 4]);
	expect(finishedAt(60)).toEqual([4, 64]);
	expect(finishedAt(-60)).toEqual([4, 4]);
});

type Machine = ReturnType<typeof machine>;
type Read = { one: Note; truth: number };

const minutes = ({ least, most }: Bounds) => [least / minute_ms, most / minute_ms];

/** What the clocks leave of the last of a machine's notes since its first, minutes. */
function since(made: Machine): number[] {
	const notes = made.read();
	const [first, last] = [notes[0]?.one, notes.at(-1)?.one];
	if (!first || !last) throw new Error('no notes');
	return minutes(elapsed(first, last));
}

const told = (
	asleep: Parameters<typeof machine>[0],
	jump: string | undefined,
	...acts: ((m: Machine) => void)[]
) => {
	const made = machine(asleep);
	for (const act of acts) act(made);
	made.breaks();
	made.isBack(jump);
	return since(made);
};

const runs = (made: Machine) => made.runs(10 * minute_ms);
const sleeps = (made: Machine) => made.sleeps(60 * minute_ms);
const isSet = (step_min: number) => (made: Machine) => made.isSet(step_min * minute_ms);
const hasNoProgram = (made: Machine) => made.hasNoProgram(30 * minute_ms);
const isOff = (made: Machine) => made.isOff(30 * minute_ms);

describe('a wall clock that is right rules for both', () => {
	test.each(['counts', 'stands still', 'is not told'] as const)(
		'ten minutes of running; uptime in sleep %s',
		asleep => expect(told(asleep, undefined, runs)).toEqual([10, 10]),
	);

	test('an hour of sleep that the uptime tells of', () => {
		expect(told('counts', undefined, runs, sleeps)).toEqual([70, 70]);
	});

	test('the program killed and started again, the machine on, or off meanwhile', () => {
		expect(told('counts', undefined, runs, hasNoProgram)).toEqual([40, 40]);
		expect(told('counts', undefined, runs, isOff)).toEqual([40, 40]);
		expect(told('is not told', undefined, runs, hasNoProgram)).toEqual([40, 40]);
	});
});

describe('a wall clock that goes on by itself', () => {
	test('counts for a maximum and not for a minimum, asleep or set', () => {
		expect(told('stands still', undefined, runs, sleeps)).toEqual([10, 70]);
		expect(told('is not told', undefined, runs, isSet(60))).toEqual([10, 70]);
		expect(told('counts', undefined, runs, made => made.isStopped(60 * minute_ms))).toEqual([10, 70]);
	});

	test('counts as the painter says, and for both as it stands where nobody is sure', () => {
		expect(told('stands still', 'slept', runs, sleeps)).toEqual([70, 70]);
		expect(told('is not told', 'set', runs, isSet(60))).toEqual([10, 10]);
		expect(told('is not told', 'not-sure', runs, isSet(60))).toEqual([10, 70]);
	});

	test('while no program ran, on a machine that did', () => {
		expect(told('counts', undefined, runs, hasNoProgram, isSet(60)).map(Math.round)).toEqual([40, 100]);
		expect(told('counts', 'set', runs, hasNoProgram, isSet(60)).map(Math.round)).toEqual([40, 40]);
		expect(told('counts', 'slept', runs, hasNoProgram, isSet(60))).toEqual([100, 100]);
	});

	test('beside a sleep that the uptime tells of, only what is beyond it is open', () => {
		expect(told('counts', undefined, sleeps, isSet(30)).map(Math.round)).toEqual([60, 90]);
		expect(told('counts', 'set', sleeps, isSet(30)).map(Math.round)).toEqual([60, 60]);
	});
});

describe('a wall clock that was set back', () => {
	test('takes nothing from what the steady clock counts, nor from a sleep that the uptime tells of', () => {
		expect(told('is not told', undefined, runs, isSet(-60))).toEqual([10, 10]);
		expect(told('counts', undefined, sleeps, isSet(-45)).map(Math.round)).toEqual([60, 60]);
	});

	test('while no program ran: what the machine surely ran is over, and how much more nobody can tell', () => {
		const on = told('counts', undefined, runs, hasNoProgram, isSet(-60));
		expect(Math.round(on[0] ?? 0)).toBe(40);
		expect(on[1]).toBeGreaterThan(1e6);
		const off = told('is not told', 'set', runs, made => made.note(), isOff, isSet(-60));
		expect(off[0]).toBe(10);
		expect(off[1]).toBeGreaterThan(1e6);
	});

	test('by less than passed while the machine was off is seen by no clock', () => {
		expect(told('counts', undefined, runs, isOff, isSet(-20))).toEqual([20, 20]);
	});
});

describe('what the painter says of a jump', () => {
	test('holds for the break that it is said after, and for none before or behind it', () => {
		const made = machine('is not told');
		isSet(60)(made);
		made.breaks();
		made.isBack('not-sure');
		isSet(30)(made);
		made.breaks();
		made.breaks();
		made.isBack('set');
		isSet(15)(made);
		made.note();
		expect(since(made)).toEqual([0, 75]);
	});

	test('of a break that never began settles nothing', () => {
		const made = machine('is not told');
		isSet(60)(made);
		made.note();
		made.isBack('slept');
		expect(since(made)).toEqual([0, 60]);
	});
});

/** Every way to put `most` of these one after the other. */
function inTurn<T>(all: readonly T[], most: number): T[][] {
	if (most === 0) return [[]];
	return inTurn(all, most - 1).flatMap(turn => [
		turn,
		...(turn.length === most - 1 ? all.map(one => [...turn, one]) : []),
	]);
}

/** What a clock shows: a step back beside a sleep that no uptime tells, or by less than a machine was off, is left out. */
const happens = {
	runs,
	sleeps,
	'is stopped': (made: Machine) => made.isStopped(25 * minute_ms),
	'is set on': isSet(120),
	'is set back': isSet(-75),
	'has no program': hasNoProgram,
	'is off': isOff,
	'is off and set back': (made: Machine) => {
		isOff(made);
		isSet(-600)(made);
	},
};
const forward = { sleeps: 'slept', 'is stopped': 'slept', 'is set on': 'set' } as Record<string, string>;

/** Within a second for each sleep. */
const slack_ms = 4000;

const outside = (from: Read, to: Read) => {
	const { least, most } = elapsed(from.one, to.one);
	const truth = to.truth - from.truth;
	return truth < least - slack_ms || truth > most + slack_ms;
};

test.each(['counts', 'stands still', 'is not told'] as const)(
	'whatever comes after what, four times, the truth lies within what any two notes leave; uptime in sleep %s',
	asleep => {
		const names = Object.keys(happens) as (keyof typeof happens)[];
		const wrong = inTurn(names, 4).filter(turn => {
			const made = machine(asleep);
			for (const [nth, name] of turn.entries()) {
				happens[name](made);
				made.breaks();
				made.runs(minute_ms);
				made.isBack(nth % 2 === 0 ? forward[name] : 'not-sure');
			}
			const notes = made.read();
			return notes.some((to, n) => notes.slice(0, n).some(from => outside(from, to)));
		});
		expect(wrong).toEqual([]);
	},
);
