import type { Sheet, Word } from './blocks.ts';

/**
 * Picks one word for each member of a row so that the turns inside them and between neighbours are fewest: a
 * shortest path over the last gun state. Members without words (no faces) are passed over.
 *
 * Words longer than their member's shortest by more than one are not needed in the choice: another word costs at
 * most one turn at each of its two ends.
 * @param start the state the gun is in before the row, where known
 * @param prefer breaks ties: the smaller is taken
 */
export function linkWords(
	row: readonly (readonly Word[])[],
	start: number | null,
	prefer: (index: number, word: Word) => number = () => 0,
): Word[] {
	type Path = { turns: number; score: number; words: Word[]; end: number | null };
	let paths: Path[] = [{ turns: 0, score: 0, words: [], end: start }];
	for (const [index, words] of row.entries()) {
		if (words.length === 0) {
			paths = paths.map(path => ({ ...path, words: [...path.words, []] }));
			continue;
		}
		const best = new Map<number, Path>();
		for (const path of paths)
			for (const word of words) {
				const end = word.at(-1) ?? 0;
				const turns = path.turns + word.length - 1 + (path.end === null || path.end === word[0] ? 0 : 1);
				const score = path.score + prefer(index, word);
				const rival = best.get(end);
				if (!rival || turns < rival.turns || (turns === rival.turns && score < rival.score))
					best.set(end, { turns, score, words: [...path.words, word], end });
			}
		paths = [...best.values()];
	}
	const [first, ...others] = paths;
	if (!first) return [];
	return others.reduce(
		(best, path) =>
			path.turns < best.turns || (path.turns === best.turns && path.score < best.score) ? path : best,
		first,
	).words;
}

/**
 * Writes a word out as faces: in each block every face whose turn it can be, the one with the smallest rank first.
 * @param rank place of each face in the wanted order
 * @returns the faces' numbers in the order sprayed, and the block that each falls in
 */
export function writeOut(
	sheet: Sheet,
	word: Word,
	rank: readonly number[],
): { order: number[]; block: number[] } {
	const order: number[] = [];
	const block: number[] = sheet.states.map(() => -1);
	const byRank = [...sheet.states.keys()].sort((one, other) => (rank[one] ?? 0) - (rank[other] ?? 0));
	for (const [index, state] of word.entries()) {
		const next = () =>
			byRank.find(
				face =>
					block[face] === -1 &&
					sheet.states[face] === state &&
					(sheet.before[face] ?? []).every(before => block[before] !== -1),
			);
		for (let face = next(); face !== undefined; face = next()) {
			block[face] = index;
			order.push(face);
		}
	}
	return { order, block };
}

/** The sheet's own order, changed only as far as `before` asks. */
export const asWritten = (sheet: Sheet): number[] =>
	writeOut({ ...sheet, states: sheet.states.map(() => 0) }, [0], [...sheet.states.keys()]).order;
