import type { DayRecord } from '../../src/day/records.ts';
import { type Cause, type Spot, spotKey } from './causes.ts';
import type { PlantedDay } from './day.ts';
import { given } from './habits.ts';
import { recordThatSays } from './tells.ts';

/** How likely the records of a day are under a cause, by this room's own habits: what the ceiling weighs beside the marks. */

const within = (value: number, low: number, high: number): number =>
	value >= low - 0.51 && value <= high + 0.51 ? 1 / (high - low) : 1e-4;

/** The air as it was read first: how likely under a cause. */
export function airLikely(records: readonly DayRecord[], { code, form }: Cause): number {
	const read = records.find(one => one.type === 'air.read');
	if (!read) return 1;
	const percent = 100 * read.humidity;
	const usual = within(percent, 38, 68);
	const mild = within(read.airC, 17, 26);
	if (code !== 'air-out-of-limits') return usual * mild;
	const said = (isSaid: boolean, silent: number) =>
		given.saysSo * (isSaid ? 1 : 1e-4) + (1 - given.saysSo) * silent;
	if (form === 'humid') return mild * said(percent > 85, within(percent, 64, 77));
	return (
		usual *
		(form === 'cold'
			? said(read.airC < 14, within(read.airC, 16.5, 19))
			: said(read.airC > 36, within(read.airC, 30, 34)))
	);
}

/** Numbers keyed at their edge: only somebody who half sees what is wrong keys them. */
export function edgesLikely(records: readonly DayRecord[], { code, form }: Cause): number {
	const gauge = records.flatMap(one =>
		one.type === 'reading.taken' && one.feature === 'gauge' && one.matched
			? [Number(one.value) / Number(one.wanted) - 1]
			: [],
	);
	const cups = records.flatMap(one =>
		one.type === 'cup.timed' && one.fits && one.seconds > 0 ? [one.seconds] : [],
	);
	const isOff = gauge.some(share => Math.abs(share) > 0.046);
	const isLow = gauge.some(share => share < -0.046);
	const isEdge = cups.some(
		seconds =>
			seconds === 18 ||
			seconds === 20 ||
			seconds === 28 ||
			(seconds === 24 && cups.length > 0 && !cups.includes(25)),
	);
	const ofGauge =
		code === 'pressure-off' ? (isOff ? (isLow === (form === 'low') ? 0.4 : 1e-3) : 0.6) : isOff ? 1e-3 : 1;
	const isThin = code === 'viscosity-off' || form.startsWith('reducer');
	const ofCup = isThin && code !== 'wrong-can' ? (isEdge ? 0.25 : 0.75) : isEdge ? 0.15 : 0.85;
	return ofGauge * ofCup;
}

/** Film read on marked faces, of what the sheet wants. */
export function filmLikely(
	{ records, passes }: PlantedDay,
	cause: Cause,
	own: ReadonlySet<string>,
	wanted: (spot: Spot) => number,
): number {
	let likely = 1;
	for (const one of records) {
		if (
			one.type !== 'film.read' ||
			one.dry_um === undefined ||
			!passes.some(pass => spotKey(pass) === spotKey(one))
		)
			continue;
		const share = one.dry_um / wanted(one);
		const [low, high] = (own.has(spotKey(one)) && films[cause.code]) || [0.92, 1.08];
		likely *= share >= low * 0.9 && share <= high * 1.1 + 0.01 ? 1 / (high - low + 0.1) : 1e-4;
	}
	return likely;
}

const films: Partial<Record<Cause['code'], readonly [number, number]>> = {
	'film-too-heavy': [1.24, 2.05],
	'film-too-light': [0.37, 0.76],
	'face-missed': [0, 0.02],
	'too-many-coats': [1.84, 2.16],
};

/** How often a record says it where it is so, and where it is not (readings misread, wet tabs). This file's own estimate. */
const saying: Readonly<Record<string, readonly [there: number, not: number]>> = {
	'fan-along-stroke': [0.4, 0.08],
	'bad-pattern': [0.5, 0.02],
	'pressure-off': [0.5, 0.005],
	'no-hardener': [0.4, 0.03],
	'wrong-can': [0.5, 0.002],
	'viscosity-off': [0.5, 0.01],
	'wrong-ratio reducer short': [0.5, 0.01],
	'wrong-ratio reducer over': [0.5, 0.01],
	'wrong-ratio hardener short': [0.4, 0.03],
	'dirt-in-paint': [0.5, 0.01],
	'air-line': [0.5, 0.01],
	'coat-too-early': [0.5, 0.05],
	surface: [0.5, 0.002],
	handling: [0.4, 0.002],
	'too-many-coats': [0.4, 0.02],
};

export function saysLikely({ records }: PlantedDay, cause: Cause, extent: readonly Spot[]): number {
	const known = saying[cause.code] ?? saying[`${cause.code} ${cause.form}`];
	if (!known) return 1;
	const [there, not] = known;
	return recordThatSays(cause, extent, records) === null ? (1 - there) / (1 - not) : there / not;
}
