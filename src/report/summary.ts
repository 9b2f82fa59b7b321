import type { DayRecord } from '../day/records.ts';
import { inert } from '../job/inert.ts';
import { ofType } from '../records/of-type.ts';
import { format, type UnitSystem } from '../trade/shown.ts';
import { clockOn, date } from '../words/clock.ts';
import { lateSaid } from '../words/late.ts';
import { duration } from '../words/say.ts';
import { short, shortFace, spoken } from '../words/spoken.ts';
import { value } from './said.ts';
import { isWhole } from './tables/counts.ts';
import { isVerdict } from './tables/happenings.ts';
import { type Rows, rowsIn } from './tables/tables.ts';
import { usableZone } from './times.ts';

/** A day as its sentences are made: what is counted comes from the tables, as in every other form of the report. */
type Told = { records: readonly DayRecord[]; rows: Rows; units: UnitSystem; zone: string };

const many = (count: number, one: string, more = `${one}s`): string => `${count} ${count === 1 ? one : more}`;

/** How an instant is said: with its date where that is another than the day's. */
const clockOf =
	({ rows, zone }: Told) =>
	(at: string): string =>
		clockOn(Date.parse(at), Date.parse(rows.day.opened), zone);

function heading(told: Told): string[] {
	const { job, opened, closed } = told.rows.day;
	const state = closed === null ? 'not closed' : `closed ${clockOf(told)(closed)}`;
	return [spoken('Day', short(job, 5), date(Date.parse(opened), told.zone), state)];
}

function coats(told: Told): string[] {
	const whole = told.rows.coats.filter(isWhole);
	const numbers = [...new Set(whole.map(({ coat }) => coat))].sort((a, b) => a - b);
	return numbers.flatMap(coat => {
		const mine = whole.filter(row => row.coat === coat);
		const [first] = mine;
		const last = Math.max(...mine.map(({ ended }) => Date.parse(ended)));
		if (!first) return [];
		const until = clockOn(last, Date.parse(first.began), told.zone);
		return [spoken(`Coat ${coat}`, many(mine.length, 'face'), `${clockOf(told)(first.began)} to ${until}`)];
	});
}

function air(told: Told): string[] {
	const { rows, units } = told;
	return rows.air.map(({ at, air_C, humidity, spray }) =>
		spoken(
			'Air',
			`${format(air_C, 'temperature', units)}, ${format(humidity, 'share', units)} humidity`,
			`${clockOf(told)(at)}${spray ? '' : ', do not spray'}`,
		),
	);
}

function batches({ rows, units }: Told): string[] {
	const ready = rows.batches.flatMap(({ batch, volume_mL }) =>
		volume_mL === null ? [] : [spoken(`Batch ${batch}`, format(volume_mL, 'volume', units), 'mixed')],
	);
	const gone = rows.batches.flatMap(({ batch, discarded }) =>
		discarded ? [spoken(`Batch ${batch}`, 'thrown away', short(discarded.why, 6))] : [],
	);
	return [...ready, ...gone];
}

function breaks(told: Told): string[] {
	const { breaks: rows, counts } = told.rows;
	const [longest] = rows.toSorted((a, b) => (b.lasted_s ?? 0) - (a.lasted_s ?? 0));
	if (!longest) return [];
	const lasted = longest.lasted_s === null ? 'not ended' : `longest ${duration(longest.lasted_s)}`;
	return [spoken('Breaks', String(counts.breaks), `${lasted} at ${clockOf(told)(longest.began)}`)];
}

function readings({ rows, units }: Told): string[] {
	const { first_readings, first_differed } = rows.counts;
	if (first_readings === 0) return [];
	const count = spoken('First readings', String(first_readings), `${first_differed || 'none'} differed`);
	const each = rows.differed.filter(({ attempt }) => attempt === 1);
	const said = (feature: string, of: (typeof each)[number]['wanted']) => short(value(feature, of, units), 2);
	return [
		count,
		...each.map(row =>
			spoken(
				row.feature.replaceAll('-', ' '),
				row.face ? shortFace(row.face) : row.batch ? `batch ${row.batch}` : '',
				`${said(row.feature, row.value)} for ${said(row.feature, row.wanted)}`,
			),
		),
	];
}

/** Face and coat of a record, beside what else is said of it. */
function where(
	{ face, coat }: { face?: string | null | undefined; coat?: number | null | undefined },
	...beside: string[]
): string {
	if (!face) return '';
	const layer = coat ? `coat ${coat}` : '';
	const name = shortFace(face, layer, ...beside);
	return layer === '' ? name : `${name}, ${layer}`;
}

function passedOver(told: Told): string[] {
	return told.rows.overrides.map(record => {
		const rule = short(record.rule.replaceAll('-', ' '), 3);
		const at = clockOf(told)(record.at);
		return spoken('Passed over', rule, where(record, 'Passed over', rule, at), at);
	});
}

function faults(told: Told): string[] {
	const seen = told.rows.faults.map(record => {
		const fault = short(record.fault.replaceAll('-', ' '), 3);
		const at = `seen ${clockOf(told)(record.at)}`;
		return spoken(fault, record.gun ? 'the gun' : where(record, fault, at), at);
	});
	const aside = told.rows.aside.map(({ part, why }) =>
		spoken('Set aside', short(inert(part), 5), short(why, 4)),
	);
	const judged = told.rows.work.flatMap(({ did, ...spot }) =>
		isVerdict(did) ? [spoken(where(spot), did)] : [],
	);
	return [...seen, ...aside, ...judged];
}

function rest({ records, units }: Told): string[] {
	const late = ofType(records, 'face.late').map(record => {
		const took = lateSaid(records, record) ?? 'over its time';
		return spoken('Late', where(record, 'Late', took), took);
	});
	const film = ofType(records, 'film.read').map(record => {
		const { wet_um, dry_um = 0 } = record;
		const read = `${format(wet_um ?? dry_um, 'film', units)} ${wet_um === undefined ? 'dry' : 'wet'}`;
		return spoken('Film', where(record), read);
	});
	return [...late, ...film];
}

/**
 * A day in spoken sentences: topic, place, action, at most 12 words each.
 * @param units how all amounts are said
 * @throws RangeError where the records do not begin with `day.opened`
 */
export function daySentences(records: readonly DayRecord[], units: UnitSystem = 'metric'): string[] {
	const rows = rowsIn(records);
	const told = { records, rows, units, zone: usableZone(rows.day.zone) };
	return [heading, air, coats, batches, breaks, readings, passedOver, rest, faults].flatMap(say => say(told));
}
