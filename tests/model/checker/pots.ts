import { type Day, elapsed, type Material } from './day.ts';
import { allOf, is, type Note, type NoteOf } from './notes.ts';

export type Pour = NoteOf<'batch.poured'> | NoteOf<'batch.found'>;

/** Levels read of a batch before note `n`; one that found nothing changed since the last adds nothing. */
export const pours = (day: Day, batch: string, n: number): Pour[] =>
	day.notes
		.slice(0, n)
		.filter((note): note is Pour => is(note, 'batch.poured', 'batch.found') && note.batch === batch)
		.filter(({ found }) => found !== 'before');

export const level = (pour: Pour) => pour.mass_g ?? pour.level_mL;

/** How much of each component went in, from the levels reached one after the other. */
function amounts(all: Pour[]): Record<string, number> {
	const sums: Record<string, number> = {};
	let before = 0;
	for (const pour of all) {
		const now = level(pour) ?? before;
		sums[pour.component] = (sums[pour.component] ?? 0) + now - before;
		before = now;
	}
	return sums;
}

function wrongCan(day: Day, material: Material, pour: Pour): string | null {
	if (!is(pour, 'batch.poured')) return null;
	const can = day.cans.find(({ mark }) => mark === pour.can);
	if (can && can.material === material.id && can.component === 'hardener') return null;
	return `its hardener came from can ${pour.can}, which holds ${can ? `${can.material} ${can.component}` : 'nothing known'}`;
}

/** Hardener beyond this share of what the base wants is never let be, nor base beyond it of what the hardener wants. */
const letBe = 0.05;

function wrongLevel(material: Material, all: Pour[], pour: Pour): string | null {
	if (level(pour) === undefined) return 'no level of its hardener was read';
	const { base = 0, hardener = 0 } = amounts(all);
	if (hardener <= 0) return 'its level never rose for the hardener';
	const own = (base * material.ratio.hardener) / material.ratio.base;
	return Math.abs(hardener - own) > letBe * Math.max(hardener, own) + 1e-6
		? `${hardener.toFixed(1)} of hardener went to ${base.toFixed(1)} of base`
		: null;
}

/** Too much hardener is made good by more base, read as right after it. */
function madeGood(all: Pour[], read: Pour): boolean {
	if (read.found === 'right') return true;
	const later = all.slice(all.indexOf(read) + 1);
	return (
		read.found === 'over' && later.some(({ component, found }) => component === 'base' && found === 'right')
	);
}

/** Nobody could say what it held, and there was more in it than base. */
function adrift(all: Pour[]): boolean {
	return all.some(
		({ found }, n) =>
			found === 'unknown' && all.slice(0, n + 1).some(({ component }) => component !== 'base'),
	);
}

/** What is wrong with the hardener of a batch as read before note `n`. */
export function hardenerFault(day: Day, material: Material, batch: string, n: number): string | null {
	const all = pours(day, batch, n);
	const ofHardener = all.filter(({ component }) => component === 'hardener');
	const read = ofHardener.at(-1);
	if (!read) return 'its hardener was never read';
	if (!madeGood(all, read)) return `its hardener was read as ${read.found}`;
	if (adrift(all)) return 'what it holds is unknown';
	const cans = ofHardener.flatMap(pour => wrongCan(day, material, pour) ?? []);
	return cans[0] ?? wrongLevel(material, all, read);
}

/** The last that was done to a pot before note `n`: something poured in, or read, or stirred. */
const lastTouched = (day: Day, batch: string, n: number): Note | undefined =>
	day.notes
		.slice(0, n)
		.findLast(note => is(note, 'batch.poured', 'batch.found', 'batch.stepped') && note.batch === batch);

/** No listed standing is shorter than its shortest point, however warm it was. */
export const leastStanding_min = ({ standing_min, clocks }: Material): number =>
	clocks?.standing ? Math.min(...clocks.standing.map(({ hours }) => hours * 60)) : standing_min;

/** Whether a batch of a material that must stand did not stand for that long after it was last poured into or stirred. */
export function standingFault(day: Day, material: Material, batch: string, n: number): string | null {
	if (material.standing_min === 0) return null;
	const stood = allOf(day.notes.slice(0, n), 'batch.stood').find(note => note.batch === batch);
	const from = stood && lastTouched(day, batch, stood.n);
	if (!stood || !from) return 'it did not stand';
	if (!pours(day, batch, stood.n).some(({ component }) => component === 'hardener'))
		return 'it stood without hardener';
	const { least } = elapsed(from, stood);
	return least + 1000 < leastStanding_min(material) * 60_000
		? `it stood ${(least / 60_000).toFixed(1)} min`
		: null;
}

/**
 * Whether a batch was not stirred between what went in last, or its standing, and the moment it was ready. The order in
 * the day's own sheet rules: one that ends without a stirring asks for none.
 */
export function stirringFault(day: Day, { order }: Material, batch: string, n: number): string | null {
	const working = ['base', 'hardener', 'reducer', 'accelerator', 'flattener', 'stand'];
	if (order.lastIndexOf('stir') < order.findLastIndex(step => working.includes(step))) return null;
	const own = day.notes.slice(0, n).filter(note => 'batch' in note && note.batch === batch);
	const worked = own.findLastIndex(
		note =>
			is(note, 'batch.poured', 'batch.stood') ||
			(is(note, 'batch.found') && note.found !== 'before' && note.found !== 'unknown'),
	);
	const isStirred = allOf(own.slice(worked + 1), 'batch.stepped').some(({ step }) => step === 'stir');
	return isStirred ? null : 'it was not stirred since it was poured last, or stood';
}
