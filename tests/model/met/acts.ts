import { type Face, faces, hornsFor, inFirstCoat, nextFace, plannedCoats, type Truth } from './truth.ts';

/** What a painter does, what a painter errs in, and what breaks in; and what each changes of the truth. */

/** What breaks in, whoever or whatever does it. */
export type Break = 'HOLD' | 'KILL' | 'SLEEP' | 'HANGUP' | 'CLOCK';
export const breaks: readonly Break[] = ['HOLD', 'KILL', 'SLEEP', 'HANGUP', 'CLOCK'];

/** What a painter errs in, or has to bear. */
export type Slip = AtListSlip | AtPotSlip | AtGunSlip | 'STRINGS' | 'TROUBLE';
type AtListSlip = 'SAY_FILTER_MASK_LISTED' | 'LEAVE_OPEN' | 'READ_DAMP_AIR';
type AtPotSlip = 'TAKE_WRONG_CAN' | 'POUR_NOTHING' | 'POUR_TOO_MUCH';
type AtGunSlip =
	| 'SAY_FILTER_MASK'
	| 'SEE_WEAK_EXTRACTOR'
	| 'LEAVE_UNTURNED'
	| 'READ_OTHER_LETTER'
	| 'READ_OTHER_SECOND'
	| 'SAY_BAD_PATTERN'
	| 'STAND_IDLE'
	| 'RUN_LATE';

/** What is done as it should be. */
export type Step = AtList | AtPot | AtGun | AtFace | Waiting | Held | InTrouble;
type AtList = 'ANSWER_LIST' | 'ASK_AGAIN' | 'READ_AIR' | 'READ_AIR_AGAIN' | 'CLEAN_UP';
type AtPot =
	| 'MIX'
	| 'MIX_PLENTY'
	| 'TAKE_CAN'
	| 'POUR'
	| 'READ_LEVEL'
	| 'TOP_UP'
	| 'STAND'
	| 'STRAIN'
	| 'FILL_CUP'
	| 'PREPARE'
	| 'TELL_LEVEL'
	| 'CANNOT_TELL_LEVEL';
type AtGun = 'GEAR' | 'READ_AT_BENCH' | 'SHOOT_PATTERN' | 'TURN_HORNS' | 'CLEAN_CAP';
type AtFace = 'START' | 'FINISH' | 'IN_ONE_GO' | 'STOPPED' | 'NONE' | 'PART' | 'ALL';
type Waiting = 'WAIT_FOR_EDGE' | 'REST_OF_DAY' | 'WAIT_OUT' | 'TACKY';
type Held = 'BACK' | 'STAY_AWAY' | 'CLOSE' | 'SURE' | 'NOT_YET' | 'SET_ASIDE' | 'KEEP_ON';
type InTrouble = 'AIR_LOST' | 'AIR_BACK' | 'AIR_NOT_BACK' | 'GUN_FAULT' | 'OUT_OF_PAINT' | 'WET_FAULT';

export type Act = Step | Slip | Break;

type Change = (truth: Truth) => Partial<Truth>;
const nothing: Change = () => ({});

/** A pass that something breaks into is broken off; whatever stood, the gun wants a full check. */
const breakIn: Change = ({ passing, broken }) => ({
	due: 'full',
	broken: passing ?? broken,
	passing: null,
	wanted: null,
	fault: null,
});

/** The horns are turned where that is told anew. */
function turn(truth: Truth): Partial<Truth> {
	const horns = hornsFor(truth);
	return truth.told === horns ? {} : { horns, told: horns };
}

const oneMore = (truth: Truth, face: Face | null): Partial<Truth> =>
	face ? { coats: { ...truth.coats, [face]: truth.coats[face] + 1 }, part: null, dry: false } : {};

/** The first face that a fault can be seen on. */
export const painted = ({ coats, aside }: Truth): Face | null =>
	faces.find(face => coats[face] > 0 && !aside.includes(face)) ?? null;

const putAside = (truth: Truth, face: Face | null): Partial<Truth> =>
	face
		? {
				aside: withFace(truth.aside, face),
				...(face === truth.part && { part: null, dry: false }),
			}
		: {};

const withFace = (some: readonly Face[], more: Face | null): Face[] =>
	faces.filter(face => face === more || some.includes(face));
const touchedNow = (truth: Truth) => withFace(truth.touched, nextFace(truth));

/** The flash is over of the face that is next, and of the one sprayed with it; paint that stood is no more. */
function waitOut(truth: Truth): Partial<Truth> {
	const next = nextFace(truth);
	const second = truth.flashed.length > 0 && truth.touched.length > 0;
	return {
		flashed: truth.apart ? withFace(truth.flashed, next) : faces,
		cup: second && truth.cup,
		due: 'full',
	};
}

const atPot: Record<AtPot | AtPotSlip, Change> = {
	MIX: () => ({ mixedOnce: true, pot: 'empty', mixed: 'unread' }),
	MIX_PLENTY: () => ({ mixedOnce: true, plenty: true, pot: 'empty', mixed: 'unread' }),
	TAKE_CAN: nothing,
	TAKE_WRONG_CAN: nothing,
	POUR: ({ pot }) => ({ pot: pot === 'empty' ? 'base' : 'whole' }),
	POUR_NOTHING: nothing,
	POUR_TOO_MUCH: () => ({ pot: 'over' }),
	READ_LEVEL: ({ pot, mixed }) => ({ mixed: pot === 'whole' ? 'read' : mixed }),
	TELL_LEVEL: ({ pot, mixed }) => ({ mixed: pot === 'whole' ? 'read' : mixed }),
	CANNOT_TELL_LEVEL: () => ({ pot: 'none', mixed: 'unread' }),
	TOP_UP: () => ({ pot: 'whole', mixed: 'read' }),
	STAND: () => ({ mixed: 'stood' }),
	STRAIN: () => ({ mixed: 'strained' }),
	FILL_CUP: () => ({ pot: 'none', mixed: 'unread', cup: true, due: 'full' }),
	PREPARE: truth => ({ cup: true, due: 'full', tabApart: truth.tabApart || inFirstCoat(truth) }),
};

const atGun: Record<AtGun | AtGunSlip, Change> = {
	GEAR: turn,
	SAY_FILTER_MASK: turn,
	SEE_WEAK_EXTRACTOR: turn,
	LEAVE_UNTURNED: truth => ({ told: hornsFor(truth) }),
	READ_AT_BENCH: turn,
	READ_OTHER_LETTER: turn,
	READ_OTHER_SECOND: turn,
	SHOOT_PATTERN: truth => ({ due: truth.horns === hornsFor(truth) ? 'none' : truth.due }),
	SAY_BAD_PATTERN: nothing,
	TURN_HORNS: truth => ({ horns: hornsFor(truth) }),
	CLEAN_CAP: ({ told, horns }) => ({ horns: told ?? horns }),
	STAND_IDLE: truth => ({ due: 'short', apart: truth.apart || inFirstCoat(truth) }),
	RUN_LATE: () => ({ due: 'full' }),
};

const atFace: Record<AtFace, Change> = {
	START: truth => ({ passing: nextFace(truth) }),
	FINISH: truth => ({
		...oneMore(truth, truth.passing),
		passing: null,
		long: truth.due === 'full',
		due: truth.due === 'full' ? 'full' : 'short',
	}),
	IN_ONE_GO: () => ({ long: false }),
	STOPPED: () => ({ long: false }),
	NONE: ({ part, dry }) => ({ broken: null, dry: part !== null && dry }),
	PART: ({ broken }) => ({ broken: null, part: broken }),
	ALL: truth => ({ ...oneMore(truth, truth.broken), broken: null }),
};

const asHeld: Record<Held | InTrouble, Change> = {
	BACK: nothing,
	STAY_AWAY: truth => ({ dry: true, apart: truth.apart || inFirstCoat(truth) }),
	CLOSE: () => ({ wanted: 'closing' }),
	SURE: truth => putAside(truth, truth.part),
	NOT_YET: () => ({ wanted: null }),
	SET_ASIDE: truth => ({ ...putAside(truth, truth.fault ?? truth.part), fault: null, wanted: null }),
	KEEP_ON: () => ({ fault: null, wanted: null }),
	AIR_LOST: () => ({ airLost: true }),
	AIR_BACK: () => ({ airLost: false }),
	AIR_NOT_BACK: nothing,
	GUN_FAULT: nothing,
	OUT_OF_PAINT: () => ({ cup: false }),
	WET_FAULT: truth => ({
		wanted: 'fault',
		fault: truth.broken ?? painted(truth),
	}),
};

const others: Record<
	Exclude<Step | Slip, keyof typeof atPot | keyof typeof atGun | AtFace | Held | InTrouble>,
	Change
> = {
	ANSWER_LIST: () => ({ listed: true }),
	SAY_FILTER_MASK_LISTED: nothing,
	LEAVE_OPEN: nothing,
	ASK_AGAIN: nothing,
	READ_AIR: () => ({ air: 'good' }),
	READ_DAMP_AIR: () => ({ air: 'bad' }),
	READ_AIR_AGAIN: () => ({ air: 'unread' }),
	WAIT_OUT: waitOut,
	TACKY: truth => ({ touched: truth.tabApart ? touchedNow(truth) : truth.flashed }),
	STRINGS: truth => ({ flashed: truth.apart ? truth.touched : [] }),
	WAIT_FOR_EDGE: nothing,
	REST_OF_DAY: ({ coats, aside }) => ({
		coats: {
			...coats,
			...Object.fromEntries(faces.filter(face => !aside.includes(face)).map(face => [face, plannedCoats])),
		},
		part: null,
		dry: false,
	}),
	CLEAN_UP: nothing,
	TROUBLE: breakIn,
};

const changes: Record<Act, Change> = {
	...atPot,
	...atGun,
	...atFace,
	...asHeld,
	...others,
	...{ HOLD: breakIn, KILL: breakIn, SLEEP: breakIn, HANGUP: breakIn, CLOCK: breakIn },
};

const isAct = (name: string): name is Act => Object.hasOwn(changes, name);
/** Every act that there is. */
export const acts = Object.keys(changes).filter(isAct);

const slips: Record<Slip | Break, true> = {
	...{ HOLD: true, KILL: true, SLEEP: true, HANGUP: true, CLOCK: true },
	...{ SAY_FILTER_MASK_LISTED: true, LEAVE_OPEN: true, READ_DAMP_AIR: true },
	...{ TAKE_WRONG_CAN: true, POUR_NOTHING: true, POUR_TOO_MUCH: true },
	...{ SAY_FILTER_MASK: true, SEE_WEAK_EXTRACTOR: true, LEAVE_UNTURNED: true },
	...{ READ_OTHER_LETTER: true, READ_OTHER_SECOND: true, SAY_BAD_PATTERN: true },
	...{ STAND_IDLE: true, RUN_LATE: true, STRINGS: true, TROUBLE: true },
};

/** Whether an act is one of the slips and breaks that a path may have only so many of. */
export const isSlip = (act: Act): boolean => Object.hasOwn(slips, act);

const isBreak = (act: Act): boolean => breaks.some(one => one === act);

/** The truth after an act. */
export const after = (truth: Truth, act: Act): Truth => ({
	...truth,
	...changes[act](truth),
	slips: truth.slips + (isSlip(act) ? 1 : 0),
	brokenBy: isBreak(act) ? act : act === 'BACK' ? truth.brokenBy : null,
});
