import type { Component, Material } from '../job/job.ts';
import { lifeClock, livesAt_h, standingClock } from '../job/process-clocks.ts';
import { isTimed } from '../records/cup-timed.ts';
import { pourOrder } from '../trade/mix.ts';
import { figure } from '../words/say.ts';
import { explain, type Ground, notRead, sumOf } from './ground.ts';
import { ages, brokenMixing, namesAnother, readAsRight, recorded, wrongThenRight } from './numbers.ts';
import type { Cause } from './prior.ts';
import { lasts_ms } from './read-since.ts';
import { differsOdds, levelOdds, measuredOdds, rightOdds, type Soft, together } from './soft.ts';
import type { BatchStory, Timeline } from './timeline.ts';
import type { Explanation } from './weigh.ts';

/** By how much a level rose that was poured, mL or g. */
function risen(story: BatchStory, at: number): number {
	const [last, pour] = [story.pours[at - 1]?.record, story.pours[at]?.record];
	const before = last?.level_mL ?? last?.mass_g ?? 0;
	return Math.max(0, (pour?.level_mL ?? pour?.mass_g ?? before) - before);
}

/** What went in of a component ÷ what should have: from the levels before its pours and the level last wanted. */
function pouredShare(story: BatchStory, component: Component): number | null {
	const at = story.pours.findLastIndex(({ record }) => record.component === component);
	const pour = story.pours[at]?.record;
	if (!pour) return null;
	const last = story.pours[at - 1]?.record;
	const level = pour.level_mL ?? pour.mass_g;
	const wanted = pour.type === 'batch.poured' ? (pour.wanted_mL ?? pour.wanted_g) : undefined;
	const before = last?.level_mL ?? last?.mass_g ?? 0;
	if (level === undefined || wanted === undefined || wanted <= before)
		return pour.found === 'right' ? 1 : pour.found === 'short' ? 0.7 : 1.5;
	const earlier = story.pours.slice(0, at).reduce((sum, { record }, nth) => {
		return record.component === component ? sum + risen(story, nth) : sum;
	}, 0);
	return (earlier + level - before) / (earlier + wanted - before);
}

/** All that went in of a component, mL or g. */
const allOf = (story: BatchStory, component: Component): number =>
	story.pours.reduce(
		(sum, { record }, nth) => (record.component === component ? sum + risen(story, nth) : sum),
		0,
	);

/** Whether a pour that was off was made good: more of what was in before went in after it, and the ratio is right in the end. */
function isMadeGood(story: BatchStory, component: Component): boolean {
	const at = story.pours.findLastIndex(({ record }) => record.component === component);
	const before = new Set(story.pours.slice(0, at).map(({ record }) => record.component));
	const topped = story.pours.slice(at + 1).some(({ record }) => before.has(record.component));
	if (!topped || story.found.some(({ record }) => record.found === 'unknown')) return false;
	const parts = story.started.ratio;
	return pourOrder.every(other => {
		const wanted = (allOf(story, component) * (parts[other] ?? 0)) / (parts[component] ?? Number.NaN);
		return Math.abs(allOf(story, other) - wanted) <= readAsRight * wanted;
	});
}

/** What is short or over by form: extra parts that harden or thin count with the part that does. */
const partsOf: Readonly<Record<string, readonly Component[]>> = {
	hardener: ['hardener', 'accelerator'],
	reducer: ['reducer', 'flattener'],
	base: ['base'],
};

const right = (h: number, says: string): Soft => ({
	odds: rightOdds(h),
	isRight: true,
	isRecord: false,
	says: () => says,
});
const record = (odds: number, says: string): Soft => ({
	odds,
	isRight: false,
	isRecord: odds > 1,
	says: () => says,
});

/** A can that differs names the wrong can, and not a can that was left out. */
const asAnother = (soft: Soft): Soft =>
	soft.isRight ? soft : { ...soft, odds: namesAnother, isRecord: false };

const levelHabit = ({ habits }: Ground, { started }: BatchStory): number =>
	started.by === 'weight' ? habits.number : habits.eye;

/** What the levels say of a part: that it is short, over, or that none of it went in. */
function levels(
	ground: Ground,
	story: BatchStory,
	component: Component,
	of: 'short' | 'over' | 'none',
): Soft[] {
	const share = pouredShare(story, component);
	const pour = story.pours.findLast(one => one.record.component === component);
	if (share === null || !pour) {
		if (of !== 'none') return [];
		return [record(levelOdds(0, 'none'), `no ${component} was read into batch ${story.letter}`)];
	}
	const isRight = pour.record.found === 'right';
	if ((isRight && Math.abs(share - 1) <= readAsRight) || isMadeGood(story, component))
		return [
			right(levelHabit(ground, story), `${component} read right in ${story.letter}, a key alone says so`),
		];
	const percent = `at ${Math.round(share * 100)}% of its part`;
	const says = isRight
		? `${component} was read as right, ${percent}`
		: `${component} was ${pour.record.found}, ${percent}`;
	return [record(levelOdds(share, of), says)];
}

/** Which can was in the hand: every reading of its mark, and the can that is recorded of its pour. */
function canOf(ground: Ground, story: BatchStory, component: Component): Soft[] {
	const h = ground.habits.eye;
	const marks = ground.timeline.cans.get(`${story.material}/${component}`);
	const poured = story.pours.flatMap(({ record: pour }): Soft[] => {
		if (pour.type !== 'batch.poured' || pour.component !== component || marks?.includes(pour.can) !== false)
			return [];
		return [record(differsOdds(h), `${component} came from the can marked ${pour.can}`)];
	});
	const read = story.cans.filter(({ record: { wanted } }) => marks?.includes(String(wanted)));
	const last = read.at(-1)?.record;
	const wrong = read.find(({ record: { matched } }) => !matched)?.record;
	if (!last) return poured;
	if (!last.matched)
		return [...poured, record(differsOdds(h), `can mark ${last.value} was read, ${last.wanted} wanted`)];
	if (wrong)
		return [...poured, record(wrongThenRight, `can mark ${wrong.value} was read first, then ${last.value}`)];
	return [...poured, right(h, `the ${component}'s can mark read right in ${story.letter}`)];
}

function stood({ timeline, habits }: Ground, story: BatchStory): Soft[] {
	const material = timeline.job.materials[story.material];
	if (!material) return [];
	const poured = story.pours.filter(({ at }) => story.stood === null || at <= story.stood).at(-1);
	const from = poured?.at ?? Date.parse(story.started.at);
	if (story.stood === null) return [record(recorded.is, `no record says that batch ${story.letter} stood`)];
	const least = (story.stood - from) / 60_000;
	const wanted = standing_min(material, story, timeline, from, story.stood);
	if (least >= wanted * 0.95) return [right(habits.eye, `batch ${story.letter} stood its time`)];
	return [record(recorded.is, `it stood ${Math.round(least)} of ${wanted} min`)];
}

/** How long it was to stand, min: by what had been read until it was used, where the sheet lists points. */
function standing_min(
	material: Material,
	story: BatchStory,
	timeline: Timeline,
	from: number,
	until: number,
): number {
	const clock = standingClock(material);
	if (!clock) return material.standing_min;
	const read_C = timedBy(story, until)?.record.tempC ?? null;
	const span = { from, until, of: 'airC', standing: { read_C } } as const;
	return lasts_ms(timeline, timeline.days[story.day], clock, span) / 60_000;
}

/** The last time that its flow cup was timed until some moment. */
const timedBy = (story: BatchStory, until: number) =>
	story.timed.filter(({ at, record }) => at <= until && isTimed(record)).at(-1);

function viscosity({ timeline, habits }: Ground, story: BatchStory, form: 'thick' | 'thin'): Soft[] {
	const last = story.timed.filter(({ record: one }) => isTimed(one)).at(-1)?.record;
	if (!last) return [];
	const { seconds, fits, tempC } = last;
	const [low, high] = timeline.job.materials[story.material]?.cup?.seconds ?? [seconds, seconds];
	const isInside = seconds >= low && seconds <= high;
	if (isInside && !fits)
		return [record(wrongThenRight, `its paint was ${figure(tempC)} °C as the cup was timed`)];
	const half = Math.max((high - low) / 2, 1e-6);
	const odds = measuredOdds(form, (seconds - (low + high) / 2) / half, habits.number);
	const says = () => `the cup ran ${figure(seconds)} s, ${figure(low)} to ${figure(high)} wanted`;
	return [{ odds, isRight: odds < 1, isRecord: !isInside && odds > 1, says }];
}

const strained = ({ habits }: Ground, { letter, steps }: BatchStory): Soft[] =>
	steps.includes('strain') ? [right(habits.eye, `batch ${letter} was strained`)] : [];

/** An override of the mixing that would say it. */
const passedOver = (story: BatchStory, ...rules: string[]): Soft[] =>
	story.overrides
		.filter(({ record: { rule } }) => rules.includes(rule))
		.map(({ record: { rule } }) => record(recorded.is, `rule "${rule}" was passed over in ${story.letter}`));

const formed = (form: string | null): [string, string] => {
	const [part = 'hardener', way = ''] = (form ?? '').split('-');
	return [part, way];
};

/** What was read and recorded of a cause in a batch; null: the batch cannot have it. */
function softsIn(ground: Ground, story: BatchStory, { code, form }: Cause): Soft[] | null {
	const [part, way] = formed(form);
	const components = (partsOf[part] ?? []).filter(one => (story.started.ratio[one] ?? 0) > 0);
	switch (code) {
		case 'no-hardener':
			if (story.started.ratio.hardener === 0) return null;
			return [
				...canOf(ground, story, 'hardener').map(asAnother),
				...levels(ground, story, 'hardener', 'none'),
			];
		case 'wrong-can':
			return components.length === 0 ? null : components.flatMap(one => canOf(ground, story, one));
		case 'wrong-ratio':
			if (components.length === 0) return null;
			return [
				...components.flatMap(one => levels(ground, story, one, way === 'over' ? 'over' : 'short')),
				...passedOver(story, 'marks'),
			];
		case 'not-stood': {
			const material = ground.timeline.job.materials[story.material];
			return material && material.standing_min > 0 ? stood(ground, story) : null;
		}
		case 'viscosity-off':
			return viscosity(ground, story, form === 'thin' ? 'thin' : 'thick');
		case 'dirt-in-paint':
			return [...strained(ground, story), ...passedOver(story, 'strain')];
		default:
			return null;
	}
}

/** Causes that a whole batch has. */
export const batchCodes = [
	'no-hardener',
	'wrong-can',
	'wrong-ratio',
	'not-stood',
	'viscosity-off',
	'dirt-in-paint',
];

/** What strengthens a batch against the others: a break in its mixing. */
const weightOf = ({ breaks }: BatchStory): number => (breaks.length > 0 ? brokenMixing : 1);

/** Of a cause that a batch has as a whole: every pass with it in the cup. */
export function batchExtents(ground: Ground, cause: Cause): Explanation[] {
	const found = [...ground.timeline.batches.values()].flatMap(story => {
		const softs = softsIn(ground, story, cause);
		const passes = ground.timeline.cups.get(story.letter) ?? [];
		return softs && passes.length > 0 ? [{ story, softs, passes, weight: weightOf(story) }] : [];
	});
	const whole = sumOf(found.map(({ weight }) => weight));
	return found.flatMap(({ story, softs, passes, weight }) => {
		if (softs.length === 0 && passes.some(pass => ground.asked.includes(pass)))
			notRead(ground, cause.code, unreadOf(cause.code, story.letter));
		const broken = { ...record(weight, `a break fell into the mixing of ${story.letter}`), isRecord: false };
		const at = Date.parse(story.started.at);
		return explain(ground, cause, passes, {
			share: weight / whole,
			odds: together(softs),
			softs: () => [...softs, ...(weight > 1 ? [broken] : [])],
			extent: `batch ${story.letter}`,
			start: () => ({ from: at, to: Math.max(at, passes[0]?.began ?? at) }),
		});
	});
}

const unreads: Readonly<Record<string, string>> = {
	'viscosity-off': 'viscosity: the seconds of batch ! were not read',
	'wrong-can': 'can: no mark was read for every pour of batch !',
	'dirt-in-paint': 'dirt: nothing says that batch ! was strained',
};
const unreadOf = (code: string, letter: string): string =>
	(unreads[code] ?? 'levels: none was read of batch !').replace('!', letter);

/** The earliest that the hardener can have gone in: its can in the hand, no level read since; null: it never did. */
function hardenedAt({ material, cans, pours, found }: BatchStory, timeline: Timeline): number | null {
	const level = pours.find(({ record }) => record.component === 'hardener');
	if (!level) return null;
	const since = Math.max(0, ...[...pours, ...found].map(({ seq }) => seq).filter(seq => seq < level.seq));
	const marks = timeline.cans.get(`${material}/hardener`) ?? [];
	const inHand = cans.find(
		({ seq, record }) =>
			seq > since && seq < level.seq && record.matched && marks.includes(String(record.value)),
	);
	return (inHand ?? level).at;
}

function lifeEnds(story: BatchStory, timeline: Timeline, until: number): number {
	const from = hardenedAt(story, timeline) ?? Date.parse(story.started.at);
	const material = timeline.job.materials[story.material];
	if (!material) return Number.POSITIVE_INFINITY;
	const clock = lifeClock(material);
	const day = timeline.days[story.day];
	if (clock) {
		const pot = { make_mL: story.started.make_mL, read_C: timedBy(story, until)?.record.tempC ?? null };
		return from + lasts_ms(timeline, day, clock, { from, until, of: 'airC', pot });
	}
	const warmest = Math.max(...(day?.air ?? []).map(({ record }) => record.airC), material.potLife.at_C);
	const temp_C = Math.min(warmest, material.potLife.at_C + 20);
	return from + livesAt_h(material, temp_C) * 3600_000;
}

/** Φ, by Abramowitz & Stegun 7.1.26 (from memory): good to 1e-7. */
function normal(z: number): number {
	const t = 1 / (1 + 0.3275911 * (Math.abs(z) / Math.SQRT2));
	const series =
		t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
	const erf = 1 - series * Math.exp(-(z ** 2) / 2);
	return z < 0 ? (1 - erf) / 2 : (1 + erf) / 2;
}

/** How likely a batch was too old from a share of its life on, and not before. */
export function ageShares(): { share: number; chance: number }[] {
	const upTo = (share: number) => normal(Math.log(share) / ages.spread);
	return ages.shares.map((share, nth) => ({
		share,
		chance: upTo(share) - (nth === 0 ? 0 : upTo(ages.shares[nth - 1] ?? 1)),
	}));
}

/** Of paint too old: passes later than a share of its batch's life. */
export function ageExtents(ground: Ground, cause: Cause): Explanation[] {
	const { timeline } = ground;
	const batches = [...timeline.batches.values()].filter(({ letter }) => timeline.cups.has(letter));
	return batches.flatMap(story => {
		const cup = timeline.cups.get(story.letter) ?? [];
		const from = hardenedAt(story, timeline) ?? Date.parse(story.started.at);
		const end = lifeEnds(story, timeline, cup.at(-1)?.ended ?? from);
		return ageShares().flatMap(({ share, chance }) => {
			const old = from + share * (end - from);
			const passes = cup.filter(({ ended }) => ended > old);
			if (passes.length === 0) return [];
			const over_min = Math.round(((passes.at(-1)?.ended ?? end) - end) / 60_000);
			const softs =
				over_min > 0
					? [record(recorded.is, `batch ${story.letter} was ${over_min} min past its pot life`)]
					: [];
			return explain(ground, cause, passes, {
				share: chance / batches.length,
				odds: together(softs),
				softs: () => softs,
				extent: `batch ${story.letter} from ${Math.round(share * 100)}% of its life on`,
				start: () => ({ from: old, to: Math.max(old, passes[0]?.began ?? old) }),
			});
		});
	});
}
