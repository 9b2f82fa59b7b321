import type { DayRecord } from '../day/records.ts';
import { format, type UnitSystem } from '../trade/shown.ts';
import { clockOn, date } from '../words/clock.ts';
import { lateSaid } from '../words/late.ts';
import { duration } from '../words/say.ts';
import { short, shortFace, spoken } from '../words/spoken.ts';
import { value } from './said.ts';
import { isWhole } from './tables/counts.ts';
import { ofType } from './tables/day.ts';
import { clockOf, many, type Told, toldOf, where } from './told.ts';
import { verdictOf } from './verdict.ts';

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
	const at = `at ${clockOf(told)(longest.began)}`;
	const lasted =
		longest.lasted_s === null ? `${at}, not ended` : `longest ${duration(longest.lasted_s)} ${at}`;
	return [spoken('Breaks', String(counts.breaks), lasted)];
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

function rest({ day, units }: Told): string[] {
	const late = ofType(day, 'face.late').map(record => {
		const took = lateSaid(day.records, record) ?? 'over its time';
		return spoken('Late', where(record, 'Late', took), took);
	});
	const film = ofType(day, 'film.read').map(record => {
		const { wet_um, dry_um = 0 } = record;
		const read = `${format(wet_um ?? dry_um, 'film', units)} ${wet_um === undefined ? 'dry' : 'wet'}`;
		return spoken('Film', where(record), read);
	});
	return [...late, ...film];
}

/** A day in spoken sentences, its verdict first: topic, place, action, at most 12 words each. */
export function sentencesOf(told: Told): string[] {
	const { done, look, next } = verdictOf(told);
	const details = [air, coats, batches, breaks, readings, rest].flatMap(say => say(told));
	return [...heading(told), ...done, ...look, ...next, ...details];
}

/**
 * The same of a day by itself: what else may have got its faults is not asked.
 * @param units how all amounts are said
 * @throws RangeError where the records do not begin with `day.opened`
 */
export const daySentences = (records: readonly DayRecord[], units: UnitSystem = 'metric'): string[] =>
	sentencesOf(toldOf(records, units));
