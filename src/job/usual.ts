import type { Source } from './document.ts';
import type { Material, MixStep } from './job.ts';
import type { MaterialEntry } from './sheet.ts';

/**
 * What stands in where a sheet leaves a line of a data sheet out: usual, not measured. It is told wherever it counts, and
 * nothing is joined by it. Common practice, no source.
 */
export const usual = {
	strainer: '190 micron',
	'wet edge': 120,
	'wet the tip': 600,
	flush: 1800,
	/** Over the dew point, K: as ISO 8502-4 has it, from memory. */
	margin_C: 3,
} as const;

/** Each poured and stirred in by itself. */
export const usualOrder = (has: { reducer: boolean; standing: boolean; strainer: boolean; cup: boolean }) =>
	[
		...(['stir', 'base', 'hardener'] as const),
		...(has.reducer ? (['stir', 'reducer'] as const) : []),
		...(has.standing ? (['stand'] as const) : []),
		...(has.strainer ? (['strain'] as const) : []),
		...(has.cup ? (['cup'] as const) : []),
	] satisfies MixStep[];

const keys = ['order', 'strainer', 'wet edge', 'wet the tip', 'flush'] as const;

/** The lines that the sheet of a material leaves out. */
export function assumedOf({ has, values: { limits } }: MaterialEntry): string[] {
	const out: string[] = keys.filter(key => !has(key));
	return limits && !limits.has('over dew point') ? [...out, 'over dew point'] : out;
}

/** The flow cup by either of its names. */
export function flowCupOf(source: Source, entry: MaterialEntry): MaterialEntry['values']['cup'] {
	const { cup, 'flow cup': flowCup } = entry.values;
	if (entry.has('cup') && entry.has('flow cup'))
		source.fail(entry.place('flow cup'), `${entry.name}, flow cup: "cup" says it already; take one out`);
	return cup ?? flowCup;
}

/** Two times at one temperature are no time. */
function checkPoints(source: Source, points: Material['sandAfter'], at: number, name: string): void {
	if (new Set(points.map(({ at_C }) => at_C)).size < points.length)
		source.fail(at, `${name}: two times at one temperature; take one out`);
}

/** When a coat may be sanded, and of the newer form when it may be handled and taped, by the times of its sheet. */
export function dryOf(source: Source, entry: MaterialEntry): Pick<Material, 'sandAfter' | 'dryTo'> {
	const dry = entry.values['dry to'];
	const { handle, tape, sand } = dry?.values ?? {};
	if (dry && sand && entry.has('sand after'))
		source.fail(dry.place('sand'), `${dry.name}, sand: "sand after" says it already; take one out`);
	if (dry)
		for (const key of ['handle', 'tape', 'sand'] as const)
			checkPoints(source, dry.values[key] ?? [], dry.place(key), `${dry.name}, ${key}`);
	const after = entry.values['sand after'] ?? [];
	checkPoints(source, after, entry.place('sand after'), `${entry.name}, sand after`);
	const dryTo = (handle || tape) && { ...(handle && { handle }), ...(tape && { tape }) };
	return { sandAfter: entry.has('sand after') ? after : (sand ?? []), ...(dryTo && { dryTo }) };
}
