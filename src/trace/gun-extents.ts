import { figure } from '../words/say.ts';
import {
	daysIn,
	explain,
	type Ground,
	grouped,
	inGaps,
	notRead,
	setUpFor,
	startOf,
	sumOf,
	uneasesOf,
} from './ground.ts';
import { type Habit, namesAnother, recorded } from './numbers.ts';
import type { Cause } from './prior.ts';
import { differsOdds, rightOdds } from './soft.ts';
import { endsIn, type Gap, type InGap, stretches } from './stretches.ts';
import type { Change, DayLine, Pass, Reading } from './timeline.ts';
import type { Explanation } from './weigh.ts';

type GunThing = {
	thing: string;
	/** Reading features that bear on it, and how easily each is keyed right by habit. */
	features: Readonly<Record<string, Habit>>;
	/** Which form a reading that differs names; null: it names another thing. */
	names(reading: Reading): string | null;
	/** Whether a logged change touches it, or sets it anew. */
	touches(change: Change, next: Change | undefined): 'touched' | 'set' | null;
	/** Rules that were passed over without its reading. */
	rules: readonly string[];
};

const said = (value: Reading['record']['wanted']) => (typeof value === 'number' ? figure(value) : value);
const shown = ({ record }: Reading) =>
	`${record.feature} read ${said(record.value)}, wanted ${said(record.wanted)}`;

const why = (change: Change) => (change.record.type === 'gun.unknown' ? change.record.why : null);
const set = (change: Change | undefined) => (change?.record.type === 'gun.set' ? change.record : null);

/** A knob that was turned: of the air, or not said of which. */
function airKnob(change: Change, next: Change | undefined): 'touched' | null {
	if (why(change) !== 'knob') return null;
	const after = set(next);
	const isOther = after && after.pressure_kPa === null && after.fluid !== null;
	return isOther ? null : 'touched';
}

/** Whether a pattern that differs is turned, and not bad or round. */
const isTurned = ({ record: { feature, value, card } }: Reading): boolean =>
	feature === 'horns' ||
	(feature === 'pattern' && (value === 'wide' || value === 'tall')) ||
	(feature === 'card' && card !== undefined && (value === card.wide || value === card.tall));

const gunThings: Readonly<Record<string, GunThing>> = {
	'fan-along-stroke': {
		thing: 'fan direction',
		features: { pattern: 'eye', card: 'card', horns: 'eye' },
		names: reading => (isTurned(reading) ? '' : null),
		touches: change => {
			if (set(change)?.horns) return 'set';
			return why(change) === 'cap-turn' ? 'touched' : null;
		},
		rules: ['gun-check', 'pattern', 'card', 'horns'],
	},
	'bad-pattern': {
		thing: 'pattern',
		features: { pattern: 'eye', card: 'card', flooded: 'eye', 'pattern-height': 'number' },
		names: reading => (isTurned(reading) ? null : ''),
		touches: change => {
			const isTouched = change.record.type === 'fault.seen' || why(change) === 'cleaned';
			return isTouched ? 'touched' : null;
		},
		rules: ['gun-check', 'pattern', 'card'],
	},
	'pressure-off': {
		thing: 'pressure',
		features: { gauge: 'number' },
		names: ({ record: { value, wanted } }) =>
			typeof value === 'number' && typeof wanted === 'number' ? (value < wanted ? 'low' : 'high') : '',
		touches: (change, next) => (set(change)?.pressure_kPa ? 'set' : airKnob(change, next)),
		rules: ['gun-check', 'gauge'],
	},
};

/** Causes that stay in the gun until they are noticed. */
export const gunCodes = Object.keys(gunThings);

/** Readings of a thing and checks of it that were passed over, in the order of a gap. */
function readIn(
	gap: readonly (Reading | Change)[],
	thing: GunThing,
	{ form }: Cause,
	ground: Ground,
	isLast: boolean,
): InGap[] {
	return gap.flatMap((one, nth): InGap[] => {
		const { record } = one;
		if (record.type === 'override.given') {
			const says = () => `rule "${record.rule}" was passed over`;
			// The whole check passed over names none of its things.
			const isRecord = record.rule !== 'gun-check';
			return [{ odds: recorded.is, isRight: false, isRecord, ends: false, says }];
		}
		if (record.type !== 'reading.taken') return [];
		const reading = { ...one, record };
		const h = ground.habits[thing.features[record.feature] ?? 'eye'];
		const says = () => (record.matched ? `${record.feature} read right` : shown(reading));
		if (record.matched) return [{ odds: rightOdds(h), isRight: true, isRecord: false, ends: false, says }];
		const named = thing.names(reading);
		const isNamed = named === '' || (named !== null && (form === null || named === form));
		if (!isNamed) return [{ odds: namesAnother, isRight: false, isRecord: false, ends: false, says }];
		const after = gap.slice(nth + 1);
		const isPutRight = after.some(
			later =>
				later.record.type === 'reading.taken' &&
				later.record.matched &&
				later.record.feature === record.feature,
		);
		return [{ odds: differsOdds(h), isRight: false, isRecord: true, ends: isPutRight || isLast, says }];
	});
}

/** The gaps of a day, as they are for one cause of the gun: its readings, what touches it, and how surely it ends there. */
function gapsOf(ground: Ground, day: DayLine, passes: readonly Pass[], cause: Cause, thing: GunThing): Gap[] {
	const setUp = passes[0] && setUpFor(ground.timeline, passes[0]);
	const bears = (one: Reading | Change) =>
		one.record.type === 'reading.taken'
			? one.record.feature in thing.features && setUpFor(ground.timeline, one.record) === setUp
			: one.record.type === 'override.given' && thing.rules.includes(one.record.rule);
	const said = [...day.readings, ...day.changes].filter(bears).sort((a, b) => a.at - b.at);
	const readings = inGaps(passes, said);
	const changes = inGaps(passes, day.changes);
	const uneases = uneasesOf(passes, day.changes, (...change) => thing.touches(...change) !== null);
	return readings.map((gap, nth) => {
		const soft = readIn(gap, thing, cause, ground, nth === passes.length);
		const lie = changes[nth] ?? [];
		const isSet = lie.some((change, at) => thing.touches(change, lie[at + 1]) === 'set');
		return { unease: uneases[nth] ?? 0, readings: soft, ends: endsIn(soft, isSet) };
	});
}

/** From the last good reading before a pass, else from the pass before it. */
function begunAt(ground: Ground, pass: Pass | undefined, thing: GunThing, day: DayLine) {
	const start = startOf(ground.timeline, pass);
	const good = day.readings.findLast(
		({ at, record }) => at <= start.to && record.matched && record.feature in thing.features,
	);
	return good && good.at > start.from ? { from: good.at, to: start.to } : start;
}

/** Of a thing about the gun: from any gap to any other. */
export function gunExtents(ground: Ground, cause: Cause): Explanation[] {
	const thing = gunThings[cause.code];
	if (!thing) return [];
	const whole = sumOf(
		ground.timeline.days.flatMap(day =>
			uneasesOf(day.passes, day.changes, (...change) => thing.touches(...change) !== null),
		),
	);
	return daysIn(ground).flatMap(day =>
		grouped(day.passes, pass => setUpFor(ground.timeline, pass) ?? '').flatMap(passes => {
			const gaps = gapsOf(ground, day, passes, cause, thing);
			unread(ground, cause.code, thing, passes, gaps);
			return stretches(gaps, whole).flatMap(({ from, to, share, odds, softs }) =>
				explain(ground, cause, passes.slice(from, to + 1), {
					...{ share, odds, softs, start: () => begunAt(ground, passes[from], thing, day) },
				}),
			);
		}),
	);
}

function unread(
	ground: Ground,
	code: string,
	thing: GunThing,
	passes: readonly Pass[],
	gaps: readonly Gap[],
) {
	for (const pass of ground.asked) {
		const at = passes.indexOf(pass);
		if (at < 0) continue;
		const read = (within: readonly Gap[]) => within.some(({ readings }) => readings.length > 0);
		if (!read(gaps.slice(0, at + 1)))
			notRead(ground, code, `${thing.thing}: no reading that day before ${pass.face}`);
		else if (!read(gaps.slice(at + 1)))
			notRead(ground, code, `${thing.thing}: no reading after ${pass.face}`);
	}
}
