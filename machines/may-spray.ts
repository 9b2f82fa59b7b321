import type { EventOf } from '../src/day/records.ts';
import {
	type Args,
	type DayContext,
	type FaceState,
	faceNamed,
	type Known,
	of,
	ruleFor,
	same,
	stepFace,
} from './day-context.ts';
import type { CoatRule } from './face.ts';

/** What must be true before the gun is checked for a face, and before it is sprayed. */

const fits = (known: Known | null, rule: CoatRule | undefined) =>
	known !== null && rule?.horns === known.horns && rule.fanHeight_mm === known.fanHeight_mm;

function cupServes({ cup, batches }: DayContext, material: string | undefined): boolean {
	return cup.length > 0 && cup.every(letter => batches[letter]?.context.material === material);
}

/** Rules that a face is sprayed against, each with a reason: its own, those of lists and check, and of the paint in the cup. */
export function marksOf({ known, cup, batches, passedOver }: DayContext, face: FaceState): string[] {
	const ofPaint = cup.flatMap(letter => batches[letter]?.context.passedOver ?? []);
	return [...new Set([...face.context.overrides, ...passedOver, ...(known?.passedOver ?? []), ...ofPaint])];
}

/** A start is tied to the check, the batches and the air reading it is made under, and marked with every override. */
function tied(context: DayContext, face: FaceState, started: EventOf<'face.started'>) {
	const { known, cup } = context;
	return (
		started.check === known?.check &&
		same(started.cup, cup) &&
		started.air !== null &&
		marksOf(context, face).every(rule => started.overrides.includes(rule))
	);
}

/** A face may be started: gun, cup, paint, air and the face itself allow it, and the record is tied to them. */
export function maySpray({ context, event }: Args): boolean {
	const started = of(event, 'face.started');
	const face = started && faceNamed(context, started.face);
	if (!started || !face) return false;
	const { facts } = started;
	const rule = ruleFor(face);
	const may = (name: string) => face.context.overrides.includes(name);
	return (
		fits(context.known, rule) &&
		cupServes(context, rule?.material) &&
		facts?.alive === true &&
		facts.aged === false &&
		facts.lasts === true &&
		facts.enough === true &&
		(facts.air === 'ok' || (facts.air === 'out' && may('air'))) &&
		tied(context, face, started) &&
		stepFace(face, event) !== face
	);
}

/** No list, however a shop writes it, leaves these out; the pattern is the last thing before *ready*. */
function asksEnough({ items, size }: EventOf<'check.began'>): boolean {
	const must = size === 'full' ? ['mask', 'batch'] : ['batch'];
	return must.every(item => items.includes(item)) && ['pattern', 'card'].includes(items.at(-1) ?? '');
}

/** A gun check may begin for a face: the list is long enough, and nothing else is asked first. */
export function mayCheckGun({ context, event }: Args): boolean {
	const began = of(event, 'check.began');
	const face = began && faceNamed(context, began.face);
	if (!began || !face) return false;
	return (
		!face.matches('aside') &&
		!face.matches('beside') &&
		began.size !== null &&
		asksEnough(began) &&
		(context.need !== 'full' || began.size === 'full') &&
		context.listsDone.includes('before-spraying') &&
		!context.late &&
		cupServes(context, ruleFor(face)?.material) &&
		!context.faces.some(other => other.matches('broken'))
	);
}
