import type { DayRecord, EventOf } from '../../../src/day/records.ts';
import type { Plant } from './plants.ts';
import type { Sprayed } from './truth.ts';

const features: Record<string, string[]> = {
	'fan-along-stroke': ['pattern', 'horns'],
	'bad-pattern': ['pattern', 'flooded', 'pattern-height'],
	'pressure-off': ['gauge'],
	film: ['flooded', 'pattern-height'],
};

/** Ways of going wrong that write down the true change, or a number past its limit, as they happen. */
const written = new Set([
	'fan-along-stroke/break',
	'fan-along-stroke/turn',
	'bad-pattern/break',
	'pressure-off/break',
	'pressure-off/knob',
	'no-hardener/unread',
	'no-hardener/short',
	'wrong-can/read',
	'wrong-ratio/short',
	'wrong-ratio/over',
	'wrong-ratio/break',
	'batch-too-old/old',
	'not-stood/early',
	'not-stood/never',
	'viscosity-off/shown',
	'air-out-of-limits/read',
	'coat-too-early/rush',
	'window-missed/long',
	'window-missed/unsanded',
	'film-too-heavy/knob',
	'film-too-light/knob',
	'face-missed/none',
	'face-missed/part',
	'too-many-coats/again',
	'too-many-coats/extra',
	'surface/unsaid',
	'handling/late',
]);

const at = (record: DayRecord) => Date.parse(record.at);

/** A reading that differed after the last face that was spoilt and before any good one of the same feature. */
function contrary(records: DayRecord[], asked: string[], cause: string, after: number): boolean {
	const readings = records.filter(
		(record): record is DayRecord & EventOf<'reading.taken'> =>
			record.type === 'reading.taken' && asked.includes(record.feature) && at(record) >= after,
	);
	const speaks = readings.find(
		({ feature, value }) =>
			feature !== 'pattern' || (cause === 'bad-pattern') === (value === 'bad') || value !== 'bad',
	);
	if (!speaks) return false;
	return (
		!speaks.matched &&
		(speaks.feature !== 'pattern' || (speaks.value === 'bad') === (cause === 'bad-pattern'))
	);
}

/** A spoilt pass that a trigger line tells of by itself; faces of a stretch share its pulls, and none tells its own. */
function pulledThrough(known: DayRecord[], affected: Sprayed[]): boolean {
	return affected.some(({ face, coat, began, ended }) => {
		const end = known.find(
			record => record.type === 'face.ended' && record.face === face && record.coat === coat,
		);
		const pulls = known.some(
			record => record.type === 'trigger.on' && at(record) >= began && at(record) <= ended,
		);
		return end?.type === 'face.ended' && !end.estimated && pulls;
	});
}

/**
 * Whether the records can tell: a record of the true change, or a reading or number beyond its limit, lies in
 * the file by the time the fault is asked about.
 */
export function tells(records: DayRecord[], plant: Plant, affected: Sprayed[], asked: number): boolean {
	const known = records.filter(record => at(record) <= asked);
	const last = Math.max(...affected.map(one => one.ended));
	const first = affected[0];
	if (written.has(`${plant.cause}/${plant.variant}`)) return true;
	const feature = features[plant.cause];
	if (feature && contrary(known, feature, plant.cause, last)) return true;
	if (plant.cause === 'air-out-of-limits') {
		const next = known.find(record => record.type === 'air.read' && at(record) >= last);
		return next?.type === 'air.read' && !next.spray;
	}
	if ((plant.variant === 'slow' || plant.variant === 'fast') && pulledThrough(known, affected)) return true;
	if (plant.cause.startsWith('film-too') && first)
		return known.some(
			record =>
				record.type === 'film.read' &&
				affected.some(one => one.face === record.face && one.coat === record.coat),
		);
	return false;
}
