import type { DayMachineState } from '../../machines/day.ts';
import type { DayEvent, EventOf } from '../../src/day/records.ts';
import { wrongMixing } from './mixed-batch.ts';
import type { Plan } from './plans.ts';
import { type Asked, causeIn, inputOf, isStranded, onlyByReading, type Shadow, wantedBy } from './shadow.ts';
import { inPlace, isNextOfLine, isReasoned, standsFor, toldInLine, wrongStart } from './sprayed-face.ts';

/**
 * The properties of the guard on one edge: what the bookkeeping knew before, the event, and where the machine went.
 * Written from the words of the rules; no guard of the machines is used. The numbers are those of `proofs.ts`.
 */

export type Property = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 11 | 13 | 14 | 15 | 16 | 17;
export type Broken = { property: Property; says: string };

export type Edge = {
	plan: Plan;
	before: DayMachineState;
	/** The bookkeeping before and after. */
	was: Shadow;
	event: DayEvent;
	after: DayMachineState;
	is: Shadow;
};

const same = (one: readonly string[], other: readonly string[]) =>
	[...one].sort().join() === [...other].sort().join();

/** Rules passed over that a face is sprayed under: its own, those of the check and the lists, and of the paint in the cup. */
export const overridesOf = (shadow: Shadow, face: string): string[] => [
	...new Set([
		...(shadow.faces[face]?.overrides ?? []),
		...(shadow.known?.passedOver ?? []),
		...shadow.passedOver,
		...shadow.cup.flatMap(letter => shadow.batches[letter]?.passedOver ?? []),
	]),
];

/** What the bookkeeping knows. */
type Told = Pick<Edge, 'plan' | 'was'>;

type Says = (property: Property, text: string) => void;

/** The gun: checked since the last cause, in full where it must be, and read to fit this face (1, 2, 4). */
function gunAtStart({ plan, was }: Told, start: EventOf<'face.started'>, says: Says) {
	const wanted = wantedBy(plan, was, start.face);
	if (was.owed === 'full') says(1, 'the full check is owed');
	if (was.owed === 'short') says(4, 'a check is owed');
	if (was.late) says(1, 'nobody has said whether the late pass went through in one go');
	if (was.known === null) says(2, 'nothing is known of the gun');
	else if (was.known.horns !== wanted?.horns) says(2, `the horns are ${was.known.horns}`);
	else if (was.known.fanHeight_mm !== wanted?.fanHeight_mm) says(2, 'the fan has another height');
	if (start.facts?.aged !== false) says(4, 'the check is too old');
}

/** The cup: every batch with its hardener read, stood, alive, and of the right material (13). */
function cupAtStart({ plan, was }: Told, { face, facts }: EventOf<'face.started'>, says: Says) {
	const wanted = wantedBy(plan, was, face);
	if (was.cup.length === 0) says(13, 'the cup is empty');
	for (const letter of was.cup) {
		const batch = was.batches[letter];
		if (batch?.stage !== 'in the cup') says(13, `${letter} is not in the cup`);
		else {
			if (!batch.inPot.includes('hardener')) says(13, `no hardener was read into ${letter}`);
			if (batch.open.length > 0) says(13, `${letter} is not mixed: ${batch.open.join(', ')}`);
			if (batch.unknown || batch.adrift) says(13, `nobody knows what is in ${letter}`);
			if (batch.material !== wanted?.material) says(13, `${letter} is ${batch.material}`);
		}
	}
	if (facts?.alive !== true) says(13, 'the cup is past its life');
	if (facts?.thinned !== true) says(13, 'the cup is thinned for another coat');
	if (facts?.fresh !== true) says(13, 'the paint has stood in the gun too long');
	if (facts?.lasts !== true) says(13, 'the cup does not live until the face is done');
	if (facts?.enough !== true) says(13, 'the cup holds less than the face wants');
}

/** The record ties the face to the check, the batches and the air that it is sprayed under, and names the overrides (11, 15). */
function tiesAtStart({ was }: Told, start: EventOf<'face.started'>, says: Says) {
	const { facts, air, check, cup, face } = start;
	if (was.known && check !== was.known.check) says(15, `tied to check ${check}`);
	if (!same(cup, was.cup)) says(15, `tied to batches ${cup.join('+')}`);
	if (air === null) says(15, 'tied to no air reading');
	const airServes =
		facts?.air === 'ok' || (facts?.air === 'out' && was.faces[face]?.overrides.includes('air'));
	if (!airServes) says(15, `the air reading is ${facts?.air}`);
	const unmarked = overridesOf(was, face).filter(rule => !start.overrides.includes(rule));
	if (unmarked.length > 0) says(11, `the face is not marked with: ${unmarked.join(', ')}`);
}

/** Everything that a start breaks. */
export function wrongStartOf(plan: Plan, was: Shadow, start: EventOf<'face.started'>): Broken[] {
	const input = inputOf(plan, start.face);
	const face = was.faces[start.face];
	if (!input || !face) return [{ property: 14, says: `${start.face} is no face of the day` }];
	const broken = wrongStart(input, face, start);
	const says: Says = (property, text) => void broken.push({ property, says: text });
	gunAtStart({ plan, was }, start, says);
	cupAtStart({ plan, was }, start, says);
	tiesAtStart({ plan, was }, start, says);
	return broken;
}

function startOfFace({ plan, was, event, after }: Edge, says: Says) {
	if (event.type !== 'face.started') return;
	for (const { property, says: text } of wrongStartOf(plan, was, event)) says(property, text);
	if (after.value !== 'spraying') says(14, 'a face is started and not sprayed');
}

/** What a gun check asks at the least, the pattern last. */
export const asksEnough = ({ items, size }: Pick<Asked, 'items' | 'size'>): boolean => {
	const must = size === 'full' ? ['mask', 'batch'] : ['batch'];
	return must.every(item => items.includes(item)) && ['pattern', 'card'].includes(items.at(-1) ?? '');
};

/** A gun check begun: of the size owed, for a face in line, with the paint of that face in the cup (1, 11, 13, 14). */
export function wrongBegin(plan: Plan, was: Shadow, event: EventOf<'check.began'>): Broken[] {
	const broken: Broken[] = [];
	const says: Says = (property, text) => void broken.push({ property, says: text });
	const face = was.faces[event.face ?? ''];
	if (!face) return [{ property: 2, says: `a check for ${event.face}` }];
	const wanted = wantedBy(plan, was, event.face);
	if (face.aside) says(14, 'a check for a part set aside');
	if (event.size === null) says(1, 'a check of no size');
	if (!asksEnough(event)) says(11, `a check that asks only ${event.items.join(', ')}`);
	if (was.owed === 'full' && event.size !== 'full') says(1, 'a short check where the full one is owed');
	if (!was.lists.includes('before-spraying')) says(11, 'a check with the list before spraying open');
	if (was.late) says(1, 'a check with nobody having said whether the late pass went through in one go');
	if (Object.values(was.faces).some(({ coat }) => coat === 'broken off'))
		says(1, 'a check with nobody having said how much of a face is on');
	if (was.cup.length === 0) says(13, 'a check with nothing in the cup');
	if (was.cup.some(letter => was.batches[letter]?.material !== wanted?.material))
		says(13, 'a check with the paint of another face in the cup');
	return broken;
}

/** A passed check: begun, of the size owed, every item closed, read and not ticked (1, 11, 15). */
export function wrongPass(plan: Plan, was: Shadow, event: EventOf<'gun.checked'>): Broken[] {
	const broken: Broken[] = [];
	const says: Says = (property, text) => void broken.push({ property, says: text });
	const { asked } = was;
	if (asked?.list !== 'gun-check') return [{ property: 1, says: 'no gun check was begun' }];
	if (was.owed === 'full' && event.size !== 'full') says(1, 'the full check is owed');
	if (event.size !== asked.size) says(1, `begun as ${asked.size}, passed as ${event.size}`);
	if (!was.lists.includes('before-spraying')) says(11, 'the list before spraying is open');
	if (was.late) says(1, 'nobody has said whether the late pass went through in one go');
	if (Object.values(was.faces).some(({ coat }) => coat === 'broken off'))
		says(1, 'nobody has said how much of a face is on');
	if (asked.closed !== asked.items.length) says(11, `open: ${asked.items.slice(asked.closed).join(', ')}`);
	if (!asksEnough(asked)) says(11, `asked only ${asked.items.join(', ')}`);
	if (asked.fan !== 'fits') says(2, 'the pattern does not fit');
	if (event.facts?.settled !== true) says(1, 'the painter has not been back long enough');
	if (event.check !== asked.no) says(15, `check ${asked.no} passes as ${event.check}`);
	if (!same(event.cup, was.cup)) says(15, `checked with batches ${event.cup.join('+')}`);
	if (event.horns !== wantedBy(plan, was, asked.face)?.horns) says(15, `passed with horns ${event.horns}`);
	return broken;
}

const owedBy = { known: null, shortCheckDue: 'short', fullCheckDue: 'full' } as const;

/** A start or pass is for one of these; everything else that makes the gun known is wrong (2, 4, 6). */
function gunStaysTrue({ was, event, before, after, is }: Edge, says: Says) {
	const { gun } = after.context;
	const known = gun.context.found;
	const need = owedBy[gun.value];
	if ((known === null) !== (need !== null)) says(4, `the gun is ${gun.value}, and known: ${known !== null}`);
	if (need !== is.owed)
		says(4, `after ${event.type} the ${need} check is asked for, where the ${is.owed} one is owed`);
	if (known !== null && is.known === null) says(4, `${event.type} does not end what is known`);
	if (known !== null && is.known !== null && known.horns !== is.known.horns)
		says(2, 'known differs from what was read');
	const cause = causeIn(was, event);
	const inCheck = event.type === 'gun.set' && before.value === 'check';
	if (cause !== null && !inCheck && after.value === 'ready') says(4, `ready after ${event.type}`);
	if (
		cause !== null &&
		event.type === 'gun.set' &&
		was.asked?.closed === was.asked?.items.length &&
		was.asked
	)
		says(4, 'the cap is turned after its pattern was read');
	if (after.value === 'ready' && is.known === null) says(2, 'ready with nothing known');
	const waits = before.value === 'wait' || before.value === 'hold';
	if (waits && (after.value === 'ready' || after.value === 'spraying'))
		says(6, `${before.value} leads to ${after.value}`);
	if (
		after.value === 'ready' &&
		before.value !== 'ready' &&
		event.type !== 'gun.checked' &&
		before.value !== 'spraying'
	)
		says(6, `${before.value} leads to ready by ${event.type}`);
	if (after.value === 'spraying' && before.value !== 'spraying' && event.type !== 'face.started')
		says(6, `${event.type} leads to spraying`);
}

/** Told outside lists and checks: of the coat before, of a pass, of a can. Everything else is read where it is asked. */
const outside: readonly string[] = ['touch', 'set-up', 'one-go', 'last-face', 'which-face', 'can'];

/** A reading is taken where it is asked for: one that differs must never pass by (2). */
function readWhereAsked({ event, before, was }: Edge, says: Says) {
	if (event.type !== 'reading.taken') return;
	const item = was.asked?.items[was.asked.closed];
	const isAsked = event.feature === (item === 'mask' ? 'breathing' : item);
	if (was.asked ? !isAsked : !outside.includes(event.feature))
		says(2, `${event.feature} read in ${before.value}, where nothing asks for it`);
}

/** An open item keeps the check open, and only what may close it does (11). */
function openItems({ was, event, after, is }: Edge, says: Says) {
	const { check } = after.context;
	if (is.asked && check && check.context.at !== is.asked.closed)
		says(11, `${event.type} closes ${was.asked?.items[was.asked.closed]}`);
	if (is.asked && check === null) says(11, 'the check is dropped without a break');
	if (is.asked === null && check !== null) says(11, 'a check broken off goes on');
	const item = was.asked?.items[was.asked.closed];
	const passes = event.type === 'override.given' && event.rule === item && onlyByReading.includes(event.rule);
	if (passes && is.asked?.closed !== was.asked?.closed) says(11, `a reason passes over ${event.rule}`);
}

/** Coats and set-aside as the machine has them are those that the records tell of (14), batches and cup too (13, 15). */
function sameBooks({ plan, event, was, after, is }: Edge, says: Says) {
	for (const face of after.context.faces) {
		const { id } = face.context.rules;
		const told = is.faces[id];
		if (face.context.laid !== told?.laid) says(14, `${event.type}: ${id} counts ${face.context.laid} coats`);
		if (face.matches('aside') !== (told?.aside && !told.sound))
			says(14, `${event.type}: ${id} is ${face.value}`);
		if (face.matches('beside') !== told?.sound) says(17, `${event.type}: ${id} is ${face.value}`);
		if (face.matches('spraying') !== (told?.coat === 'under way'))
			says(14, `${event.type}: ${id} is ${face.value}`);
		if (face.matches('broken') !== (told?.coat === 'broken off'))
			says(1, `${event.type}: ${id} is ${face.value}`);
		if (face.matches('part') !== (told?.coat === 'part' && !told.aside))
			says(3, `${event.type}: ${id} is ${face.value}`);
	}
	if (!same(after.context.cup, is.cup))
		says(15, `${event.type}: the cup holds ${after.context.cup.join('+')}`);
	if (event.type === 'face.ended' && event.coat !== (was.faces[event.face]?.laid ?? 0) + 1)
		says(15, `coat ${event.coat} ends, which is not under way`);
	if (event.type === 'batch.started') {
		if (was.batches[event.batch]) says(15, `a second batch ${event.batch}`);
		if (!plan.input.materials[event.material]) says(13, `no data sheet for ${event.material}`);
		if (Object.values(was.batches).some(({ stage }) => stage === 'mixing'))
			says(13, 'two batches in hand at once');
	}
	if (event.type === 'batch.loaded' && event.refill !== was.cup.includes(event.batch))
		says(4, `${event.batch} told as ${event.refill ? 'a refill' : 'new in the cup'}`);
	if ('batch' in event && typeof event.batch === 'string' && event.type !== 'batch.started') {
		const batch = was.batches[event.batch];
		if (batch) for (const { property, says: text } of wrongMixing(batch, event)) says(property, text);
		else if (event.type !== 'reading.taken') says(15, `${event.type} of a batch that was never started`);
	}
}

/** What is told of a face finds it where it can be true: nothing is recorded that nothing takes (3, 11, 14–16). */
function toldOfFace({ event, before, was }: Edge, says: Says) {
	const at = (id: string | null) => was.faces[id ?? ''];
	const inLine = (id: string | null) =>
		at(id)?.aside === false && ['none', 'part'].includes(at(id)?.coat ?? '');
	if (event.type === 'override.given' && event.face !== null && !inLine(event.face))
		says(11, `a reason for ${event.face}, which can take none`);
	if (event.type === 'stage.done' && !(inLine(event.face) && at(event.face)?.coat === 'none'))
		says(3, `${event.stage} recorded on ${event.face}, which has no use for it`);
	if (event.type === 'stage.done' && !inPlace(at(event.face), event.stage, event.place))
		says(16, `${event.stage} recorded on ${event.face} out of its place`);
	if (event.type === 'override.given' && !inPlace(at(event.face), event.step, event.place))
		says(16, `a reason to leave out ${event.step} on ${event.face} out of its place`);
	const mayLeave = (faulty: readonly string[] | undefined) => (id: string) =>
		inLine(id) || (at(id)?.aside === true && faulty?.includes(id) !== false);
	if (
		event.type === 'part.setAside' &&
		before.value !== 'closed' &&
		!event.faces.some(mayLeave(event.faulty))
	)
		says(14, `${event.faces.join(', ')} set aside, which cannot be`);
	if (
		event.type === 'rework.done' &&
		!toldInLine.includes(event.step) &&
		!isNextOfLine(at(event.face), event)
	)
		says(14, `${event.step} out of turn, or too early, on ${event.face}`);
	if (event.type === 'override.given' && event.face !== null && !standsFor(at(event.face), event))
		says(11, `a reason for ${event.window ?? event.step} of ${event.face}, which does not stand there`);
	if (event.type === 'wait.ended' && event.facts?.due !== true && !isReasoned(at(event.face)))
		says(3, `a wait of ${event.face} ended before its time, with no reason`);
	if (event.type === 'break.ended' && event.facts?.long === undefined)
		says(1, 'a break ended, and nobody says whether the list is to be gone through again');
	if (event.type === 'window.moved' && !at(event.face))
		says(3, `a window of ${event.face}, which is no face`);
	if (event.type === 'face.ended' && !['under way', 'broken off'].includes(at(event.face)?.coat ?? ''))
		says(15, `${event.face} ends, which is not sprayed`);
}

/** What is done to a part set aside changes nothing on a face of it that has no fault, and nobody's reason is written (17). */
function soundStaysSound({ plan, event, before, after, was, is }: Edge, says: Says) {
	for (const [index, face] of after.context.faces.entries()) {
		const { id } = face.context.rules;
		const known = before.context.faces[index]?.context;
		const reasons = face.context.overrides.filter(rule => !known?.overrides.includes(rule));
		if (reasons.length > 0 && event.type !== 'override.given')
			says(17, `${event.type} writes a reason that nobody gave: ${reasons.join(', ')}`);
		const isSound = was.faces[id]?.sound === true || is.faces[id]?.sound === true;
		const hasFault = is.faces[id]?.aside === true && !is.faces[id]?.sound;
		const telling = event.type === 'part.setAside' || event.type === 'rework.done';
		if (telling && isSound && !hasFault && JSON.stringify(face.context) !== JSON.stringify(known))
			says(17, `${event.type} changes ${id}, which has no fault`);
		if (isStranded(plan, is.faces, id))
			says(17, `${event.type} keeps ${id} out of line, with nothing that brings it back`);
	}
}

/** Activities exclude one another: what the chart says is going on is what the records tell of. */
function oneThingAtATime({ event, before, after, is }: Edge, says: Says) {
	const { value } = after;
	if (before.value === 'closed' && value !== 'closed') says(5, `${event.type} leads out of a closed day`);
	const spraying = Object.values(is.faces).some(({ coat }) => coat === 'under way');
	if ((value === 'spraying') !== spraying) says(14, `${value} after ${event.type}`);
	if ((value === 'check' || value === 'list') !== (is.asked !== null))
		says(11, `${value} after ${event.type}`);
	const inHand = Object.values(is.batches).some(
		({ stage, open }) => stage === 'mixing' && open[0] !== 'stand',
	);
	if (inHand && !['mix', 'hold', 'closed'].includes(String(value)))
		says(13, `${value} with a batch half mixed`);
	if (value === 'mix' && !inHand) says(13, 'mixing with no batch in hand');
	if (event.type === 'break.began' && value !== 'hold') says(5, `${value} after a break`);
	if (event.type === 'break.began' && value !== 'hold' && value !== 'closed')
		says(8, `${value} after a restart`);
	if (event.type === 'day.closed' && Object.values(is.faces).some(({ coat }) => coat === 'broken off'))
		says(15, 'closed with nobody having said how much of a face is on');
}

/** Everything that an accepted event breaks. */
export function brokenBy(edge: Edge): Broken[] {
	const broken: Broken[] = [];
	const says: Says = (property, text) => void broken.push({ property, says: text });
	startOfFace(edge, says);
	if (edge.event.type === 'check.began' && edge.event.list === 'gun-check')
		broken.push(...wrongBegin(edge.plan, edge.was, edge.event));
	if (edge.event.type === 'gun.checked') broken.push(...wrongPass(edge.plan, edge.was, edge.event));
	gunStaysTrue(edge, says);
	openItems(edge, says);
	readWhereAsked(edge, says);
	toldOfFace(edge, says);
	soundStaysSound(edge, says);
	sameBooks(edge, says);
	oneThingAtATime(edge, says);
	return broken;
}
