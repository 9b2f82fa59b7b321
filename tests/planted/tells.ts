import type { DayRecord } from '../../src/day/records.ts';
import { type Cause, type Spot, spotKey } from './causes.ts';

/**
 * Whether a record of the day says a cause: a reading that differed while it was there or as it ended, a measure outside its
 * limits, a reason keyed for it. What merely hints at it (a break before it, a number at its edge, a long wait) says nothing.
 */

type Window = { from: number; until: number };

const spots = (extent: readonly Spot[]) => new Set(extent.map(spotKey));

/** From the gun check before the first pass of it to the one after the last. */
function gunWindow(records: readonly DayRecord[], own: ReadonlySet<string>): Window {
	const starts = records.filter(one => one.type === 'face.started' && own.has(spotKey(one)));
	const first = starts[0]?.seq ?? 0;
	const last = starts.at(-1)?.seq ?? 0;
	const checks = records.filter(({ type }) => type === 'gun.checked').map(({ seq }) => seq);
	const before = checks.filter(seq => seq < first).at(-2) ?? 0;
	const after = checks.find(seq => seq > last) ?? Number.POSITIVE_INFINITY;
	return { from: before, until: after };
}

const lettersOf = (records: readonly DayRecord[], own: ReadonlySet<string>): Set<string> =>
	new Set(records.flatMap(one => (one.type === 'face.started' && own.has(spotKey(one)) ? one.cup : [])));

const features: Partial<Record<Cause['code'], readonly string[]>> = {
	'fan-along-stroke': ['pattern', 'card', 'horns'],
	'bad-pattern': ['pattern', 'card', 'flooded'],
	'pressure-off': ['gauge'],
};

type Says = (record: DayRecord, letters: ReadonlySet<string>, own: ReadonlySet<string>) => boolean;

/** A mark that was not the one asked for. */
const canSays: Says = (record, letters) =>
	record.type === 'reading.taken' &&
	record.feature === 'can' &&
	!record.matched &&
	letters.has(record.batch ?? '');

const pourSays: Says = (record, letters) =>
	record.type === 'batch.poured' && record.found !== 'right' && letters.has(record.batch);

/** Seconds beyond those wanted, or a pot used in spite of them. */
const cupSays: Says = (record, letters) =>
	(record.type === 'cup.timed' && !record.fits && letters.has(record.batch)) ||
	(record.type === 'override.given' && record.rule === 'cup' && letters.has(record.batch ?? ''));

const airSays: Says = record =>
	(record.type === 'air.read' && !record.spray) ||
	(record.type === 'override.given' && record.rule === 'air');

const overridden =
	(...rules: string[]): Says =>
	(record, _letters, own) =>
		record.type === 'override.given' &&
		rules.includes(record.rule) &&
		own.has(spotKey({ face: record.face ?? '', coat: record.coat ?? 0 }));

const touchSays: Says = (record, letters, own) =>
	overridden('window', 'touch')(record, letters, own) ||
	(record.type === 'reading.taken' &&
		record.feature === 'touch' &&
		!record.matched &&
		(record.faces ?? []).some(face => own.has(spotKey({ face, coat: record.coat ?? 0 }))));

/** The tab of a coat of it pulled strings: told before the coat that goes over it. */
const tabSays: Says = (record, _letters, own) =>
	record.type === 'reading.taken' &&
	record.feature === 'touch' &&
	!record.matched &&
	(record.faces ?? []).some(face => own.has(spotKey({ face, coat: (record.coat ?? 0) - 1 })));

/** A film read on a face of it, whatever it read; or what was told of a face broken off. */
const filmSays: Says = (record, _letters, own) =>
	(record.type === 'film.read' || (record.type === 'face.ended' && record.extent !== 'all')) &&
	own.has(spotKey(record));

const gunSays =
	(code: Cause['code']): Says =>
	record =>
		(record.type === 'reading.taken' && !record.matched && (features[code] ?? []).includes(record.feature)) ||
		(record.type === 'fault.seen' && record.gun === true);

const anyOf =
	(...all: Says[]): Says =>
	(...seen) =>
		all.some(says => says(...seen));

function saysOf({ code }: Cause): { says: Says; isOfGun?: true } {
	switch (code) {
		case 'fan-along-stroke':
		case 'bad-pattern':
		case 'pressure-off':
			return { says: gunSays(code), isOfGun: true };
		case 'air-out-of-limits':
			return { says: airSays };
		case 'coat-too-early':
		case 'window-missed':
			return { says: touchSays };
		case 'surface':
			return { says: overridden('prep') };
		case 'film-too-heavy':
		case 'film-too-light':
		case 'face-missed':
		case 'too-many-coats':
			return { says: filmSays };
		case 'dirt-in-paint':
		case 'air-line':
			return { says: gunSays(code), isOfGun: true };
		case 'handling':
			return { says: record => record.type === 'fault.seen' && record.fault === 'hose' };
		case 'no-hardener':
		case 'wrong-ratio':
			return { says: anyOf(pourSays, cupSays, tabSays) };
		case 'wrong-can':
			return { says: canSays };
		case 'viscosity-off':
			return { says: cupSays };
		default:
			return { says: () => false };
	}
}

/** `seq` of the first record that says it; null: none does. */
export function recordThatSays(
	cause: Cause,
	extent: readonly Spot[],
	records: readonly DayRecord[],
): number | null {
	const own = spots(extent);
	const letters = lettersOf(records, own);
	const { says, isOfGun } = saysOf(cause);
	const { from, until } = isOfGun ? gunWindow(records, own) : { from: 0, until: Number.POSITIVE_INFINITY };
	return records.find(one => one.seq > from && one.seq <= until && says(one, letters, own))?.seq ?? null;
}
