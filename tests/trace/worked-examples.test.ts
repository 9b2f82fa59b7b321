import { expect, test } from 'vitest';
import { ageShares } from '../../src/trace/batch-extents.ts';
import { readFaults } from '../../src/trace/faults.ts';
import { type FaceSeen, reachOf, type Scene, Sights } from '../../src/trace/marks.ts';
import { slip } from '../../src/trace/numbers.ts';
import { type Cause, causeKey, causesIn, placeWeights } from '../../src/trace/prior.ts';
import {
	differsOdds,
	habitsOf,
	levelOdds,
	measuredOdds,
	rightOdds,
	type Soft,
	together,
} from '../../src/trace/soft.ts';
import { endsIn, type Gap, type InGap, stretches } from '../../src/trace/stretches.ts';
import { after, gain_bit } from '../../src/trace/walk.ts';
import { byCode, type Explanation, weigh } from '../../src/trace/weigh.ts';

/** Worked by hand from the model alone: two kinds, three causes, four faces. */
const small = readFaults(
	`causes:
  none: { say: no hardener, check: its level }
  heavy: { say: film heavy, check: a comb }
  fan: { say: fan along the stroke, check: the pattern }
faults:
  soft:
    { say: soft, shows: { from_min: 0, to_min: 9 }, reach: this,
      causes: [{ cause: none, source: x }, { cause: heavy, source: x }] }
  run:
    { say: a run, shows: { from_min: 0, to_min: 9 }, reach: this,
      causes: [{ cause: heavy, source: x }, { cause: fan, source: x }] }
`,
	'small.yaml',
);
const causes = causesIn(small);
const cause = (code: string): Cause => {
	const found = causes.find(one => one.code === code);
	if (!found) throw new Error(code);
	return found;
};
const soft = (odds: number, more: Partial<InGap> = {}): InGap => ({
	odds,
	isRight: odds < 1,
	isRecord: odds > 1,
	ends: false,
	says: () => 'x',
	...more,
});

const face = (id: string, more: Partial<FaceSeen> = {}): FaceSeen => ({
	id,
	isFlat: false,
	coats: [{ coat: 1, ended: 0 }],
	marks: [],
	cleared: null,
	...more,
});
const mark = (kind: string, isAsked = false) => ({ marks: [{ kind, coat: 1, at: 60_000, isAsked }] });
const sound = { cleared: { coat: 1, at: 60_000 } };
const scene = (...faces: FaceSeen[]): Scene => ({ faces, asked: 60_000, faults: small.faults });

const explained = (code: string, share: number, odds: number, ...passes: number[]): Explanation => ({
	cause: cause(code),
	share,
	odds,
	passes: [],
	reach: reachOf(
		4,
		passes.map(at => ({ at, coat: 1 })),
	),
	extent: () => passes.join(' '),
	start: () => ({ from: 0, to: 0 }),
	softs: () => [],
});
/** Those that reach a mark. */
const weighed = (all: readonly Explanation[], sights: Sights) =>
	weigh(
		all.filter(({ reach }) => sights.marked.some(at => reach[at])),
		sights,
	);
const heavies = (count: number) => [
	explained('heavy', 0.2, 1, ...Array.from({ length: count }, (_, at) => at)),
	...Array.from({ length: count }, (_, at) => explained('heavy', 0.8 / count, 1, at)),
];

test('places of a list weigh as the middle of all weightings that keep its order (Barron & Barrett 1996, from memory)', () => {
	const rounded = (n: number) => placeWeights(n).map(w => w.toFixed(3));
	expect(rounded(2)).toEqual(['0.750', '0.250']);
	expect(rounded(3)).toEqual(['0.611', '0.278', '0.111']);
	expect(rounded(4)).toEqual(['0.521', '0.271', '0.146', '0.063']);
});

test('prior and effect come of one table and cannot contradict each other', () => {
	expect(causes.map(one => [causeKey(one), Number(one.prior.toFixed(4))])).toEqual([
		['none', 0.3625],
		['heavy', 0.5],
		['fan', 0.1375],
	]);
	expect([...cause('heavy').effect].map(([kind, share]) => [kind, Number(share.toFixed(3))])).toEqual([
		['soft', 0.275],
		['run', 0.725],
	]);
});

const keyed = together([soft(rightOdds(0.2)), soft(rightOdds(0.2))]);
const batches = (broken: boolean, more: Partial<FaceSeen>[] = []) => {
	const faces = [
		face('1', sound),
		face('2', more[0]),
		face('3', mark('soft', true)),
		face('4', mark('soft')),
	];
	const [a, b] = broken ? [0.25, 0.75] : [0.5, 0.5];
	return weighed(
		[
			explained('none', a, keyed, 0, 1),
			explained('none', b, keyed, 2, 3),
			...heavies(4),
			explained('fan', 1, 1, 0, 1, 2, 3),
		],
		new Sights(scene(...faces)),
	);
};
const weights = (found: ReturnType<typeof weigh>) =>
	Object.fromEntries(found.map(one => [`${one.cause.code} ${one.extent()}`.trim(), one.weight.toFixed(3)]));
const wOf = (found: ReturnType<typeof weigh>, code: string, extent: string) =>
	found.find(one => one.cause.code === code && one.extent() === extent)?.W ?? Number.NaN;

test('a batch: two faces soft, one cleared, keys say right; what no key can drop stands first', () => {
	const found = batches(false);
	expect(wOf(found, 'none', '2 3')).toBeCloseTo(0.00567, 5);
	expect(wOf(found, 'heavy', '0 1 2 3')).toBeCloseTo(0.000967, 6);
	expect(weights(found)).toMatchObject({
		'none 2 3': '0.837',
		'heavy 0 1 2 3': '0.143',
		'heavy 2': '0.018',
		'heavy 3': '0.002',
		'none-of-these': '0.000',
	});
});

test('a break while it was mixed, and one more face cleared, speak for the batch; clearing leaves its W as it was', () => {
	expect(weights(batches(true))).toMatchObject({
		'none 2 3': '0.885',
		'heavy 0 1 2 3': '0.101',
		'heavy 2': '0.013',
		'heavy 3': '0.001',
	});
	const cleared = batches(false, [sound]);
	expect(weights(cleared)).toMatchObject({
		'none 2 3': '0.882',
		'heavy 0 1 2 3': '0.096',
		'heavy 2': '0.019',
		'heavy 3': '0.002',
	});
	expect(wOf(cleared, 'none', '2 3') / wOf(batches(false), 'none', '2 3')).toBeCloseTo(1, 12);
});

test('the gun: right by eye, a break, then a first reading that differed', () => {
	const right = () => soft(rightOdds(0.2));
	const differed = soft(differsOdds(0.2), { ends: true });
	const gap = (unease: number, readings: InGap[]): Gap => ({
		unease,
		readings,
		ends: endsIn(readings, false),
	});
	const gaps = [gap(3, [right()]), gap(3, [right()]), gap(1, [differed]), gap(1, [])];
	const fans = stretches(gaps, 7).map(({ from, to, share, odds }) =>
		explained('fan', share, odds, ...[0, 1, 2].filter(at => at >= from && at <= to)),
	);
	const sights = new Sights(scene(face('1', sound), face('2', mark('run', true)), face('3')));
	const found = weighed([...fans, ...heavies(3)], sights);
	expect(wOf(found, 'fan', '1')).toBeCloseTo(0.564, 3);
	expect(wOf(found, 'fan', '0 1')).toBeCloseTo(0.0724, 4);
	expect(weights(found)).toMatchObject({
		'fan 1': '0.798',
		'fan 0 1': '0.102',
		'fan 1 2': '0.018',
		'fan 0 1 2': '0.002',
		'heavy 1': '0.062',
		'heavy 0 1 2': '0.017',
	});
	expect(byCode(found)[0]).toMatchObject({ code: 'fan', weight: expect.closeTo(0.921, 3) });
});

test.each([
	[0, 0, 0.2],
	[400, 0, 0.7],
	[400, 8, 0.155],
	[400, 20, 0.02],
])('of %i first readings %i differed: a key by eye is right by habit in %f', (first, differed, h) => {
	expect(habitsOf(first, differed).eye).toBeCloseTo(h, 3);
	expect(habitsOf(first, differed).card).toBe(0.02);
});

test('sizes count: a number inside its limit too, and none beyond fifty to one', () => {
	const heavy = (share: number) => measuredOdds('pull heavy', Math.log(share), 0.2);
	const digits = (odds: number) => odds.toPrecision(3);
	expect([1, 1.2, 1.5].map(heavy).map(digits)).toEqual(['0.309', '0.700', '5.03']);
	const thick = (seconds: number) => measuredOdds('thick', (seconds - 25.5) / 2.5, 0.1);
	expect([25.5, 27.5, 31].map(thick).map(digits)).toEqual(['0.181', '0.887', '45.1']);
	expect(heavy(9)).toBeCloseTo(0.2 + 0.8 * 50, 6);
	expect(differsOdds(0.2)).toBeCloseTo(36, 9);
	expect(levelOdds(0.1, 'none')).toBe(40);
	expect(levelOdds(0.8, 'short')).toBeCloseTo(16, 9);
	expect(levelOdds(0.8, 'over')).toBe(0.3);
	expect(ageShares().map(({ chance }) => chance.toFixed(3))).toEqual(['0.010', '0.114', '0.192', '0.184']);
});

test('without habit a right key leaves the slip of the finger alone; with it no keys of one batch drop a cause', () => {
	expect(rightOdds(0)).toBe(slip);
	const many: Pick<Soft, 'odds' | 'isRight'>[] = Array.from({ length: 8 }, () => soft(rightOdds(0.2)));
	expect(together(many)).toBeGreaterThan(1 / 1000);
});

test('the next look is the one that tells most in a minute, of the extent or of the cause', () => {
	const weights = [0.6, 0.3, 0.1];
	const press = { shows: [0.525, 0.525, 0.02], minutes: 1 };
	const five = { shows: [0.02, 0.525, 0.02], minutes: 0.5 };
	const burst = { shows: [0.05, 0.05, 0.9], minutes: 1 };
	const bits = (trial: typeof press) => gain_bit(weights, trial).toFixed(3);
	expect([press, five, burst].map(bits)).toEqual(['0.086', '0.263', '0.266']);
	expect((gain_bit(weights, five) / five.minutes).toFixed(2)).toBe('0.53');
	const then = (trial: typeof press, isSeen: boolean) =>
		after(weights, trial, isSeen).map(one => one.toFixed(3));
	expect(then(five, true)).toEqual(['0.070', '0.918', '0.012']);
	expect(then(five, false)).toEqual(['0.710', '0.172', '0.118']);
	expect(then(burst, true)).toEqual(['0.222', '0.111', '0.667']);
	expect(then(burst, false)).toEqual(['0.659', '0.329', '0.012']);
});
