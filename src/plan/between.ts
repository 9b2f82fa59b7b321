import type { Word } from './blocks.ts';

/**
 * Turns between two gun states, as a square table: row the state before, column the state after, entry the fewest
 * turns on the way. The way is what has to be sprayed in between, and the turns at its two ends are counted in, so
 * doing one thing after another is the product of their tables (least sum instead of sum of products).
 */
export type Table = { side: number; turns: Int16Array };

/** Nothing to spray: no turn if the state stays, else one. */
export function nothing(side: number): Table {
	const turns = new Int16Array(side * side).fill(1);
	for (let at = 0; at < side; at += 1) turns[at * side + at] = 0;
	return { side, turns };
}

/** One part in one coat, by its words. */
export function tableOf(words: readonly Word[], side: number): Table {
	if (words.length === 0) return nothing(side);
	const turns = new Int16Array(side * side);
	for (let before = 0; before < side; before += 1)
		for (let after = 0; after < side; after += 1)
			turns[before * side + after] = Math.min(
				...words.map(word => word.length - 1 + Number(word[0] !== before) + Number(word.at(-1) !== after)),
			);
	return { side, turns };
}

/** One thing after another. */
export function after(one: Table, other: Table): Table {
	const { side } = one;
	const turns = new Int16Array(side * side);
	for (let row = 0; row < side; row += 1)
		for (let column = 0; column < side; column += 1) {
			let least = 32_000;
			for (let between = 0; between < side; between += 1) {
				const sum = (one.turns[row * side + between] ?? 0) + (other.turns[between * side + column] ?? 0);
				if (sum < least) least = sum;
			}
			turns[row * side + column] = least;
		}
	return { side, turns };
}

/** By how much one table may cost more than another, at worst; below 0: it always costs less. */
export function worse(one: Table, other: Table): number {
	let most = -32_000;
	for (const [at, turns] of one.turns.entries()) {
		const more = turns - (other.turns[at] ?? 0);
		if (more > most) most = more;
	}
	return most;
}

export const least = (table: Table): number => table.turns.reduce((one, other) => Math.min(one, other));

/** The same table with its least entry brought to 0, as one comparable word. */
export function shapeOf(table: Table): string {
	const base = least(table);
	return table.turns.map(turns => turns - base).join();
}

/** Whether a second one laid right after the first costs no more than its least, and none ever costs less. */
export function staysPut(table: Table): boolean {
	const base = least(table);
	const twice = after(table, table);
	return table.turns.every((turns, at) => {
		const moves = Math.floor(at / table.side) !== at % table.side;
		return (twice.turns[at] ?? 0) === turns + base && (!moves || turns > base);
	});
}
