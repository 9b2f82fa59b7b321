import type { NamedGun } from '../../job/job.ts';
import { fromUnit, inUnit } from '../../trade/quantity.ts';
import { entryUnit, formatIn } from '../../trade/shown.ts';
import { type Moment, unitsOf } from '../moment.ts';
import { back, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { isBelieved } from './doubted.ts';

/** The pressure at the gun, as its gauge shows it. */

/** The unit that the sheet writes its pressure in; where a day does not say, that of the bench. */
const gaugeUnit = (moment: Moment, { pressureUnit }: NamedGun): string =>
	pressureUnit ?? entryUnit('pressure', unitsOf(moment)).symbol;

/** A pressure in kPa in the unit of a gun's gauge. */
export const pressureShown = (moment: Moment, gun: NamedGun, kPa = gun.pressure_kPa): string =>
	formatIn(kPa, 'pressure', gaugeUnit(moment, gun), 2);

/** The highest figure that is taken at all, kPa: a gauge read in the wrong unit is told so. */
const most_kPa = 70_000;

/** In another unit a figure is meant where it comes so near to what is wanted, and in its own is so far off. This project's own choice. */
const near = 1.5;
const far = 3;

const isWithin = (times: number, bound: number): boolean => times > 1 / bound && times < bound;

/** The unit in which a figure would be about what is wanted; undefined: in none but its own. */
const meantIn = (value: number, unit: string, wanted_kPa: number): string | undefined =>
	['bar', 'psi', 'kPa']
		.filter(other => other !== unit)
		.find(other => isWithin(fromUnit(value, 'pressure', other) / wanted_kPa, near));

/** A figure that fits another unit than the gauge's: which of the two it is. */
const unitPrompt = (value: number, [unit, other]: [string, string], read: DayEvent): Prompt => ({
	state: 'gunCheck.gauge.unit',
	ask: 'choose',
	say: `Gauge: ${value} ${other} or ${value} ${unit}?`,
	options: [
		option(other, `${value} ${other.toUpperCase()}`, read),
		back(unit, `${value} ${unit.toUpperCase()}`),
	],
});

/**
 * What the gauge reads. One that cannot be meant is no reading: it is asked for again, or in which unit, and nothing is
 * recorded of it.
 * @param taken what a reading in kPa leads to
 */
export function gaugeNumber(
	moment: Moment,
	gun: NamedGun,
	taken: (kPa: number) => DayEvent,
): NonNullable<Prompt['number']> {
	const unit = gaugeUnit(moment, gun);
	const wanted_kPa = gun.pressure_kPa;
	return {
		of: 'pressure',
		unit,
		min: 0,
		max: Math.ceil(inUnit(most_kPa, 'pressure', unit)),
		step: unit === 'bar' ? 0.1 : 1,
		reply: value => {
			const kPa = fromUnit(value, 'pressure', unit);
			const other = isWithin(kPa / wanted_kPa, far) ? undefined : meantIn(value, unit, wanted_kPa);
			if (other === undefined)
				return isBelieved(kPa, wanted_kPa)
					? { events: [taken(kPa)] }
					: { notice: () => `${value} ${unit}? The sheet writes ${unit}. Read it again.` };
			const read = taken(fromUnit(value, 'pressure', other));
			return { next: () => unitPrompt(value, [unit, other], read) };
		},
	};
}
