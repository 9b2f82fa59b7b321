/** What is true at the gun, the pot and the parts: the model's own bookkeeping, which the program never sees. */

/** The faces of two-faces.yaml, in its order. */
export const faces = ['left door/outside', 'corner box/sides'] as const;
export type Face = (typeof faces)[number];
export type Horns = 'level' | 'upright';

/** The fan lies across the stroke: horns level for side to side, upright for up and down. */
export const wantedHorns: Record<Face, Horns> = {
	'left door/outside': 'level',
	'corner box/sides': 'upright',
};
export const plannedCoats = 2;

export type Truth = {
	/** Whole coats on each face. */
	coats: Record<Face, number>;
	aside: readonly Face[];
	/** How the horns stand. */
	horns: Horns;
	/** What the painter was last told to turn them to, and has said that it is done. */
	told: Horns | null;
	/** Whether a cup hangs on the gun with paint for what comes. */
	cup: boolean;
	/** Whether a pot has been mixed today: the first is followed step by step. */
	mixedOnce: boolean;
	/** Whether that pot has enough for the whole day. */
	plenty: boolean;
	/** What is in the pot that is being mixed; `over`: more hardener than may be. */
	pot: 'none' | 'empty' | 'base' | 'whole' | 'over';
	/** What has been done to the whole pot, by its level and its standing. */
	mixed: 'unread' | 'read' | 'stood' | 'strained';
	listed: boolean;
	air: 'unread' | 'good' | 'bad';
	/** Which check the gun needs before the next pass. */
	due: 'full' | 'short' | 'none';
	/** The face that is being sprayed. */
	passing: Face | null;
	/** The face whose pass was broken off, until it is told how much of it is on. */
	broken: Face | null;
	/** The face that has a part of its coat on. */
	part: Face | null;
	/** Whether the wet edge there has gone dry. */
	dry: boolean;
	/** Whether a pass took long, and nobody has said yet that it went through in one go. */
	long: boolean;
	/** Faces whose flash between the coats was waited out, and those whose tab was touched. */
	flashed: readonly Face[];
	touched: readonly Face[];
	/** Whether the second face of the first coat came long after the first, so that its flash ends later. */
	apart: boolean;
	/** Whether it came so much later that a tab touched for the first does not speak for it. */
	tabApart: boolean;
	/** What an account of the broken face is wanted for, where not to go on. */
	wanted: 'fault' | 'closing' | null;
	/** The face that a wet fault was seen on. */
	fault: Face | null;
	/** Whether the breathing air was lost, and not yet said to be back. */
	airLost: boolean;
	/** Slips and breaks so far. */
	slips: number;
	/** What has just broken in, kept until the painter is back. */
	brokenBy: string | null;
};

export const morning: Truth = {
	coats: { 'left door/outside': 0, 'corner box/sides': 0 },
	aside: [],
	horns: 'upright',
	told: null,
	cup: false,
	mixedOnce: false,
	plenty: false,
	pot: 'none',
	mixed: 'unread',
	listed: false,
	air: 'unread',
	due: 'full',
	passing: null,
	broken: null,
	part: null,
	dry: false,
	long: false,
	flashed: [],
	touched: [],
	apart: false,
	tabApart: false,
	wanted: null,
	fault: null,
	airLost: false,
	slips: 0,
	brokenBy: null,
};

/** The coat that is being laid: every face gets it before any gets the next. */
export const coatOf = ({ coats, aside }: Truth): number =>
	Math.min(...faces.filter(face => !aside.includes(face)).map(face => coats[face])) + 1;

/** The face that is sprayed next, in the order of the sheet; null when all have what they get. */
export function nextFace(truth: Truth): Face | null {
	const coat = coatOf(truth);
	if (coat > plannedCoats) return null;
	return faces.find(face => !truth.aside.includes(face) && truth.coats[face] < coat) ?? null;
}

/** How the next face wants the horns. */
export function hornsFor(truth: Truth): Horns {
	const face = nextFace(truth);
	return face ? wantedHorns[face] : truth.horns;
}

const potPlace = ({ pot, mixed }: Truth) => {
	if (pot === 'empty') return 'baseCan';
	if (pot !== 'whole' || mixed === 'unread') return 'potFound';
	if (mixed === 'read') return 'standing';
	return mixed === 'stood' ? 'straining' : 'loading';
};

/** Whether a first coat is on one face and not yet on another. */
export const inFirstCoat = ({ coats, aside }: Truth): boolean =>
	faces.some(face => coats[face] === 1) && faces.some(face => coats[face] === 0 && !aside.includes(face));

const coatPlace = (truth: Truth, face: Face) => {
	if (coatOf(truth) > 1 && !truth.flashed.includes(face)) return 'wait';
	if (coatOf(truth) > 1 && !truth.touched.includes(face)) return 'touch';
	if (!truth.cup) return 'bench';
	if (truth.due === 'none') return 'ready';
	return truth.due === 'full' ? 'gear' : 'atBench';
};

/** Where a day goes on that nothing holds: account, list, air, pot, edge, flash, tab, paint, gun, pass. */
export function placeOf(truth: Truth) {
	if (truth.broken) return 'account';
	if (truth.long) return 'oneGo';
	if (!truth.listed) return 'list';
	if (truth.air !== 'good') return truth.air === 'bad' ? 'airNo' : 'air';
	if (truth.pot !== 'none') return potPlace(truth);
	if (truth.part && truth.dry) return 'edge';
	const face = nextFace(truth);
	return face ? coatPlace(truth, face) : 'finish';
}
export type Place = ReturnType<typeof placeOf>;
