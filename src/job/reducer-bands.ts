import type { UnitSystem } from '../trade/quantity.ts';
import { format, formatRange } from '../trade/shown.ts';
import type { Source } from './document.ts';
import type { Material } from './job.ts';
import type { MaterialEntry } from './sheet.ts';

/** Reducers of one share for surfaces of one temperature each: the surface read picks the can. */

type Bands = Pick<Material, 'reducers'>;

/** The reducer for a surface, by its name; null: none is given for so cold or warm a one; undefined: there is one alone. */
export function reducerAt({ reducers }: Bands, surface_C: number): string | null | undefined {
	if (!reducers) return undefined;
	return reducers.find(({ from_C, to_C }) => surface_C >= from_C && surface_C <= to_C)?.name ?? null;
}

/** The bands of a material from the coldest on: they may leave gaps, not overlap, and are of one share. */
export function bandsOf(source: Source, entry: MaterialEntry): Bands {
	const { reducer } = entry.values;
	if (!Array.isArray(reducer)) return {};
	const rising = reducer.toSorted((one, other) => one.surface[0] - other.surface[0]);
	const [first] = rising;
	const wrong = rising.some(({ surface }, nth) => surface[0] < (rising[nth - 1]?.surface[1] ?? surface[0]))
		? 'two of them hold for one temperature; mend where they meet'
		: rising.some(({ share, parts }) => share !== first?.share || parts !== first?.parts)
			? 'one share for all of them is wanted'
			: null;
	if (wrong) source.fail(entry.place('reducer'), `${entry.name}, reducer: ${wrong}`);
	const reducers = rising.map(({ name, surface: [from_C, to_C] }) => ({ name, from_C, to_C }));
	return { reducers };
}

/** What is wrong where a surface falls into no band of a material; null: nothing. */
export function betweenBands(material: Material, surface_C: number, units: UnitSystem): string | null {
	if (reducerAt(material, surface_C) !== null) return null;
	const bands = (material.reducers ?? [])
		.map(({ name, from_C, to_C }) => `${name} ${formatRange(from_C, to_C, 'temperature', units)}`)
		.join(', ');
	return `${material.id} has no reducer for ${format(surface_C, 'temperature', units)}: ${bands}`;
}
