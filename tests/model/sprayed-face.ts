import type { FaceInput } from '../../machines/face.ts';
import type { DayEvent, EventOf } from '../../src/day/records.ts';
import type { Broken } from './properties.ts';

/** A face as its records tell of it. */
export type SprayedFace = {
	id: string;
	laid: number;
	/** What is on it of the coat to come. */
	coat: 'none' | 'under way' | 'broken off' | 'part';
	/** Some of that coat is on for certain. */
	partly: boolean;
	aside: boolean;
	/** Steps of its own line done, while aside. */
	line: number;
	/** Stages recorded since the last coat. */
	stages: readonly string[];
	/** The tape tab was touched and lets the next coat on. */
	tab: boolean;
	/** Rules passed over for the coat to come. */
	overrides: readonly string[];
	/** Windows and steps that a reason was given for, while they stood on the screen. */
	passedOver: readonly string[];
};

const bare = {
	coat: 'none',
	partly: false,
	line: 0,
	stages: [],
	tab: false,
	overrides: [],
	passedOver: [],
} as const;

export const unsprayed = ({ id, before }: FaceInput): SprayedFace => ({
	...bare,
	id,
	laid: before?.laid ?? 0,
	stages: before?.done ?? [],
	aside: before?.aside ?? false,
});

/** Set up hard, sanded flat, clean: then it is in line again, sanded, wiped and tacked. */
export const ownLine: readonly string[] = ['set-up', 'sand', 'clean'];
const withOne = (list: readonly string[], one: string) => [...new Set([...list, one])].sort();

function ended(face: SprayedFace, { extent }: EventOf<'face.ended'>): SprayedFace {
	if (extent === 'all') return { ...face, ...bare, laid: face.laid + 1 };
	const isPartly = extent === 'part' || face.partly;
	return { ...face, coat: isPartly ? 'part' : 'none', partly: isPartly };
}

const everyStep = 'every step';

/** A reason holds for the window or step it was given for; where it does not say for which, for each. */
function reasoned(face: SprayedFace, { rule, step, facts }: EventOf<'override.given'>): SprayedFace {
	const overrides = withOne(face.overrides, rule);
	const windows = facts?.window ? [facts.window] : ['wait', 'scuff', 'sand'];
	const given = rule === 'window' ? windows : rule === 'prep' ? [step ?? everyStep] : [];
	return { ...face, overrides, passedOver: given.reduce(withOne, face.passedOver) };
}

/** The face after an event that was accepted and speaks of it. */
export function sprayedAfter(face: SprayedFace, event: DayEvent): SprayedFace {
	const untouched = face.coat === 'none' && !face.aside;
	switch (event.type) {
		case 'face.started':
			return { ...face, coat: 'under way' };
		case 'face.ended':
			return ended(face, event);
		case 'break.began':
			return face.coat === 'under way' ? { ...face, coat: 'broken off' } : face;
		case 'stage.done':
			return untouched ? { ...face, stages: withOne(face.stages, event.stage) } : face;
		case 'reading.taken':
			return event.feature === 'touch' && event.matched && untouched ? { ...face, tab: true } : face;
		case 'override.given':
			return face.aside ? face : reasoned(face, event);
		case 'air.read':
			return { ...face, overrides: face.overrides.filter(rule => rule !== 'air') };
		case 'part.setAside':
			/** Not before somebody has said how much of it is on. */
			return untouched || (face.coat === 'part' && !face.aside) ? { ...face, aside: true, line: 0 } : face;
		case 'rework.done': {
			if (!face.aside || event.step !== ownLine[face.line]) return face;
			if (face.line < ownLine.length - 1) return { ...face, line: face.line + 1 };
			return { ...face, ...bare, aside: false, stages: ['sand', 'tack', 'wipe'] };
		}
		default:
			return face;
	}
}

/** What a start of a face breaks of the rules that are the face's own (3, 14). */
export function wrongStart(input: FaceInput, face: SprayedFace, start: EventOf<'face.started'>): Broken[] {
	const broken: Broken[] = [];
	const over = (rule: string) => face.overrides.includes(rule);
	const says = (property: Broken['property'], text: string) => broken.push({ property, says: text });
	const { window, wet } = start.facts ?? {};
	const planned = input.coats[face.laid];
	/** Work that a reason was given for is not asked again, whoever asks: the sheet or the window. */
	const passed = (what: string) =>
		face.passedOver.includes(what) ||
		(face.passedOver.includes(everyStep) && planned?.prep.some(step => step === what) === true);
	const shut = window !== 'spray' && !passed(window ?? '');
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
	const missing = (planned?.prep ?? []).filter(stage => !stages.includes(stage) && !passed(stage));
	if (missing.length > 0) says(3, `not recorded: ${missing.join(', ')}`);
	if (planned?.touch && !face.tab && !stages.includes('sand') && !over('touch'))
		says(3, 'the tape tab was not touched');
	return broken;
}
