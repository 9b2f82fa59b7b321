import type { FaceInput, StepTold } from '../../machines/face.ts';
import type { DayEvent, EventOf } from '../../src/day/records.ts';
import type { Prep } from '../../src/job/job.ts';
import type { Standing } from './plans.ts';
import type { Broken } from './properties.ts';

/** A step before a coat, and its place among them. */
type Listed = { step: Prep; place: number };

/** A face as its records tell of it. */
export type SprayedFace = {
	id: string;
	laid: number;
	/** What is on it of the coat to come. */
	coat: 'none' | 'under way' | 'broken off' | 'part';
	/** Some of that coat is on for certain. */
	partly: boolean;
	aside: boolean;
	/** … for the fault of another face of its part. */
	sound: boolean;
	/** … on an older day, which did not say which face had the fault. */
	untold: boolean;
	/** Steps of its own line done, while aside. */
	line: number;
	/** Stages recorded since the last coat. */
	stages: readonly string[];
	/** The sheet's list before the coat to come, as far as nothing in it is struck off: done, or left out with a reason. */
	left: readonly Listed[];
	/** What still takes off the dust of a sanding that was on no list; what is left of the list does the rest. */
	dust: readonly string[];
	/** The recoat window told last; a pass shuts it. */
	window: Standing;
	/** The tape tab was touched and lets the next coat on. */
	tab: boolean;
	/** Rules passed over for the coat to come. */
	overrides: readonly string[];
	/** Windows, and steps that a window could ask for too, that a reason was given for while they stood on the screen. */
	passedOver: readonly string[];
};

const bare = {
	coat: 'none',
	partly: false,
	line: 0,
	sound: false,
	untold: false,
	stages: [],
	dust: [],
	tab: false,
	overrides: [],
	passedOver: [],
} as const;

/** The list before the coat that comes on so many, or after the last; one beyond the plan, with a reason, repeats the last. */
function listBefore({ coats, finishing = [] }: FaceInput, laid: number, isOneMore = false): Listed[] {
	const list = laid < coats.length ? coats[laid]?.prep : isOneMore ? coats.at(-1)?.prep : finishing;
	return (list ?? []).map((step, place) => ({ step, place }));
}

/** A step struck off the list: the one at its place, or, told without one on an older day, every one of its name. */
const without = (left: readonly Listed[], { step, place }: StepTold): readonly Listed[] =>
	left.filter(one => one.step !== step || (place !== undefined && one.place !== place));

/** What a face that was sanded out of its list wants, beyond what its list still has. */
function dustOf({ coats }: FaceInput, laid: number, left: readonly Listed[]): string[] {
	const cleaned = (coats[laid] ?? coats.at(-1))?.cleaned ?? [];
	return cleaned.filter(step => left.every(one => one.step !== step));
}

/** Of one told without a place on an older day nobody knows whether it was on the list. */
const isOffList = ({ step, place }: StepTold): boolean =>
	place === null && (step === 'sand' || step === 'scuff');

export function unsprayed(input: FaceInput): SprayedFace {
	const { laid, done, aside, beside } = input.before ?? { laid: 0, done: [], aside: false };
	const left = done.reduce(without, listBefore(input, laid));
	const sanded = done.findLastIndex(isOffList);
	const since = sanded < 0 ? [] : done.slice(sanded + 1).map(({ step }) => step);
	const dust = sanded < 0 ? [] : dustOf(input, laid, left);
	return {
		...bare,
		id: input.id,
		laid,
		stages: done.map(({ step }) => step),
		left,
		dust: dust.filter(step => !since.some(one => one === step)),
		aside: aside || beside === true,
		sound: beside === true,
		untold: aside && beside === undefined,
		window: laid === 0 ? 'bare' : 'wait',
	};
}

/** Set up hard, sanded flat, clean: then it is in line again, sanded, wiped and tacked. */
export const ownLine: readonly string[] = ['set-up', 'sand', 'clean'];
/** Told of a face once it is back in line: it was sprayed again, or is not. */
export const toldInLine: readonly string[] = ['respray', 'no-coat'];
const lineWork = ['sand', 'wipe', 'tack'] as const;
const withOne = (list: readonly string[], one: string) => [...new Set([...list, one])].sort();

function ended(input: FaceInput, face: SprayedFace, { extent }: EventOf<'face.ended'>): SprayedFace {
	const laid = face.laid + 1;
	if (extent === 'all') return { ...face, ...bare, laid, left: listBefore(input, laid), window: 'wait' };
	const isPartly = extent === 'part' || face.partly;
	const stopped = { ...face, coat: isPartly ? ('part' as const) : ('none' as const), partly: isPartly };
	return extent === 'part' ? comeInto(stopped, 'wait') : stopped;
}

/** A reason for a wait is for that wait: whatever window comes, another wait too, ends it. */
const comeInto = (face: SprayedFace, window: Standing): SprayedFace => ({
	...face,
	window,
	passedOver: face.window === 'wait' ? face.passedOver.filter(one => one !== 'wait') : face.passedOver,
});

/** A reason holds for the window or step it was given for; where it does not say for which, for each. */
function reasoned(
	input: FaceInput,
	face: SprayedFace,
	{ rule, step, place, window }: EventOf<'override.given'>,
): SprayedFace {
	const overrides = withOne(face.overrides, rule);
	const windows = window ? [window] : [];
	const steps = step ? [step] : [];
	const given = rule === 'window' ? windows : rule === 'prep' ? steps : [];
	const passedOver = given.reduce(withOne, face.passedOver);
	const isOneMore = rule === 'coats' && face.laid >= input.coats.length && !face.overrides.includes(rule);
	const list = listBefore(input, face.laid, true);
	const dustLeft = face.dust.filter(one => list.every(listed => listed.step !== one));
	if (isOneMore) return { ...face, overrides, passedOver, left: list, dust: dustLeft };
	if (rule !== 'prep') return { ...face, overrides, passedOver };
	const left = step ? without(face.left, { step, place }) : face.left;
	const dust = place === null ? face.dust.filter(one => one !== step) : face.dust;
	return { ...face, overrides, passedOver, left, dust };
}

/** Whether a step told with its place is the next on the list (16). What tells none is on no list. */
export const inPlace = (
	face: SprayedFace | undefined,
	step: Prep | undefined,
	place: StepTold['place'],
): boolean => {
	const next = face?.left[0];
	return place === undefined || place === null || (place === next?.place && step === next.step);
};

/** What is left of a list when the work of its own line has been done to a face: each step as it comes, or, on an older day, all of its names. */
function leftByLine(input: FaceInput, { laid, untold }: SprayedFace): readonly Listed[] {
	const list = listBefore(input, laid);
	if (untold) return lineWork.map(step => ({ step })).reduce(without, list);
	return lineWork.reduce((left, step) => (left[0]?.step === step ? left.slice(1) : left), list);
}

/** Through its own line; it is wiped and tacked once more with the others of its coat, for they are sanded yet. */
function backInLine(input: FaceInput, face: SprayedFace): SprayedFace {
	const left = leftByLine(input, face);
	const dust = dustOf(input, face.laid, left);
	return { ...face, ...bare, aside: false, stages: lineWork, left, dust };
}

/** A part set aside; half a coat is no sound one, and one set aside may get a fault, of its own or once more: its line begins. */
function leftLine(face: SprayedFace, { faulty }: EventOf<'part.setAside'>): SprayedFace {
	const hasFault = faulty === undefined || faulty.includes(face.id);
	const mayLeave = (face.coat === 'none' || face.coat === 'part') && !face.aside;
	if (mayLeave && face.coat === 'none' && !hasFault) return { ...face, aside: true, sound: true };
	if (!mayLeave && !(face.aside && hasFault)) return face;
	return { ...face, aside: true, sound: false, line: 0, untold: faulty === undefined };
}

/** The next step of its own line, and due by its wait. */
export const isNextOfLine = (
	face: SprayedFace | undefined,
	{ step, facts }: EventOf<'rework.done'>,
): boolean => face?.aside === true && !face.sound && facts?.due === true && step === ownLine[face.line];

/** A reason names the step that it leaves out, or the window that stands and lets nothing on. */
export const standsFor = (face: SprayedFace | undefined, { rule, step, window }: EventOf<'override.given'>) =>
	(rule !== 'prep' || step !== undefined) &&
	(rule !== 'window' || (window !== undefined && window !== 'spray' && window === face?.window));

/** A reason was given for the window as it stands. */
export const isReasoned = (face: SprayedFace | undefined): boolean =>
	face?.passedOver.includes(face.window) === true;

/** The face after an event that was accepted and speaks of it. */
export function sprayedAfter(input: FaceInput, face: SprayedFace, event: DayEvent): SprayedFace {
	const untouched = face.coat === 'none' && !face.aside;
	switch (event.type) {
		case 'face.started':
			return { ...face, coat: 'under way' };
		case 'face.ended':
			return ended(input, face, event);
		case 'break.began':
			return face.coat === 'under way' ? { ...face, coat: 'broken off' } : face;
		case 'stage.done': {
			if (!untouched) return face;
			const told = { step: event.stage, place: event.place };
			const left = without(face.left, told);
			const dust = isOffList(told)
				? dustOf(input, face.laid, left)
				: face.dust.filter(step => step !== event.stage);
			return { ...face, stages: withOne(face.stages, event.stage), left, dust };
		}
		case 'reading.taken':
			return event.feature === 'touch' && event.matched && untouched ? { ...face, tab: true } : face;
		case 'override.given':
			return face.aside ? face : reasoned(input, face, event);
		case 'window.moved':
			return comeInto(face, event.to);
		case 'air.read':
			return { ...face, overrides: face.overrides.filter(rule => rule !== 'air') };
		case 'part.setAside':
			/** Not before somebody has said how much of it is on. */
			return leftLine(face, event);
		case 'rework.done':
			if (face.sound) return event.face === face.id ? face : { ...face, aside: false, sound: false };
			if (!isNextOfLine(face, event)) return face;
			if (face.line < ownLine.length - 1) return { ...face, line: face.line + 1 };
			return backInLine(input, face);
		default:
			return face;
	}
}

/** What a start of a face breaks of the rules that are the face's own (3, 14, 16). */
export function wrongStart(input: FaceInput, face: SprayedFace, start: EventOf<'face.started'>): Broken[] {
	const broken: Broken[] = [];
	const over = (rule: string) => face.overrides.includes(rule);
	const says = (property: Broken['property'], text: string) => broken.push({ property, says: text });
	const { window } = face;
	const { wet } = start.facts ?? {};
	const planned = input.coats[face.laid];
	/** One beyond the plan asks for what the last of the plan asks for. */
	const last = planned ?? input.coats.at(-1);
	const shut = window !== 'spray' && window !== 'bare' && !face.passedOver.includes(window);
	if (start.coat !== face.laid + 1) says(14, `coat ${start.coat} begins on ${face.laid} coats`);
	if (planned === undefined && !over('coats')) says(14, 'a coat more than planned, and no reason given');
	if (face.aside) says(14, 'its part is set aside');
	if (face.coat === 'under way') says(14, 'it is being sprayed already');
	if (face.coat === 'broken off') says(1, 'nobody has said how much of it is on');
	if (face.coat === 'part' && start.from === 'start')
		says(14, 'a face partly on is gone over from its start');
	if (face.coat === 'none' && start.from === 'part') says(14, 'nothing is on to go on from');
	const { stages } = face;
	const prepared =
		!shut ||
		(window === 'scuff' && (stages.includes('scuff') || stages.includes('sand'))) ||
		(window === 'sand' && stages.includes('sand'));
	if (face.coat === 'part') {
		if (wet !== true && !prepared) says(3, `past its wet edge, and the coats there say ${window}`);
		return broken;
	}
	if (!prepared) says(3, `its window says ${window}`);
	if (face.left.length > 0) says(16, `not recorded: ${face.left.map(({ step }) => step).join(', ')}`);
	if (face.dust.length > 0) says(16, `dust on it, and not recorded: ${face.dust.join(', ')}`);
	if (last?.touch && !face.tab && !stages.includes('sand') && !over('touch'))
		says(3, 'the tape tab was not touched');
	return broken;
}
