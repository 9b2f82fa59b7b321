import { airsThatCount } from './air-counts.ts';
import { type Day, elapsed, type Material } from './day.ts';
import { slices } from './drift.ts';
import { allOf, is, type Moment, type Note } from './notes.ts';
import { factorOf, hoursAt } from './points.ts';
import { type Pour, pours } from './pots.ts';

/** The earliest that the hardener can have gone in: its can was in the hand, and no level read since showed it still out. */
function hardenerFrom(day: Day, material: Material, batch: string, poured: Pour): Note {
	const before = day.notes.slice(0, poured.n).filter(note => 'batch' in note && note.batch === batch);
	const levelled = before.findLastIndex(note => is(note, 'batch.poured', 'batch.found'));
	const marks = day.cans.filter(can => can.material === material.id && can.component === 'hardener');
	const taken = allOf(before.slice(levelled + 1), 'reading.taken').find(
		({ feature, value, matched }) => feature === 'can' && matched && marks.some(({ mark }) => mark === value),
	);
	return taken ?? poured;
}

const hour_ms = 3_600_000;

/** How long paint lives at a temperature, h: by the points listed, else by the one time, which is one point. */
export const lifeAt = (material: Material, paintC: number): number =>
	hoursAt(material.clocks?.potLife ?? [material.potLife], paintC, 'end', factorOf(material));

/** A piece of time between two readings of the air, the second null where there was none yet. */
type Piece = { airC: number | null; thenC: number | null; ms: number };

/** Air temperatures from a moment on: one piece of time for each reading in force. */
function pieces(day: Day, from: Moment & { n: number }, to: Moment & { n: number }): Piece[] {
	const reads = airsThatCount(day.notes.slice(0, to.n));
	const first = reads.findLast(({ n }) => n < from.n);
	const later = reads.filter(({ n }) => n > from.n);
	const marks: (Moment & { airC: number | null })[] = [{ ...from, airC: first?.airC ?? null }, ...later];
	return marks.map((mark, i) => {
		const next = marks[i + 1];
		return { airC: mark.airC, thenC: next?.airC ?? null, ms: elapsed(mark, next ?? to).most };
	});
}

/** A pot warms itself, K: by one up to this size, by two beyond it; this project's own. */
const small_mL = 300;
/** The share of a life listed by points that a piece of time uses up, in the warmest air that it may have had. */
function usedIn(material: Material, { airC, thenC, ms }: Piece, own_K: number): number {
	const at_C = airC ?? thenC ?? material.potLife.at_C;
	const hours = ms / hour_ms;
	const parts = thenC === null ? slices(0, hours) : [{ long_h: hours, off_K: Math.max(0, thenC - at_C) }];
	return parts.reduce(
		(used, { long_h, off_K }) => used + (long_h > 0 ? long_h / lifeAt(material, at_C + own_K + off_K) : 0),
		0,
	);
}

/** The same of all of its time: by the paint's own temperature, where it was read at the flow cup, else by the air and what the pot warms itself. */
function usedByPoints(day: Day, material: Material, batch: string, all: Piece[], n: number): number {
	const read = allOf(day.notes.slice(0, n), 'cup.timed').findLast(
		timed => timed.batch === batch && timed.cup !== 'none' && typeof timed.tempC === 'number',
	);
	if (typeof read?.tempC === 'number')
		return all.reduce((sum, { ms }) => sum + ms, 0) / hour_ms / lifeAt(material, read.tempC);
	const made = allOf(day.notes, 'batch.started').find(started => started.batch === batch);
	const own_K = (made?.make_mL ?? 0) > small_mL ? 2 : 1;
	return all.reduce((used, piece) => used + usedIn(material, piece, own_K), 0);
}

/**
 * Share of its pot life that a batch has used up at a note: each piece of time counts by the life at the air
 * temperature read for it, by the points that the sheet lists or by its one time.
 */
export function lifeUsed(day: Day, material: Material, batch: string, at: Note): number {
	const poured = pours(day, batch, at.n).find(({ component }) => component === 'hardener');
	if (!poured) return 0;
	const all = pieces(day, hardenerFrom(day, material, batch, poured), at);
	if (material.clocks?.potLife) return usedByPoints(day, material, batch, all, at.n);
	return all.reduce(
		(used, { airC, ms }) =>
			used + (ms > 0 ? ms / hour_ms / lifeAt(material, airC ?? material.potLife.at_C) : 0),
		0,
	);
}
