import type { Word } from './blocks.ts';

/** No gun state: nothing sprayed yet in this coat. */
export const none = -1;

/** The gun state that each coat began in and is in now, and the turns so far. */
export type Way = {
	ends: readonly number[];
	firsts: readonly number[];
	turns: number;
	/** Whether some ways to lay the last part were left out. */
	short: boolean;
};

type Option = { end: number; first: number; turns: number };

/**
 * Lays a part after what is laid, coat by coat, in every way that no other makes needless.
 * @param most ways followed at once; beyond it the dearest are left out, and `short` says so
 */
export function layer(most: number): (words: readonly (readonly Word[])[], so: Way) => Way[] {
	const known = new Map<readonly Word[], Option[][]>();
	const options = (words: readonly Word[], end: number): Option[] => {
		const byEnd = known.get(words) ?? [];
		const found = byEnd[end + 1] ?? optionsOf(words, end);
		byEnd[end + 1] = found;
		known.set(words, byEnd);
		return found;
	};
	return (coats, so) => {
		let ways: Way[] = [{ ends: [], firsts: [], turns: so.turns, short: false }];
		for (const [coat, words] of coats.entries()) {
			const end = so.ends[coat] ?? none;
			const first = so.firsts[coat] ?? none;
			const here = words.length === 0 ? [{ end, first, turns: 0 }] : options(words, end);
			const all = ways.flatMap(way =>
				here.map(option => ({
					ends: [...way.ends, option.end],
					firsts: [...way.firsts, first === none ? option.first : first],
					turns: way.turns + option.turns,
					short: way.short || ways.length * here.length > most,
				})),
			);
			ways = all.length > most ? all.sort((one, other) => one.turns - other.turns).slice(0, most) : all;
		}
		return ways;
	};
}

/**
 * The ways to lay a part in one coat. Another end, or another first state of the coat, costs one turn at most
 * later on, which decides what is needless.
 */
function optionsOf(words: readonly Word[], end: number): Option[] {
	const all = words
		.map(word => ({
			end: word.at(-1) ?? none,
			first: end === none ? (word[0] ?? none) : none,
			turns: word.length - 1 + (end === none || end === word[0] ? 0 : 1),
		}))
		.sort((one, other) => one.turns - other.turns);
	return all.filter((option, at) =>
		all.slice(0, at).every(rival => {
			const apart = Number(rival.end !== option.end) + Number(rival.first !== option.first);
			return apart > 0 && option.turns < rival.turns + apart;
		}),
	);
}
