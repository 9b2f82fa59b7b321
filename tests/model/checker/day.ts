import { allOf, is, type Moment, type Note } from './notes.ts';
import type { Clocks, FlashPoints } from './points.ts';

export type Span = { does: string; from_h: number; until_h: number | null };
export type RecoatRow = { from_C: number; to_C: number; windows: Span[] };
/** What the checker reads of a material in the sheet. */
export type Material = {
	id: string;
	isocyanate: boolean;
	/** The gear that its sheet names; absent on an older day, whose sheet could name none. */
	breathing?: { spraying: { gear: string; cartridge?: string } | null };
	ratio: { by: string; base: number; hardener: number };
	density_kg_per_L: Record<string, number> | null;
	/** By the surface, each in a can of its own; an older day has one can for them all. */
	reducers?: { name: string; from_C: number; to_C: number }[];
	order: string[];
	potLife: { at_C: number; hours: number };
	standing_min: number;
	flash: { min_min: number; max_min: number | null; at_C: number; touch: string[] };
	recoat: { under: string; rows: RecoatRow[] }[];
	sandAfter?: { at_C: number; hours: number }[];
	/** When it may be picked up by the coat, and taped; absent where the sheet does not say. */
	dryTo?: { handle?: { at_C: number; hours: number }[]; tape?: { at_C: number; hours: number }[] };
	limits: {
		air_C: [number, number];
		surface_C?: [number, number];
		humidity_max: number;
		margin_C: number;
	};
	factorPer10C: number;
	/** Times by points, where the sheet lists them; they rule over the single ones. */
	clocks?: Clocks;
	coats?: Record<string, { flash?: FlashPoints }>;
};
/** A step of the sheet, and the hours that it has the work wait behind it. */
export type Step = { step: string; then_h?: number; dry?: 'handle' };
export type PlannedCoat = {
	stage: number;
	material: string;
	kind?: string;
	stroke: string;
	prep: Step[];
	wait_h: number;
	spray_s: number;
};
/** What stands behind the last coat of a face. */
export type Finishing = { wait_h: number; prep: Step[] };
export type Face = { id: string; part: string; tilt: number; coats: PlannedCoat[]; finishing?: Finishing };
export type Sheet = {
	units?: string;
	shop?: { air_C: number };
	materials: Record<string, Material>;
	faces: Face[];
	gun: { pressure_kPa: number; called?: string };
	/** Where the job has several guns, or set-ups of one: by the names that its stages have for them. */
	guns?: Record<string, { pressure_kPa: number; called?: string }>;
	stages?: { gun?: string }[];
};
export type List = {
	list: string;
	items: { code: string; answers: { code: string; passes: string }[] | null; overridable: boolean }[];
};
/** `name`: which of the reducers that its material has by the surface. */
export type Can = { material: string; component: string; mark: string; name?: string };
/** A face as the day found it. */
export type History = {
	/** `leastC`: the lowest surface temperature read for it; absent on an older day. */
	coats: { coat: number; ended: string; surfaceC: number; leastC?: number }[];
	prep: { step: string; place?: number | null; at: string }[];
	/** What a reason of an earlier day left out before the coming coat. */
	leftOut?: { step: string; place?: number | null }[];
	aside: { done: string[]; beside?: boolean } | null;
};
export type Limits = Record<
	'settle_s' | 'checkAge_min' | 'airAge_h' | 'clockSlip_s' | 'readingTolerance' | 'margin_C',
	number
> &
	/** Those of silence; an older day says none. */
	Partial<Record<'silence_min' | 'checkTakes_min' | 'listSilence_min', number>>;

/** A day file, read: the records and what its first one carries. */
export type Day = {
	notes: Note[];
	sheet: Sheet;
	lists: List[];
	cans: Can[];
	limits: Limits;
	/** In which volumes are read at the bench. */
	units: string;
	before: { faces: Record<string, History>; letters: number };
};

const standard: Limits = {
	settle_s: 10,
	checkAge_min: 20,
	airAge_h: 4,
	clockSlip_s: 2,
	readingTolerance: 0.1,
	margin_C: 3,
};

/** Settings in force, never laxer than the floors that no shop may pass. */
function limitsOf(settings: Partial<Limits>): Limits {
	const limits = { ...standard, ...settings };
	return {
		...limits,
		settle_s: Math.max(10, limits.settle_s),
		checkAge_min: Math.min(60, limits.checkAge_min),
		airAge_h: Math.min(4, limits.airAge_h),
	};
}

/** What the settings say goes before what the sheet does. */
const unitsOf = ({ units = 'sheet' }: { units?: string }, sheet: Sheet): string =>
	units === 'sheet' ? (sheet.units ?? 'metric') : units;

/** The day that notes tell of, or null when they do not begin with its opening. */
export function dayOf(notes: Note[]): Day | null {
	const [opened] = notes;
	if (!is(opened, 'day.opened')) return null;
	return {
		notes,
		sheet: opened.sheet as Sheet,
		lists: opened.lists as List[],
		cans: opened.cans as Can[],
		limits: limitsOf(opened.settings as Partial<Limits>),
		units: unitsOf(opened.settings as { units?: string }, opened.sheet as Sheet),
		before: opened.before as Day['before'],
	};
}

/** Face of the sheet by its `part/face`. */
export const faceOf = (day: Day, id: string | null) => day.sheet.faces.find(face => face.id === id);

/** What the sheet plans as coat `coat` (from 1) of a face. */
export const plannedCoat = (day: Day, id: string | null, coat: number | null) =>
	faceOf(day, id)?.coats[(coat ?? 0) - 1];

/** Material of a batch of this day, by its letter. */
export function materialOf(day: Day, batch: string): Material | undefined {
	const started = allOf(day.notes, 'batch.started').find(note => note.batch === batch);
	return started && day.sheet.materials[started.material];
}

/**
 * Time between two moments, ms: the least and the most that the clocks leave.
 */
export function elapsed(from: Moment, to: Moment): { least: number; most: number } {
	return { least: to.lapse.least - from.lapse.least, most: to.lapse.most - from.lapse.most };
}
