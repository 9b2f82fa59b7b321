/** Numbers by chance that are the same for the same seed (mulberry32). */
export type Chance = {
	/** From 0 up to 1. */
	next(): number;
	/** A whole number from 0 up to below `limit`. */
	below(limit: number): number;
	pick<Thing>(things: readonly Thing[]): Thing;
};

export function chanceOf(seed: number): Chance {
	let state = seed >>> 0;
	const next = () => {
		state = (state + 0x6d2b79f5) >>> 0;
		let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
		mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
		return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
	};
	const below = (limit: number) => Math.floor(next() * limit);
	return {
		next,
		below,
		pick: things => {
			const thing = things[below(things.length)];
			if (thing === undefined) throw new Error('nothing to pick from');
			return thing;
		},
	};
}
