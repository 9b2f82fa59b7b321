import { type Day, type Material, plannedCoat } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, type NoteOf } from './notes.ts';
import { overrideOf } from './overrides.ts';

/** Dew point in °C of air at `airC` with a relative humidity as a share: Magnus, constants of WMO Guide No. 8. */
export function dewPoint(airC: number, humidity: number): number {
	const gamma = Math.log(humidity) + (17.62 * airC) / (243.12 + airC);
	return (243.12 * gamma) / (17.62 - gamma);
}

/** Room left for another constant of the formula and for rounding of what was keyed, K or % of humidity. */
const slack = 0.15;

function outside(day: Day, material: Material, read: NoteOf<'air.read'>): string | null {
	const share = read.humidity > 1.5 ? read.humidity / 100 : read.humidity;
	const margin = read.surfaceC - dewPoint(read.airC, share);
	const least = Math.max(day.limits.margin_C, material.limits.margin_C);
	const [low, high] = material.limits.air_C;
	if (margin < least - slack) return `${margin.toFixed(1)} K over dew point, least is ${least}`;
	if (read.airC < low - slack || read.airC > high + slack)
		return `air at ${read.airC} °C, wanted ${low} to ${high}`;
	// One range for air and surface where the sheet gives no other: MIL-HDBK-1110 §7.4.1.
	const [cold, hot] = material.limits.surface_C ?? [low, high];
	if (read.surfaceC < cold - slack || read.surfaceC > hot + slack)
		return `surface at ${read.surfaceC} °C, wanted ${cold} to ${hot}`;
	return share > material.limits.humidity_max + slack / 100 ? `humidity ${share}` : null;
}

/** Air outside its limits, as read or as worked out again, stays an open item without an override (property 11). */
export function airWithin(day: Day): Finding[] {
	return allOf(day.notes, 'face.started').flatMap(start => {
		const read = allOf(day.notes.slice(0, start.n), 'air.read').at(-1);
		const material = day.sheet.materials[plannedCoat(day, start.face, start.coat)?.material ?? ''];
		if (!read || !material || overrideOf(day, start, 'air')) return [];
		const says = outside(day, material, read) ?? (read.spray ? null : `line ${read.line} says do not spray`);
		return says ? [finding(11, start, `${start.face} starts in air outside its limits: ${says}`)] : [];
	});
}
