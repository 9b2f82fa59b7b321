/**
 * How often a painter errs, by occasion. Every figure is an assumption, none is measured: they are chosen high
 * enough that 2,000 days show each slip many times. Human-factors findings say which slips there are and that breaks
 * make them likelier, not how often they come in a shop.
 */
export type Rates = {
	/** The next face wants the cap turned: it is left as it was, and DONE is said. */
	leavesTurned: number;
	/** Somebody turns the cap while the painter is away: in a flash wait, or on a walk. */
	someoneTurns: number;
	/** Walks away without a word: before a face, in the middle of one, in mixing. */
	walks: number;
	/** Comes back from a walk and has lost the place. */
	losesPlace: number;
	/** Lost the place: does something again; otherwise something is left out. */
	repeats: number;
	/** Looks, and sees the other thing. */
	misreads: number;
	/** Does not look, and keys what was keyed the last time, or in the same corner. */
	habit: number;
	/** Does not look, and keys what must be right going by what was just done. */
	suggests: number;
	/** Looks of himself where nothing asks. */
	unasked: number;
	/** Strikes a key twice. */
	doubleHits: number;
	/** Leaves the hardener out. */
	forgets: number;
	/** Takes another can than the one that is due. */
	wrongCan: number;
	/** Pours before the can is read. */
	poursUnread: number;
	/** Fills the cup from yesterday's pot. */
	wrongPot: number;
};
export type Slip = keyof Rates;

export const assumedRates: Rates = {
	leavesTurned: 0.05,
	someoneTurns: 0.1,
	walks: 0.05,
	losesPlace: 0.2,
	repeats: 0.75,
	misreads: 0.02,
	habit: 0.15,
	suggests: 0.15,
	unasked: 0.3,
	doubleHits: 0.03,
	forgets: 0.03,
	wrongCan: 0.03,
	poursUnread: 0.2,
	wrongPot: 0.03,
};

export type Where = readonly (string | number)[];
export type Draws = {
	/** From 0 up to 1, the same for the same occasion of the same day, whatever else was drawn. */
	draw(kind: string, ...where: Where): number;
	slips(slip: Slip, ...where: Where): boolean;
	/** How long a walk lasts, s. */
	walk_s(...where: Where): number;
};

/** FNV-1a over the words, then one step of a 32-bit mixer: a number that depends on the occasion alone. */
function mixed(words: string): number {
	let hash = 0x811c9dc5;
	for (const char of words) hash = Math.imul(hash ^ (char.codePointAt(0) ?? 0), 0x01000193);
	hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
	hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
	return ((hash ^ (hash >>> 16)) >>> 0) / 2 ** 32;
}

const walks_s = [15, 60, 180, 600, 1800] as const;

/**
 * The slips of one day. A slip belongs to its occasion (this face, this coat, this try) and not to its place in a
 * stream of numbers: so every kind of list meets the same ones.
 */
export function drawsOf(seed: number, rates: Rates = assumedRates): Draws {
	const draw = (kind: string, ...where: Where) => mixed([seed, kind, ...where].join('|'));
	return {
		draw,
		slips: (slip, ...where) => draw(slip, ...where) < rates[slip],
		walk_s: (...where) => walks_s[Math.floor(draw('walk', ...where) * walks_s.length)] ?? 60,
	};
}
