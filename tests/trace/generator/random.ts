/** A seeded source of chance: the same seed gives the same days. */
export type Random = {
	/** [0, 1) */
	next(): number;
	/** [low, high) */
	between(low: number, high: number): number;
	/** Whole number, both ends included. */
	whole(low: number, high: number): number;
	chance(share: number): boolean;
	pick<Item>(items: readonly Item[]): Item;
};

/** Mulberry32, a public-domain generator of 32 bits of state. */
export function random(seed: number): Random {
	let state = Math.imul(seed ^ (seed >>> 16), 0x9e3779b1) >>> 0;
	const next = () => {
		state = (state + 0x6d2b79f5) >>> 0;
		let t = Math.imul(state ^ (state >>> 15), state | 1);
		t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
		return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
	};
	const whole = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
	return {
		next,
		between: (low, high) => low + next() * (high - low),
		whole,
		chance: share => next() < share,
		pick: <Item>(items: readonly Item[]): Item => {
			const item = items[whole(0, items.length - 1)];
			if (item === undefined) throw new Error('nothing to pick from');
			return item;
		},
	};
}
