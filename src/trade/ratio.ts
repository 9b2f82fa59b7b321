import { extras, type Ratio } from './mix.ts';

/** A ratio as it is written: its parts, the reducer null where it names none. */
export type WrittenRatio = Omit<Ratio, 'reducer'> & { reducer: number | null };

const ratioWanted = 'base:hardener or base:hardener:reducer, as in "2:1:1"';
const nameWanted = 'what the part behind the reducer is, as in "1 accelerator" or "1 flattener"';

/** What stands behind the reducer, as it is written; nothing for most. */
export const extrasWritten = (ratio: Ratio): string =>
	extras.map(extra => (ratio[extra] ? `:${ratio[extra]} ${extra}` : '')).join('');

const beside: readonly string[] = ['reducer', ...extras];

/**
 * Reads `2:1`, `2:1:1` or `8:2:2:1 accelerator`: a part behind the reducer says what it is.
 * @returns parts, above 0 but for the reducer, up to 1000; or what is wanted, and the column where something else stands
 */
export function readRatio(text: string): WrittenRatio | { wanted: string; column: number } {
	const named = new Map<string, number>();
	let column = 1;
	for (const [nth, piece] of text.split(':').entries()) {
		const [, number, name] = /^\s*(-?\d+(?:\.\d*)?|\.\d+)(?:\s+([a-z]+))?\s*$/.exec(piece) ?? [];
		const part = Number(number);
		const own = nth < 2 ? ['base', 'hardener'][nth] : (name ?? (nth === 2 ? 'reducer' : undefined));
		if (number === undefined || (nth < 2 && name !== undefined)) return { wanted: ratioWanted, column };
		if (part > 1000) return { wanted: 'parts up to 1000', column };
		if (own === undefined || (nth >= 2 && !beside.includes(own))) return { wanted: nameWanted, column };
		if (named.has(own)) return { wanted: `each part once: ${own} is there twice`, column };
		if (part < 0 || (part === 0 && own !== 'reducer'))
			return { wanted: `more than 0 of ${own}${own === 'reducer' ? ', or 0' : ''}`, column };
		named.set(own, part);
		column += piece.length + 1;
	}
	const { base, hardener, reducer = null, ...others } = Object.fromEntries(named);
	if (base === undefined || hardener === undefined) return { wanted: ratioWanted, column: 1 };
	return { ...others, base, hardener, reducer };
}
