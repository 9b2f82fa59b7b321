import { isMap, isScalar } from 'yaml';
import {
	type Entry,
	list,
	map,
	may,
	must,
	offsetOf,
	type Placed,
	pairsOf,
	placed,
	type Reader,
	value,
	written,
} from './fields.ts';
import { brief } from './inert.ts';
import { complain, fromText, key, quantity, range, span } from './values.ts';

/** Recoat windows as a table, or as a data sheet says them in a line. */

export const windowShape = {
	wait: may(value(span)),
	spray: may(value(span)),
	scuff: may(value(span)),
	sand: may(value(span)),
};
const rowShape = {
	over: must(placed(value(key))),
	surface: must(value(range('temperature'))),
	windows: must(list(map(windowShape), 1)),
};
export type RowEntry = Entry<typeof rowShape>;

/** The material that a line speaks of, where it names none. */
export const itself = 'itself';

type Spell = { does: 'spray' | 'scuff' | 'sand'; from_s: number; until_s: number | null };
type Said = { at_C: number; spells: Spell[] };
const does = { scuffed: 'scuff', sanded: 'sand' } as const;
const like = 'as in "15 min to 2 h at 20 °C or sanded from 16 h"';

/** `15 min to 2 h at 20 °C or sanded from 16 h`: in the order of time, at one temperature. */
const recoatLine = fromText((text, ctx): Said => {
	const spells: Spell[] = [];
	let at_C: number | undefined;
	for (const clause of text.split(/\s+or\s+/)) {
		const [, how, times = '', where] = /^(?:(scuffed|sanded)\s+)?(.*?)(?:\s+at\s+(.+))?$/.exec(clause) ?? [];
		const read = span.safeParse(times);
		const degrees = where === undefined ? undefined : quantity('temperature').safeParse(where);
		const wrong = read.success ? degrees && !degrees.success && degrees.error : read.error;
		if (wrong) return complain(ctx, `${wrong.issues[0]?.message}; ${like}`);
		if (degrees?.success) {
			if (at_C !== undefined && at_C !== degrees.data)
				return complain(ctx, 'two temperatures: write it as a list of rows, each with its surface');
			at_C = degrees.data;
		}
		const last = spells.at(-1);
		if (read.success && last && (last.until_s === null || last.until_s > read.data.from_s))
			return complain(ctx, `"${brief(clause)}" begins before the one before it ends`);
		const what = how === 'scuffed' || how === 'sanded' ? does[how] : 'spray';
		if (read.success) spells.push({ does: what, ...read.data });
	}
	return at_C === undefined ? complain(ctx, `a temperature is wanted, ${like}`) : { at_C, spells };
});

/** The row of a line: what lies between its windows is a wait. */
function rowOf(over: Placed<string>, { at_C, spells }: Said, at: number, what: string): RowEntry {
	const one = (values: Entry<typeof windowShape>['values']) => written<typeof windowShape>(values, at, what);
	const windows = spells.flatMap(({ does, ...times }, nth) => {
		const before_s = spells[nth - 1]?.until_s ?? 0;
		const gap = times.from_s > before_s ? [one({ wait: { from_s: before_s, until_s: times.from_s } })] : [];
		return [...gap, one({ [does]: times })];
	});
	return written<typeof rowShape>({ over, surface: [at_C, at_C], windows }, at, what);
}

const rowRead: Reader<RowEntry[]> = (source, node, what, at) => {
	if (isScalar(node)) {
		const [said, own] = [value(recoatLine)(source, node, what, at), offsetOf(node, at)];
		return said && [rowOf({ value: itself, at: own }, said, own, what)];
	}
	const isTable =
		!isMap(node) || node.items.some(({ key: one }) => isScalar(one) && Object.hasOwn(rowShape, String(one)));
	if (isTable) {
		const row = map(rowShape)(source, node, what, at);
		return row && [row];
	}
	return pairsOf(source, node, what, at)?.flatMap(pair => {
		const name = `${what}, ${brief(pair.key)}`;
		const over = key.safeParse(pair.key);
		const said = value(recoatLine)(source, pair.node, name, pair.at);
		if (!over.success) source.fail(pair.at, `${name}: ${over.error.issues[0]?.message}`);
		return said && over.success ? [rowOf({ value: over.data, at: pair.at }, said, pair.at, name)] : [];
	});
};

/** Rows of a table, a line of itself, or a line for each material under it. */
export const recoatRead: Reader<RowEntry[]> = (source, node, what, at) =>
	list(rowRead)(source, node, what, at)?.flat();
