import { wantsSuppliedAir } from '../../job/breathing.ts';
import { gunNames, type NamedGun } from '../../job/job.ts';
import { letterNumber, letterOf } from '../../plan/batch-letters.ts';
import { fromUnit, inUnit } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import { gunNext } from '../guns.ts';
import { contextOf, jobOf, type Moment, materialOf, ruleOf, settingsOf, unitsOf } from '../moment.ts';
import type { Prompt } from '../prompt.ts';
import type { DayEvent, EventOf } from '../records.ts';
import { isBelieved } from './doubted.ts';
import { gaugeNumber } from './gauge.ts';
import { cupLabel, seedOf } from './gun-items.ts';
import { reading } from './reading.ts';

/** What is read of the gun: what may be answered, and what fits. */

/** Three letters among which the right one may stand anywhere; the fourth answer is that it is none of them. */
export function lettersAsked(moment: Moment): string[] {
	const { cup, batches } = contextOf(moment);
	const label = cupLabel(moment);
	const newest = Math.max(...Object.keys(batches).map(letterNumber), 1);
	const shift = (seedOf(moment) + moment.state.book.checks) % 3;
	const first = Math.max(1, Math.min(...cup.map(letterNumber)) - shift);
	const near = [0, 1, 2, 3, 4, 5].map(step => letterOf(Math.min(first + step, newest + 5)));
	const others = [...new Set(near)].filter(letter => letter !== label && !cup.includes(letter));
	const asked = cup.length > 1 ? [label, ...cup.slice(0, 2), ...others] : [label, ...others];
	return [...new Set(asked)].slice(0, 3).sort();
}

/** Up to three of the job's guns among which the right one may stand anywhere. */
export function gunsAsked(moment: Moment): string[] {
	const names = gunNames(jobOf(moment));
	const right = String(wantedOf(moment, 'gun'));
	const others = names.filter(name => name !== right);
	return [right, ...others].slice(0, 3).sort();
}

const choices = (...pairs: [string, string][]) => pairs;
export const answersOf = {
	pattern: choices(['tall', 'TALL'], ['wide', 'WIDE'], ['round', 'ROUND'], ['bad', 'BAD']),
	horns: choices(['level', 'LEVEL'], ['upright', 'UPRIGHT'], ['between', 'BETWEEN']),
	flooded: choices(
		['even', 'EVEN'],
		['heavy-ends', 'HEAVY ENDS'],
		['heavy-middle', 'HEAVY MIDDLE'],
		['one-sided', 'ONE SIDE'],
	),
};

const readings = ['gun', 'batch', 'gauge', 'pattern-height', 'pattern', 'horns', 'flooded'] as const;
type GunReading = (typeof readings)[number];

/** Whether an item of a gun check is one of those that the program itself knows the answers of. */
export const isGunReading = (item: string): item is GunReading => readings.some(one => one === item);

/** The gun of the check under way. */
export function gunChecked(moment: Moment): NamedGun {
	const face = moment.state.book.check?.face ?? null;
	return face ? gunNext(moment, face) : jobOf(moment).gun;
}

/** What fits for a reading of the check under way. */
export function wantedOf(moment: Moment, item: string): EventOf<'reading.taken'>['wanted'] {
	const face = moment.state.book.check?.face ?? null;
	const rule = face ? ruleOf(moment, face) : null;
	const gun = gunChecked(moment);
	switch (item) {
		case 'mask':
			return rule && wantsSuppliedAir(materialOf(moment, rule.material))
				? 'supplied-air'
				: ['supplied-air', 'filter-mask'];
		case 'batch':
			return cupLabel(moment);
		case 'gun':
			return gun.called ?? null;
		case 'gauge':
			return gun.pressure_kPa;
		case 'pattern-height':
			return rule?.fanHeight_mm ?? null;
		case 'horns':
			return rule?.horns ?? null;
		case 'flooded':
			return 'even';
		default:
			return rule?.pattern ?? null;
	}
}

/** Readings with a scale: a share of the wanted value either way. */
export function measured(moment: Moment, feature: 'gauge' | 'pattern-height', value: number): DayEvent {
	const wanted = Number(wantedOf(moment, feature));
	const matched = Math.abs(value - wanted) <= settingsOf(moment).readingTolerance * wanted;
	return reading(moment, feature, value, wanted, { matched });
}

/** A height in the unit on the screen that no pattern of this face has. */
export function heightDoubted(moment: Moment, height: number): boolean {
	const { symbol } = entryUnit('length', unitsOf(moment));
	const wanted_mm = Number(wantedOf(moment, 'pattern-height'));
	return !isBelieved(fromUnit(height, 'length', symbol), wanted_mm);
}

/** Longest pattern that can be keyed, mm. */
const longest_mm = 600;

export function numberAsked(
	moment: Moment,
	feature: 'gauge' | 'pattern-height',
): NonNullable<Prompt['number']> {
	if (feature === 'gauge')
		return gaugeNumber(moment, gunChecked(moment), kPa => measured(moment, 'gauge', kPa));
	const { unit, symbol, step } = entryUnit('length', unitsOf(moment));
	return {
		of: 'height',
		unit,
		min: 0,
		max: Math.ceil(inUnit(longest_mm, 'length', symbol)),
		step,
		reply: value => ({ events: [measured(moment, feature, fromUnit(value, 'length', symbol))] }),
	};
}
