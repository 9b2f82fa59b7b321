/**
 * Every number that the trace weighs by, each with its reason. Those called a choice are this project's own; none is
 * fitted to days made by a program. `from memory`: the source was not opened.
 */

/** Share of what the published orders say, the rest spread evenly: no list is whole. Choice. */
export const listed = 0.9;

/** Chance before any record that nothing in the table did it. Choice. */
export const noneOfThese = 0.05;

/** How often a wrong thing is keyed right by habit. */
export const habit = {
	/** Its letters differ from card to card: nothing to remember. Choice. */
	card: 0.02,
	/** A number asked before it is shown: routine checking with a written form (NUREG/CR-1278 Table 20-22, from memory). */
	number: 0.1,
	/** By eye or by word: the same without written form, 2 in 10 (from memory). */
	eye: 0.2,
};
export type Habit = keyof typeof habit;

/** A slip of the finger. Choice. */
export const slip = 0.02;

/** The most that one reading may speak for a cause. Choice. */
export const most = 50;

/** A second right reading of the same thing: who keyed it by habit does so again. Choice. */
export const againRight = 0.6;

/** A reading that differs and names another form. Choice. */
export const namesAnother = 0.3;

/** Odds of what a record says outright, and of a cause that such a record would name where there is none. Choice. */
export const recorded = { is: 20, isNot: 0.2 };

/** A can first read wrong, then right: the same can may have come back. A cup timed in paint of the wrong warmth. Choice. */
export const wrongThenRight = 5;

/** A share of a component that differs by so much from 1 speaks by `least + slope × it`. Choice. */
export const level = { least: 4, slope: 60, none: 40, noneBelow: 0.2 };

/** What a pour read as right may be off by, as a share of its part: half a mark is. Choice. */
export const readAsRight = 0.05;

/** A normal curve: middle and deviation. */
export type Curve = readonly [mean: number, deviation: number];

/**
 * Where a measured number lies if it was so and if it was not: the air's cross near 73 %, 16 and 28 °C, short of the
 * published 80 %, 60 and 95 °F (FAA-H-8083-31 ch. 8), for the air at the work is not that at the instrument. Choice.
 */
export const curves: Record<string, { was: Curve; not: Curve }> = {
	'pull heavy': { was: [Math.log(1.6), 0.25], not: [0, 0.2] },
	'pull light': { was: [Math.log(0.6), 0.25], not: [0, 0.2] },
	'film heavy': { was: [Math.log(1.5), 0.3], not: [0, 0.2] },
	'film light': { was: [Math.log(0.6), 0.3], not: [0, 0.2] },
	thick: { was: [1.8, 0.9], not: [0, 0.6] },
	thin: { was: [-1.8, 0.9], not: [0, 0.6] },
	humid: { was: [0.86, 0.08], not: [0.55, 0.15] },
	cold: { was: [12, 4], not: [21, 5] },
	warm: { was: [34, 4], not: [21, 5] },
};

/** A trigger time beyond this share of the sheet's is a record that says it. */
export const longPull = 1.3;

/** What lies in the gap before a pass makes it likelier: errors in sequence double to triple after an interruption. */
export const unease = { none: 1, break: 2, touched: 2, firstOfDay: 2 };

/** How surely a thing that went wrong ends: at a reading that differs, a new setting of it, or unnoticed. Choice. */
export const ends = { differs: 0.97, set: 0.9, unnoticed: 0.05 };

/** A batch whose mixing was broken off counts so many times. */
export const brokenMixing = 3;

/** Shares of a batch's life from which it may be too old, and how the true life spreads about the sheet's (ln). */
export const ages = { shares: [0.25, 0.5, 0.75, 1], spread: 0.6 };

/** How the shares of a cause's extents are split by their sort. Choice. */
export const sorts = {
	'air line': { onward: 0.7, interval: 0.3 },
	distance: { pass: 0.3, coat: 0.2, onward: 0.3, tilted: 0.2 },
	film: { pass: 0.7, coat: 0.3 },
	recoat: { named: 0.5, coat: 0.3, part: 0.2 },
	surface: { part: 0.7, face: 0.2, first: 0.1 },
};

/** A coat that has no preparation counts so much among those whose surface may be wrong. Choice. */
export const unprepared = 0.25;

/** Tape left on for longer than this is late. Common practice, no source; a data sheet goes before it. */
export const lateUnmask_h = 24;

/** How badly a cause shows on the day, each as likely. Choice. */
export const severities = [0.3, 0.6, 0.9];

/** How much the kind that leads on a day takes of what the cause does. Choice. */
export const leading = 0.5;

/** Eyes miss about one flaw in four: 23 % in a study of inspectors, false alarms 2 %, second-hand. */
export const seen = 0.75;

/** Half of the faces nobody looked at. Choice. */
export const halfSeen = 0.375;

/** A mark that no cause in hand put there; more for bits and something else; less for the mark asked about. Choice. */
export const stray = { any: 0.01, often: 0.03, asked: 0.1 };
export const strayOften: ReadonlySet<string> = new Set(['bits', 'other']);

/** Kinds that the next coat covers, and how much of one under a later coat is still seen. Choice. */
export const covered: ReadonlySet<string> = new Set([
	...['orange-peel', 'dry-spray', 'blush', 'thin', 'bare', 'spit', 'stripes'],
]);
export const through = {
	under: 0.6,
	covered: { done: 0.3, before: 0.1 },
	other: { done: 0.6, before: 0.1 },
	/** A mark made before its kind is usually first seen. */
	early: 0.1,
};

/** On a flat face nothing runs: what it becomes, and how much of it. Choice. */
export const flat: Record<string, { becomes: string; share: number }> = {
	run: { becomes: 'stripes', share: 0.6 },
	sag: { becomes: 'solvent-pop', share: 0.6 },
};

/** Two causes at once, against one; the heaviest that are paired; how much likelier a pair must be to be said. Choice. */
export const pair = { prior: 0.1, first: 5, second: 30, said: 3 };

/** Of this shop's own readings: a person's share of steps that go really wrong (`the 23 in 1,000 of studies`), choice. */
export const own = {
	asMany: 4,
	looks: 0.8,
	wrong: 0.023,
	least: 0.3,
	most: 0.98,
	habitLeast: 0.02,
	habitMost: 0.9,
};

/** Confirmed causes of this shop move a prior as if it rested on so many. Choice. */
export const priorRestsOn = 20;

/** From which weight a cause is told (with a record that says it), likely, perhaps. */
export const words = { told: 0.8, likely: 0.75, perhaps: 0.35, none: 0.2 };

/** Explanations are taken until this weight; a pass is exposed from this weight on, and likely from that. Choice. */
export const exposure = { taken: 0.95, least: 0.03, likely: 0.5 };

/** The bracket covers this share of where the lead may have begun. */
export const bracketed = 0.9;

/** A factor from which it is a reason for, and to which one against; how many are said. */
export const reason = { for: 2, against: 0.5, said: 3 };

/** A walk ends where the lead weighs so much, or nothing left gains so many bits; minutes more where the part changes. */
export const walkEnds = { lead: 0.95, gain_bit: 0.02, otherPart_min: 0.5 };

/** A look at a face along a lamp, and a press with the thumb for what stays soft. Minutes are this project's choice. */
export const faceLook = { lamp_min: 0.5, press_min: 1, ifNot: 0.02 };

/** Looks at the bench: what they bear on, minutes, and how often they show it if it is so and if it is not. Choice. */
export const benchLooks: readonly {
	do: string;
	minutes: number;
	/** Codes, or codes with a form. */
	on: readonly string[];
	is: number;
	isNot: number;
	/** What must not have happened since. */
	while: 'gun untouched' | 'batch there' | 'same day' | 'any time';
}[] = [
	{
		...{ do: 'spray a burst on paper', minutes: 1, on: ['fan-along-stroke', 'bad-pattern'] },
		...{ is: 0.9, isNot: 0.05, while: 'gun untouched' },
	},
	{
		...{ do: 'read the gauge, trigger pulled', minutes: 0.5, on: ['pressure-off'] },
		...{ is: 0.9, isNot: 0.05, while: 'gun untouched' },
	},
	{
		...{
			do: 'weigh the cans: what is gone from each?',
			minutes: 2,
			on: ['no-hardener', 'wrong-ratio', 'wrong-can'],
		},
		...{ is: 0.8, isNot: 0.05, while: 'any time' },
	},
	{
		...{ do: 'look whether the rest of the batch is hard', minutes: 1, on: ['no-hardener', 'wrong-ratio'] },
		...{ is: 0.9, isNot: 0.05, while: 'batch there' },
	},
	{
		...{ do: 'time the rest of the batch', minutes: 3, on: ['viscosity-off', 'batch-too-old'] },
		...{ is: 0.8, isNot: 0.1, while: 'batch there' },
	},
	{
		...{ do: 'strain the rest of the batch, finely', minutes: 2, on: ['dirt-in-paint'] },
		...{ is: 0.8, isNot: 0.1, while: 'batch there' },
	},
	{
		...{ do: 'blow drain and filter onto white paper', minutes: 1, on: ['air-line'] },
		...{ is: 0.8, isNot: 0.05, while: 'same day' },
	},
	{
		...{ do: 'rub solvent on a hidden place', minutes: 2, on: ['no-hardener', 'wrong-ratio'] },
		...{ is: 0.9, isNot: 0.1, while: 'any time' },
	},
	{
		...{ do: 'gauge the film there and on a sound face', minutes: 1 },
		on: [
			...['film-too-heavy', 'film-too-light', 'gun-too-near', 'gun-too-far'],
			...['too-many-coats', 'face-missed'],
		],
		...{ is: 0.7, isNot: 0.1, while: 'any time' },
	},
	{
		...{ do: 'ask who held it, how far off, wiped with what', minutes: 0.5 },
		on: ['gun-too-near', 'gun-too-far', 'surface', 'handling'],
		...{ is: 0.5, isNot: 0.1, while: 'any time' },
	},
];
