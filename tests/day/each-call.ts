import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { readDay } from '../../src/day/file/read.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { allDead, type Fault, faultyPort } from './file/faulty.ts';
import { keptDay } from './kept-day.ts';

/** A disk that fails in any call of a day, whatever the day is at and whoever keys: nobody, that is. */

export const states = ['list', 'bench', 'mix', 'check', 'ready', 'spraying', 'wait', 'hold'] as const;
export type State = (typeof states)[number];

/** What comes without a key: time, a terminal that closes or a signal, a stop, a clock that is set, a trigger. */
export const happenings = ['wait 3 h', 'hangup', 'sleep 2 min', 'clock -1 h', 'trigger off'] as const;
export type Happening = (typeof happenings)[number];

const bare = (records: readonly DayRecord[]) => records.map(({ more: _, ...record }) => record);

/** A day that stands in a state, on a disk that can be made to fail from now on. */
function standing(folder: string, state: State, fault: Fault, lasting: boolean) {
	const path = join(folder, 'a.day.jsonl');
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
type Stood = ReturnType<typeof standing>;

/** The file is whole, holds all that was told to be there, and can be gone on with. */
function* harm({ day, read, path }: Stood): Generator<string> {
	const { records, damage } = read();
	if (damage) yield `the file is damaged in line ${damage.line}`;
	const known = bare(day.acknowledged);
	if (!isDeepStrictEqual(bare(records).slice(0, known.length), known))
		yield 'what was told to be kept is not there';
	for (const { line, property, says } of checkDayFile(readFileSync(path)))
		yield `line ${line}, property ${property}: ${says}`;
}

/** With the disk well again everything comes to it, and the file is the day as it stands. */
function* unhealed(stood: Stood): Generator<string> {
	stood.heal();
	stood.day.send('wait 6 s');
	if (stood.day.session().unkept()) yield 'with the disk well again something is not kept';
	if (!isDeepStrictEqual(bare(stood.read().records), bare(stood.day.acknowledged)))
		yield 'with the disk well again the file is not what was told';
	if (stood.day.session().state().book.last.seq !== stood.day.acknowledged.at(-1)?.seq)
		yield 'with the disk well again the day stands elsewhere than its file';
	yield* harm(stood);
}

/** A disk that stays bad: the day is held and says so, or goes on being sprayed. */
function* unheld(stood: Stood, state: State, happening: Happening): Generator<string> {
	if (stood.since().length === 0) return;
	if (!stood.day.session().unkept()) yield 'nothing is said to be wrong';
	const { value } = stood.day.session().state().machine;
	const wanted = happening === 'trigger off' && state === 'spraying' ? 'spraying' : 'hold';
	if (value !== wanted) yield `the day stands in ${String(value)}`;
	const { say } = stood.day.line();
	if (value === 'hold' && say !== 'Disk: it cannot be written. Nothing counts until it can.')
		yield `the screen says ${say}`;
}

export type Failed = { cases: number; says: string[] };

/**
 * Fails the calls of a day one after the other.
 * @param lasting from the call on every one fails, until the disk is made well
 * @param calls which of them, counted from when it stood there; left out, all there are and those of writing it anew
 */
export function failEachCall(state: State, happening: Happening, lasting: boolean, calls?: number): Failed {
	const failed: Failed = { cases: 0, says: [] };
	const folder = mkdtempSync(join(tmpdir(), 'fanwise-disk-'));
	const inFolder = (count: number) => mkdtempSync(join(folder, `${count}-`));
	try {
		const unharmed = standing(inFolder(0), state, 'fail', false);
		unharmed.day.send(happening);
		// A write that fails once is made good by writing the day anew: those calls can fail too.
		const most = calls ?? unharmed.since().length + 12;
		unharmed.day.close();
		for (let call = 1; call <= most; call++) {
			const stood = standing(inFolder(call), state, 'half-then-fail', lasting);
			stood.fail(call);
			stood.day.send(happening);
			const where = `${state}, ${happening}, ${lasting ? 'from ' : ''}call ${call} (${stood.since()[call - 1]})`;
			const tell = (says: Iterable<string>) => {
				for (const one of says) failed.says.push(`${where}: ${one}`);
			};
			tell(harm(stood));
			if (lasting && call === 1) tell(unheld(stood, state, happening));
			if (lasting) {
				stood.day.send('hangup');
				tell(harm(stood));
			}
			tell(unhealed(stood));
			stood.day.close();
			failed.cases++;
		}
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
	return failed;
}
