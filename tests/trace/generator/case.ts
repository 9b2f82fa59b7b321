import type { DayEvent, DayRecord } from '../../../src/day/records.ts';
import { runDay, world } from './day.ts';
import { type Plant, plant } from './plants.ts';
import { type Random, random } from './random.ts';
import { sheet } from './sheet.ts';
import { tells } from './tells.ts';
import { delay, faultsOf, type Sprayed, seenOnNext, wrong } from './truth.ts';
import type { World } from './world.ts';
import { insert, writer } from './writer.ts';

/** One invented job with one true cause: what is asked, and, kept beside, what is so. */
export type Case = {
	seed: number;
	days: DayRecord[][];
	cause: string;
	variant: string;
	fault: string;
	face: string;
	coat: number;
	affected: { face: string; coat: number }[];
	tells: boolean;
};

const hour = 3600_000;

/** First moment at or after `ms` at which nobody is spraying. */
function quiet(records: DayRecord[], ms: number): number {
	let open = 0;
	let free = true;
	for (const record of records) {
		const at = Date.parse(record.at);
		if (at > ms && free) return ms;
		if (record.type === 'face.started') [free, open] = [false, at];
		if (record.type === 'face.ended') {
			free = true;
			if (at >= ms && open <= ms) return at;
		}
	}
	return ms;
}

type Sight = { day: number; at: number; event: DayEvent & { type: 'fault.seen' } };

function sights(w: World, days: DayRecord[][], fault: string, affected: Sprayed[], rng: Random): Sight[] {
	const found: Sight[] = [];
	for (const [nth, one] of affected.entries()) {
		if (nth > 0 && !rng.chance(0.5)) continue;
		const [from, to] = delay(fault);
		const shown = one.ended + rng.between(from, to) * 60_000 + rng.between(0, 10) * 60_000;
		const next = w.sprayed.find(
			other => other.face === one.face && other.coat === one.coat + 1 && other.ended < shown,
		);
		const coat = seenOnNext.has(fault) && next ? next.coat : one.coat;
		let day = one.day;
		let at = shown;
		for (const [later, records] of days.entries()) {
			const opens = Date.parse(records[0]?.at ?? '');
			if (later > one.day && opens <= shown) day = later;
		}
		const records = days[day] ?? [];
		const closed = Date.parse(records.findLast(record => record.type === 'day.closed')?.at ?? '');
		at = shown > closed ? Math.max(shown, closed + 9 * hour) : quiet(records, shown);
		found.push({ day, at, event: { type: 'fault.seen', fault, face: one.face, coat } });
	}
	return found;
}

const isPull = ({ type }: DayRecord): boolean => type === 'trigger.on' || type === 'trigger.off';

/** Times of faces that went by in one stretch: one key began it, one ended it. */
function stretches(records: DayRecord[]): DayRecord[] {
	const out: DayRecord[] = [];
	let run: DayRecord[] = [];
	const close = () => {
		const starts = run.filter(record => record.type === 'face.started');
		const pulls = run.filter(isPull);
		const rest = run.filter(record => record.type !== 'face.started' && !isPull(record));
		const first = starts[0];
		const last = rest.findLast(record => record.type === 'face.ended');
		if (starts.length < 2 || !first || !last) out.push(...run);
		else {
			const begin = Date.parse(first.at);
			const length = Date.parse(last.at) - begin;
			const whole = starts.reduce((sum, { spray_s }) => sum + spray_s, 0);
			out.push(...starts.map(record => ({ ...record, at: first.at, mono: first.mono })), ...pulls);
			let used = 0;
			const shares = new Map(
				starts.map(({ face, spray_s }) => {
					const from = begin + (length * used) / whole;
					used += spray_s;
					return [face, [from, begin + (length * used) / whole] as const];
				}),
			);
			for (const record of rest) {
				const share = record.type === 'face.ended' ? shares.get(record.face) : undefined;
				const moved = { ...record, at: last.at, mono: last.mono };
				out.push(
					share && moved.type === 'face.ended'
						? {
								...moved,
								estimated: true,
								began: new Date(share[0]).toISOString(),
								ended: new Date(share[1]).toISOString(),
							}
						: moved,
				);
			}
		}
		run = [];
	};
	for (const record of records) {
		const part =
			record.type === 'face.started' ||
			record.type === 'face.ended' ||
			record.type === 'window.set' ||
			isPull(record);
		const starts = run.filter(one => one.type === 'face.started').length;
		if (!part || (record.type === 'face.started' && starts >= 4)) close();
		if (part) run.push(record);
		else out.push(record);
	}
	close();
	return out.map((record, at) => ({ ...record, seq: at + 1 }));
}

function unmask(w: World, records: DayRecord[], chosen: Plant): { at: number; event: DayEvent }[] {
	const closed = Date.parse(records[records.length - 1]?.at ?? '');
	const mine = w.job.faces[chosen.index]?.part;
	const other = w.random.pick(w.job.faces).part;
	return w.job.faces.map((face, nth) => {
		const late = (chosen.unmask === 'late' && face.part === mine) || (face.part === other && other !== mine);
		return {
			at: closed + (late ? 40 * hour : 2 * hour) + nth * 20_000,
			event: { type: 'stage.done', face: face.id, stage: 'unmask', grit: null },
		};
	});
}

function attempt(seed: number): Case | null {
	const rng = random(seed);
	const job = sheet(rng);
	const topcoats = job.faces[0]?.coats.filter(coat => coat.stage === 2).length ?? 2;
	const primer = (job.faces[0]?.coats.length ?? 0) > topcoats;
	const chosen = plant(rng, job.faces.length, topcoats, primer);
	const start = Date.UTC(2027, 2, 2, 7, 0, 0) + rng.whole(0, 200) * 24 * hour;
	const w = world(rng, job, start);
	const days: DayRecord[][] = [];
	if (primer) {
		days.push(runDay(w, 0, chosen.stage === 'primer' ? chosen : null));
		w.day = 1;
		w.w = writer(start + 48 * hour);
		w.air = { airC: 21, humidity: 0.55, surfaceC: 20 };
	}
	days.push(runDay(w, 2, chosen.stage === 'topcoat' ? chosen : null));
	const hurt = w.sprayed.filter(one => wrong(one.hidden).includes(chosen.cause));
	if (chosen.unmask) {
		const part = job.faces[chosen.index]?.part;
		const last = Math.max(...w.sprayed.map(one => one.coat));
		hurt.push(...w.sprayed.filter(one => one.face.startsWith(`${part}/`) && one.coat === last));
	}
	const first = hurt[0];
	const clean = w.sprayed.every(one => wrong(one.hidden).every(code => code === chosen.cause));
	if (!first || !clean) return null;
	const attitude = (id: string) => job.faces.find(face => face.id === id)?.attitude ?? 'upright';
	const fault = rng.pick(faultsOf(chosen.cause, first.hidden, attitude(first.face)));
	const affected = hurt.filter(one => faultsOf(chosen.cause, one.hidden, attitude(one.face)).includes(fault));
	const seen = sights(w, days, fault, affected, rng).sort((a, b) => a.at - b.at);
	const asked = seen[0];
	if (!asked?.event.face || !asked.event.coat) return null;
	const stretched = rng.chance(0.12);
	const whole = days.map((records, day) => {
		const late = seen.filter(sight => sight.day === day);
		const masks = chosen.unmask && day === days.length - 1 ? unmask(w, records, chosen) : [];
		const base = stretched ? stretches(records) : records;
		return insert(base, [...late, ...masks]);
	});
	const told = tells(whole.flat(), chosen, hurt, Math.max(...seen.map(sight => sight.at)));
	return {
		seed,
		days: whole,
		cause: chosen.cause,
		variant: chosen.variant,
		fault,
		face: asked.event.face,
		coat: asked.event.coat,
		affected: affected.map(({ face, coat }) => ({ face, coat })),
		tells: told,
	};
}

/** The case of a seed; where chance has made no harm, or more than one, it is tried again from the next. */
export function makeCase(seed: number): Case {
	for (let nth = 0; nth < 200; nth++) {
		const made = attempt(seed * 1000 + nth);
		if (made) return { ...made, seed };
	}
	throw new Error(`no case from seed ${seed}`);
}
