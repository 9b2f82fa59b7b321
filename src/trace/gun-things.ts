import { type Job, plannedOn, setUpOf } from '../job/job.ts';
import { figure } from '../words/say.ts';
import { bracketOf, type Evidence, exposedTo } from './bracket.ts';
import { type Asked, type Clue, changesBefore, dayOf, type Suspicion } from './suspicion.ts';
import type { Change, Reading } from './timeline.ts';

type GunThing = {
	thing: string;
	codes: string[];
	/** Reading features that bear on it. */
	features: string[];
	judge(reading: Reading): Omit<Evidence, 'at'> | null;
	/** Whether a logged change touches it directly. */
	touches(change: Change, next: Change | undefined): string | null;
};

const share = ({ record }: Reading): number =>
	typeof record.value === 'number' && typeof record.wanted === 'number' && record.wanted !== 0
		? record.value / record.wanted - 1
		: 0;

const said = (value: Reading['record']['wanted']) => (typeof value === 'number' ? figure(value) : value);
const shown = ({ record }: Reading) =>
	`${record.feature} read ${said(record.value)}, wanted ${said(record.wanted)}`;

const plain = (reading: Reading): Omit<Evidence, 'at'> => ({
	good: reading.record.matched,
	size: reading.record.matched ? 0 : Math.max(1, Math.abs(share(reading))),
	says: shown(reading),
});

const ruled = (change: Change, rules: readonly string[]) =>
	change.record.type === 'override.given' && rules.includes(change.record.rule)
		? `rule "${change.record.rule}" was passed over`
		: null;

const why = (change: Change) => (change.record.type === 'gun.unknown' ? change.record.why : null);
const set = (change: Change | undefined) => (change?.record.type === 'gun.set' ? change.record : null);

/** A knob that was turned: of the air, of the fluid, or not said of which. */
function knob(change: Change, next: Change | undefined, of: 'pressure' | 'fluid'): string | null {
	if (why(change) !== 'knob') return null;
	const after = set(next);
	if (!after || (after.pressure_kPa === null && after.fluid === null)) return 'a knob was turned';
	return (of === 'pressure' ? after.pressure_kPa : after.fluid) === null ? null : `the ${of} knob was turned`;
}

/** The check as a whole, and the items of it that tell how the fan lies. */
const fanRules = ['gun-check', 'pattern', 'card', 'horns'];

export const gunThings: readonly GunThing[] = [
	{
		thing: 'fan direction',
		codes: ['fan-along-stroke'],
		features: ['pattern', 'card', 'horns'],
		judge: reading =>
			reading.record.value === 'bad' || reading.record.value === 'round' ? null : plain(reading),
		touches: change => {
			if (why(change) === 'cap-turn') return 'the cap was turned';
			if (set(change)?.horns) return 'the horns were set';
			return ruled(change, fanRules);
		},
	},
	{
		thing: 'pattern',
		codes: ['bad-pattern'],
		features: ['pattern', 'card', 'flooded', 'pattern-height'],
		judge: reading => {
			if (reading.record.feature !== 'pattern') return plain(reading);
			const bad = reading.record.value === 'bad';
			return { good: !bad, size: bad ? 1 : 0, says: shown(reading) };
		},
		touches: change => {
			if (change.record.type === 'fault.seen') return 'a gun fault was seen';
			if (why(change) === 'cleaned') return 'the gun was cleaned';
			return ruled(change, fanRules);
		},
	},
	{
		thing: 'pressure',
		codes: ['pressure-off'],
		features: ['gauge'],
		judge: plain,
		touches: (change, next) => {
			if (set(change)?.pressure_kPa) return 'the pressure was set';
			return knob(change, next, 'pressure') ?? ruled(change, ['gun-check', 'gauge']);
		},
	},
	{
		thing: 'fluid',
		codes: ['film-too-heavy', 'film-too-light'],
		features: ['flooded', 'pattern-height'],
		judge: plain,
		touches: (change, next) => {
			if (set(change)?.fluid) return 'the fluid was set';
			return knob(change, next, 'fluid');
		},
	},
];

/** The set-up of the gun that a coat of a face is sprayed with; undefined: the job has one alone. */
function setUpFor(
	job: Job,
	{ face, coat }: { face: string | null; coat: number | null },
): string | undefined {
	const planned = plannedOn(job, face, coat);
	return planned && setUpOf(job, planned);
}

/** The readings of a thing on the day of a pass, in order, of the gun that it was sprayed with. */
function evidenceOf({ timeline, pass }: Asked, thing: GunThing): Evidence[] {
	const found: Evidence[] = [];
	const setUp = setUpFor(timeline.job, pass);
	for (const reading of dayOf(timeline, pass).readings) {
		if (!thing.features.includes(reading.record.feature)) continue;
		if (setUpFor(timeline.job, reading.record) !== setUp) continue;
		const judged = thing.judge(reading);
		if (judged) found.push({ at: reading.at, ...judged });
	}
	return found;
}

function clueOf(
	change: Change,
	next: Change | undefined,
	thing: GunThing,
	explains: Clue['explains'],
): Clue | null {
	const touched = thing.touches(change, next);
	if (touched) return { kind: 'changed', at: change.at, size: 0, reason: touched, explains };
	if (change.record.type === 'break.began')
		return { kind: 'break', at: change.at, size: 0, reason: 'a break, and it was not read after', explains };
	if (why(change) === 'wait')
		return { kind: 'wait', at: change.at, size: 0, reason: 'a wait, and it was not read after', explains };
	const filled = why(change);
	if (filled === 'batch' || filled === 'refill')
		return {
			kind: 'wait',
			at: change.at,
			size: 0,
			reason: `${filled === 'batch' ? 'a new batch' : 'a refill'}, and it was not read after`,
			explains,
		};
	return null;
}

/** A contrary reading that a break or wait parts from the face says less of the face. This project's own choice. */
const slight = 0.3;

/** What lies between a pass and a reading after it: a change of the very thing, a break or wait, or nothing. */
function lapseBetween({ timeline, pass }: Asked, thing: GunThing, at: number): 'changed' | 'break' | null {
	const between = dayOf(timeline, pass).changes.filter(change => change.at >= pass.ended && change.at <= at);
	if (between.some((change, nth) => thing.touches(change, between[nth + 1]) !== null)) return 'changed';
	return between.some(change => change.record.type === 'break.began' || why(change) === 'wait')
		? 'break'
		: null;
}

/** The same clue about a thing that was read right straight after, with nothing between to put it right. */
const clear = (clue: Clue): Clue => ({ ...clue, kind: 'cleared' });

/** What one thing about the gun may have had to do with a pass. */
export function gunSuspicion(asked: Asked, thing: GunThing, code: string): Suspicion {
	const { pass } = asked;
	const { before, after, against, from, to } = bracketOf(asked, evidenceOf(asked, thing));
	const exposed = exposedTo(asked, { from, to });
	const changes = changesBefore(asked, from);
	const since = (at: number) => (one: (typeof exposed)[number]) =>
		one.day === pass.day && one.ended > at && one.began < to;
	const clues = changes
		.map((change, nth) => clueOf(change, changes[nth + 1], thing, since(change.at)))
		.filter(clue => clue !== null);
	const latest = clues.findLast(clue => clue.kind === 'changed') ?? clues.at(-1);
	for (const contrary of against)
		clues.push({
			kind: 'measured',
			at: latest?.at ?? from,
			size: contrary.size,
			reason: `${contrary.says}, and passed over`,
			explains: since(from),
		});
	const lapse = after ? lapseBetween(asked, thing, after.at) : null;
	if (after && !after.good) {
		if (lapse !== 'changed')
			clues.push({
				kind: 'measured',
				at: latest?.at ?? from,
				size: lapse === 'break' && latest?.kind !== 'changed' ? Math.min(after.size, slight) : after.size,
				reason: `${after.says} at the next reading`,
				explains: since(from),
			});
	}
	if (clues.length === 0)
		clues.push({ kind: 'open', at: from, size: 0, reason: 'nothing was logged', explains: since(from) });
	const cleared = after?.good === true && lapse === null && against.length === 0;
	const unread = !before
		? `${thing.thing}: no reading that day before ${pass.face}`
		: !after
			? `${thing.thing}: no reading after ${pass.face}`
			: after.good
				? `${thing.thing}: two readings by eye, not read in between`
				: null;
	return {
		code,
		thing: thing.thing,
		from,
		to,
		exposed,
		clues: cleared ? clues.map(clear) : clues,
		unread,
		stays: true,
	};
}
