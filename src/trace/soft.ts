import {
	againRight,
	type Curve,
	curves,
	type Habit,
	habit,
	level,
	most,
	namesAnother,
	own,
	slip,
} from './numbers.ts';

/** What one reading or record says of a cause: P(it | it was so) ÷ P(it | it was not), and in words. */
export type Soft = {
	odds: number;
	/** A key said right: a second one says less. */
	isRight: boolean;
	/** A record that says it outright: it may be told. */
	isRecord: boolean;
	says: () => string;
};

/** How often readings are keyed right by habit, given what this shop's first readings show. */
export type Habits = Readonly<Record<Habit, number>>;

const held = (value: number, least: number, top: number) => Math.min(top, Math.max(least, value));

/**
 * Whether this shop looks before it keys, from its first readings: too few that differ is habit.
 * @param first first readings
 * @param differed of them, those that differed
 */
export function habitsOf(first: number, differed: number): Habits {
	const looks = (own.asMany + differed) / (own.asMany / own.looks + own.wrong * first);
	const factor = (1 - held(looks, own.least, own.most)) / (1 - own.looks);
	const of = (kind: Habit) => held(habit[kind] * factor, own.habitLeast, own.habitMost);
	return { card: habit.card, number: of('number'), eye: of('eye') };
}

export const rightOdds = (h: number): number => h + (1 - h) * slip;

export const differsOdds = (h: number): number => Math.min(most, (0.9 * (1 - h)) / slip);

const density = (x: number, [mean, deviation]: Curve): number =>
	Math.exp(-0.5 * ((x - mean) / deviation) ** 2) / deviation;

/**
 * Odds of a measured number.
 * @param x as the curve of that name has it
 * @throws RangeError for a curve that there is none of
 */
export function measuredOdds(name: string, x: number, h: number): number {
	const pair = curves[name];
	if (!pair) throw new RangeError(`no curve "${name}"`);
	const against = density(x, pair.not);
	const share = against > 0 ? density(x, pair.was) / against : Number.POSITIVE_INFINITY;
	return h + (1 - h) * held(share, 1 / most, most);
}

/** Odds of a level: a share `f` of a component went in instead of 1, asked of `short`, `over` or `none` of it. */
export function levelOdds(f: number, of: 'short' | 'over' | 'none'): number {
	if (of === 'none') return f < level.noneBelow ? level.none : namesAnother;
	if ((of === 'short') !== f < 1) return namesAnother;
	return Math.min(most, level.least + level.slope * Math.abs(f - 1));
}

/** Odds of all that was read of one thing inside one extent: a second right one says less. */
export function together(softs: readonly Pick<Soft, 'odds' | 'isRight'>[]): number {
	let odds = 1;
	let right = false;
	for (const one of softs) {
		odds *= one.isRight && right ? Math.max(one.odds, againRight) : one.odds;
		right ||= one.isRight;
	}
	return Math.min(odds, most * most);
}

/** The mean of several odds: of an extent only some of whose passes a record names. */
export const meanOf = (odds: readonly number[]): number =>
	odds.length === 0 ? 1 : odds.reduce((sum, one) => sum + one, 0) / odds.length;
