import type { Line } from '../../src/day/rehearsal.ts';
import type { DayState } from '../../src/day/state.ts';
import { given } from './habits.ts';
import type { Plan, Scheme } from './schemes.ts';

/** Causes of time and air: a coat too early or too late, a pot gone off, air that changed after it was read. */

const shows = (line: Line, code: string) => Object.values(line.corners).some(corner => corner.code === code);

/** The coat that the pass `where` lays, on its part or on all that get it then: told by the first such pass. */
function roundScheme({ cause, lots, count }: Plan): Scheme {
	const where = lots.below(count, 'where');
	const isEarly = cause.code === 'coat-too-early';
	const wide = lots.is(0.5, 'wide');
	const saysSo = isEarly && lots.is(given.saysSo, 'says');
	let round: { coat: number; part: string; until: number } | null = null;
	let keyed = false;
	let isDelayed = isEarly;
	return {
		begins(pass) {
			if (saysSo || !isDelayed || pass.coat === 1) return;
			if (!round && pass.nth >= where)
				round = { coat: pass.coat, part: pass.face.split('/')[0] ?? '', until: pass.nth + 6 };
			if (pass.coat !== round?.coat || pass.nth >= round.until) return;
			if (wide || pass.face.startsWith(`${round.part}/`)) pass.under = isEarly ? 'wet' : 'shut';
		},
		keys(line, { passes }) {
			if (saysSo && !keyed && passes.length >= Math.min(where, count - 6) && shows(line, 'sooner')) {
				keyed = true;
				return ['sooner', lots.pick(['test-piece', 'owner'], 'reason')];
			}
			if (isDelayed || passes.length < where || line.state !== 'ready' || (line.coat ?? 1) === 1) return null;
			isDelayed = true;
			const closes = line.timers.find(({ code, face }) => code === 'closes' && face === line.face);
			const away_s = Math.round((closes?.left_s ?? 0) * lots.between(0.2, 0.75, 'away'));
			return away_s < 60 || lots.is(0.4, 'at once') ? null : ['hold', `wait ${away_s} s`, 'back'];
		},
	};
}

const hour_ms = 3_600_000;

/** How old the newest batch of the cup is, of its life by the sheet. */
function age(state: DayState, { job }: Plan, now: number): { of: number; life_ms: number } | null {
	const letter = state.machine.context.cup.at(-1);
	const batch = letter === undefined ? undefined : state.book.batches.get(letter);
	const hours = batch && job.materials[batch.material]?.potLife.hours;
	if (!batch || hours === undefined) return null;
	const began = batch.hardened?.wall ?? now;
	return { of: (now - began) / (hours * hour_ms), life_ms: hours * hour_ms };
}

/** Longer away, and the gun would be flushed. */
const longest_min = 25;

/** The pot stood in the sun, or on a warm plate: it thickens before the clock says so. */
function oldScheme(plan: Plan): Scheme {
	const { lots, count } = plan;
	const where = lots.below(count, 'where');
	const until = lots.between(0.4, 0.7, 'age');
	let waited = false;
	let isGone = false;
	return {
		begins(pass, _bench, pots) {
			const pot = waited && !isGone ? pots.get(pass.letters.at(-1) ?? '') : undefined;
			if (!pot) return;
			pot.gone = true;
			isGone = true;
		},
		keys(line, { passes, state }) {
			if (waited || passes.length < where || line.state !== 'ready') return null;
			const old = age(state, plan, Date.parse(line.at));
			const away_min = old ? Math.round(((until - old.of) * old.life_ms) / 60_000) : longest_min + 1;
			if (away_min > longest_min) return null;
			waited = true;
			return away_min < 1 ? null : ['hold', `wait ${away_min} min`, 'back'];
		},
	};
}

/** How the air is by what is read of it, and what it comes to. */
const weather = {
	humid: { read: (share: number) => ({ humidity: 0.64 + 0.13 * share }), true: { humidity: 0.88 } },
	cold: { read: (share: number) => ({ C: 16.5 + 2.5 * share }), true: { C: 12 } },
	warm: { read: (share: number) => ({ C: 30 + 4 * share }), true: { C: 38 } },
} as const;

/** Read inside the limits, then it changes; or read outside them, and sprayed with a reason. */
function airScheme({ cause, lots, count, believed }: Plan): Scheme {
	const form = cause.form === 'humid' || cause.form === 'cold' ? cause.form : 'warm';
	const { read, true: really } = weather[form];
	const saysSo = lots.is(given.saysSo, 'says');
	const where = saysSo ? 0 : lots.below(count, 'where');
	const { air } = believed;
	Object.assign(air, saysSo ? really : read(lots.at('read')));
	air.surface_C = Math.round(form === 'humid' ? air.C + 1 : air.C);
	return {
		begins(pass, bench) {
			if (pass.nth >= where) Object.assign(bench.air, really);
		},
		keys(line) {
			if (line.state === 'air.no') return ['go-on', lots.pick(['owner', 'test-piece'], 'reason')];
			return null;
		},
	};
}

export function betweenScheme(plan: Plan): Scheme | null {
	switch (plan.cause.code) {
		case 'coat-too-early':
		case 'window-missed':
			return roundScheme(plan);
		case 'batch-too-old':
			return oldScheme(plan);
		case 'air-out-of-limits':
			return airScheme(plan);
		default:
			return null;
	}
}
