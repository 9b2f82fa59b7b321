import type { Day } from './day.ts';
import { is, type Note } from './notes.ts';

/** What ended the knowledge of the gun: where, the size of check it asks for, and the property that says so. */
export type Cause = { n: number; size: 'full' | 'short'; property: 1 | 4; why: string };

const full = (n: number, property: 1 | 4, why: string): Cause => ({ n, size: 'full', property, why });
const short = (n: number, why: string): Cause => ({ n, size: 'short', property: 4, why });

const breaks = ['break', 'wait', 'restart', 'late'];
const planned = ['cap-turn', 'knob', 'refill', 'age'];

/** Whether the two clocks of a run parted between two notes: a break of which nobody was told. */
function clocksParted(day: Day, before: Note, note: Note): boolean {
	if (before.run !== note.run) return false;
	const limit_ms = day.limits.clockSlip_s * 1000;
	const steady = note.mono - before.mono;
	const slept = before.up === null || note.up === null ? 0 : note.up - before.up - steady;
	return Math.max(slept, Math.abs(note.t - before.t - steady)) > limit_ms + steady * 0.001;
}

/** The gun as its settings were last keyed, and the batches in it. */
type Gun = { set: Map<string, unknown>; cup: Set<string> };

function touched(note: Extract<Note, { type: 'gun.set' }>, gun: Gun): string | null {
	let why: string | null = null;
	for (const key of ['fluid', 'fanHeight_mm', 'pressure_kPa', 'horns'] as const) {
		const [now, was] = [note[key], gun.set.get(key)];
		if (now === null || now === was) continue;
		gun.set.set(key, now);
		why = key === 'horns' ? 'the cap turned' : `a knob (${key}) moved`;
	}
	return why;
}

function loaded(note: Extract<Note, { type: 'batch.loaded' }>, gun: Gun): Cause {
	const same = gun.cup.has(note.batch);
	gun.cup.add(note.batch);
	return same
		? short(note.n, `a refill from ${note.batch}`)
		: full(note.n, 4, `batch ${note.batch} in the cup`);
}

function causeOf(day: Day, note: Note, gun: Gun): Cause | null {
	const before = day.notes[note.n - 1];
	if (!before) return full(note.n, 1, 'the day begins');
	if (note.run > before.run) return full(note.n, 1, 'the program started again');
	if (is(note, 'break.began', 'break.ended')) return full(note.n, 1, `a break (${note.kind})`);
	if (is(note, 'wait.began')) return full(note.n, 1, 'a wait');
	if (is(note, 'face.late')) return full(note.n, 1, `${note.face} ran late`);
	if (clocksParted(day, before, note)) return full(note.n, 1, 'the clocks parted');
	if (is(note, 'batch.loaded')) return loaded(note, gun);
	if (is(note, 'cup.emptied')) return short(note.n, 'the cup emptied');
	if (is(note, 'fault.seen')) return note.gun === true ? full(note.n, 4, 'a gun fault') : null;
	if (is(note, 'gun.unknown')) {
		if (planned.includes(note.why)) return short(note.n, note.why);
		return full(note.n, breaks.includes(note.why) ? 1 : 4, note.why);
	}
	const turned = is(note, 'gun.set') ? touched(note, gun) : null;
	return turned ? short(note.n, turned) : null;
}

/**
 * Every cause in a day, in order. `gun.unknown` is believed where it stands, and what it should have said is
 * worked out from the other records where it is missing.
 */
export function causesOf(day: Day): Cause[] {
	const gun: Gun = { set: new Map(), cup: new Set() };
	const causes: Cause[] = [];
	for (const note of day.notes) {
		const cause = causeOf(day, note, gun);
		if (cause) causes.push(cause);
		if (is(note, 'gun.checked')) {
			gun.cup = new Set(note.cup);
			gun.set.set('horns', note.horns);
		}
	}
	return causes;
}
