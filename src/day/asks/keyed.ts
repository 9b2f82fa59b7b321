import { inUnit, type Quantity } from '../../trade/quantity.ts';
import { entryUnit, type UnitSystem } from '../../trade/shown.ts';

/** A quantity in the one unit in which it is keyed, to its step, whatever its size. */
export function keyed(value: number, kind: Quantity, units: UnitSystem): { to: number; unit: string } {
	const { unit, symbol, step } = entryUnit(kind, units);
	return { to: Number((Math.round(inUnit(value, kind, symbol) / step) * step).toFixed(3)), unit };
}

/** The same in words: beside a number to be keyed no other unit is named. */
export function asKeyed(value: number, kind: Quantity, units: UnitSystem): string {
	const { to, unit } = keyed(value, kind, units);
	return unit === '%' ? `${to}%` : `${to} ${unit}`;
}
