import type { EventOf, Facts } from '../src/day/records.ts';
import {
	type Args,
	type DayContext,
	type FaceState,
	faceNamed,
	knownOf,
	of,
	ruleFor,
	same,
	stepFace,
} from './day-context.ts';
import { type FaceStop, faceStops } from './face.ts';

/**
 * What stands between a face and its next coat. The guards of the day, the step that comes next, what a stretch offers
 * and what can be done now all read this one list.
 */

export type Stop =
	| { by: 'account' | 'one-go' | 'list' }
	| FaceStop
	| { by: 'air'; is: 'none' | 'stale' | 'out' }
	| { by: 'cup'; is: 'dead' | 'other-material' | 'other-mix' | 'stood' | 'dying' | 'empty' | 'short' }
	| { by: 'gun'; is: 'unknown' | 'horns' | 'fan' | 'aged' };

/** The order in which stops are put right: dust and water first, then list, air and paint; tacked last, before the gun. */
export const ladder = [
	'account',
	'one-go',
	'aside',
	'coats',
	'window wait',
	'prep',
	'window scuff',
	'window sand',
	'touch',
	'list',
	'air none',
	'air stale',
	'air out',
	'cup dead',
	'cup other-material',
	'cup other-mix',
	'cup stood',
	'cup dying',
	'cup empty',
	'cup short',
	'tack',
	'gun unknown',
	'gun horns',
	'gun fan',
	'gun aged',
] as const;

const rungs: ReadonlyMap<string, number> = new Map(ladder.map((rung, at) => [rung, at]));
const rungOf = (stop: Stop): number => rungs.get('is' in stop ? `${stop.by} ${stop.is}` : stop.by) ?? 0;

type Told<By extends Stop['by']> = readonly Extract<Stop, { by: By }>[];

/** Of every face broken off it is known how much is on, and of a late pass whether it stopped; the list was gone through. */
function ofDay({ faces, late, listsDone }: DayContext): Stop[] {
	return [
		...(faces.some(face => face.matches('broken')) ? [{ by: 'account' as const }] : []),
		...(late ? [{ by: 'one-go' as const }] : []),
		...(listsDone.includes('before-spraying') ? [] : [{ by: 'list' as const }]),
	];
}

/** A reading out of the limits may be passed over with a reason; a missing one never. */
function ofAir({ context }: FaceState, { air = 'none' }: Facts): Told<'air'> {
	if (air === 'ok' || (air === 'out' && context.overrides.includes('air'))) return [];
	return [{ by: 'air', is: air }];
}

function ofCup({ cup, batches }: DayContext, face: FaceState, facts: Facts): Told<'cup'> {
	const material = ruleFor(face)?.material;
	if (cup.length === 0) return [{ by: 'cup', is: 'empty' }];
	const isOther = cup.some(letter => batches[letter]?.context.material !== material);
	return [
		...(facts.alive === true ? [] : [{ by: 'cup' as const, is: 'dead' as const }]),
		...(isOther ? [{ by: 'cup' as const, is: 'other-material' as const }] : []),
		...(facts.thinned === true ? [] : [{ by: 'cup' as const, is: 'other-mix' as const }]),
		...(facts.fresh === true ? [] : [{ by: 'cup' as const, is: 'stood' as const }]),
		...(facts.lasts === true ? [] : [{ by: 'cup' as const, is: 'dying' as const }]),
		...(facts.enough === true ? [] : [{ by: 'cup' as const, is: 'short' as const }]),
	];
}

function ofGun(context: DayContext, face: FaceState, { aged }: Facts): Told<'gun'> {
	const known = knownOf(context);
	const rule = ruleFor(face);
	if (!known) return [{ by: 'gun', is: 'unknown' }];
	return [
		...(known.horns === rule?.horns ? [] : [{ by: 'gun' as const, is: 'horns' as const }]),
		...(known.fanHeight_mm === rule?.fanHeight_mm ? [] : [{ by: 'gun' as const, is: 'fan' as const }]),
		...(aged === false ? [] : [{ by: 'gun' as const, is: 'aged' as const }]),
	];
}

/**
 * Everything that stands between a face and its next coat, in the order in which it is put right; none: it may be
 * sprayed. A fact that is missing counts as bad.
 */
export const stopsOf = (context: DayContext, face: FaceState, facts: Facts): readonly Stop[] =>
	[
		...ofDay(context),
		...faceStops(face, facts.wet === true),
		...ofAir(face, facts),
		...ofCup(context, face, facts),
		...ofGun(context, face, facts),
	].sort((one, other) => rungOf(one) - rungOf(other));

/** Rules that a face is sprayed against, each with a reason: its own, those of lists and check, and of the paint in the cup. */
export function marksOf(context: DayContext, face: FaceState): string[] {
	const { cup, batches, passedOver } = context;
	const ofPaint = cup.flatMap(letter => batches[letter]?.context.passedOver ?? []);
	const ofCheck = knownOf(context)?.passedOver ?? [];
	return [...new Set([...face.context.overrides, ...passedOver, ...ofCheck, ...ofPaint])];
}

/** A start is tied to the check, the batches and the air reading it is made under, and marked with every override. */
const tied = (context: DayContext, face: FaceState, started: EventOf<'face.started'>): boolean =>
	started.check === knownOf(context)?.check &&
	same(started.cup, context.cup) &&
	started.air !== null &&
	marksOf(context, face).every(rule => started.overrides.includes(rule));

/** A face may be started: nothing stands before it, and the record is tied to what it is sprayed under. */
export function maySpray({ context, event }: Args): boolean {
	const started = of(event, 'face.started');
	const face = started && faceNamed(context, started.face);
	if (!started || !face) return false;
	return (
		stopsOf(context, face, started.facts ?? {}).length === 0 &&
		tied(context, face, started) &&
		stepFace(face, event) !== face
	);
}

/** No list, however a shop writes it, leaves these out; the pattern is the last thing before *ready*. */
function asksEnough({ items, size }: EventOf<'check.began'>): boolean {
	const must = size === 'full' ? ['mask', 'batch'] : ['batch'];
	return must.every(item => items.includes(item)) && ['pattern', 'card'].includes(items.at(-1) ?? '');
}

/** Nothing of the moment stands in the way. */
const noneBad: Facts = {
	air: 'ok',
	alive: true,
	thinned: true,
	fresh: true,
	lasts: true,
	enough: true,
	aged: false,
	wet: true,
};

/** What must be put right before the gun is checked; the rest may be while it is, and is held against the start. */
const beforeCheck: readonly Stop['by'][] = ['account', 'one-go', 'list', 'aside', 'cup'];

/** A gun check may begin for a face: it is long enough and of the size that is due, and nothing is put right before it. */
export function mayCheckGun({ context, event }: Args): boolean {
	const began = of(event, 'check.began');
	const face = began && faceNamed(context, began.face);
	if (!began || !face) return false;
	return (
		began.size !== null &&
		asksEnough(began) &&
		(!context.gun.matches('fullCheckDue') || began.size === 'full') &&
		!stopsOf(context, face, noneBad).some(({ by }) => beforeCheck.includes(by))
	);
}
