import * as z from 'zod/mini';
import { substrates } from '../film/own-cooling.ts';

/**
 * The job sheet after loading: every quantity a bare number in the unit its key ends in, every default filled
 * in, every name resolved. This is what the rest of the program reads and what a day file carries in full.
 */

const positive = z.number().check(z.positive());
const share = z.number().check(z.minimum(0), z.maximum(1));
/** A closed range `[low, high]`. */
const range = z.tuple([z.number(), z.number()]);

export const componentSchema = z.enum(['base', 'hardener', 'reducer', 'accelerator', 'flattener']);
/** One can of a material. */
export type Component = z.infer<typeof componentSchema>;

/** Parts that few products have. */
export const extrasSchema = { accelerator: z.optional(positive), flattener: z.optional(positive) };

export const windowSchema = z.enum(['wait', 'spray', 'scuff', 'sand']);
/** What a coat allows on top of it as time passes. */
export type Window = z.infer<typeof windowSchema>;

export const coatKindSchema = z.enum(['tack', 'medium', 'full']);
/** How heavy a coat is laid. */
export type CoatKind = z.infer<typeof coatKindSchema>;

export const prepSchema = z.enum([
	'sand',
	'scuff',
	'fill',
	'wipe',
	'tack',
	'mask',
	'unmask',
	'turn over',
	'inspect',
]);
/** Work on a face that is not spraying. */
export type Prep = z.infer<typeof prepSchema>;

export const mixStepSchema = z.enum(['stir', ...componentSchema.options, 'stand', 'strain', 'cup']);
/** One step of a mixing order. */
export type MixStep = z.infer<typeof mixStepSchema>;

/** Hours at a temperature, as a data sheet gives them. */
export const timeAtSchema = z.object({ at_C: z.number(), hours: positive });

const pointsSchema = z.array(timeAtSchema).check(z.minLength(1));
const flashPointsSchema = z.object({ from: pointsSchema, to: z.nullable(pointsSchema) });
/** A flash by its own points: the least wait, and the most. */
export type FlashPoints = z.infer<typeof flashPointsSchema>;

export const recoatRowSchema = z.object({
	/** Highest surface temperatures held an hour or more for which the row is given. */
	from_C: z.number(),
	to_C: z.number(),
	/** In time order from 0 h; the last may be open-ended (`until_h: null`). */
	windows: z.array(
		z.object({ does: windowSchema, from_h: z.number().check(z.minimum(0)), until_h: z.nullable(positive) }),
	),
});
export type RecoatRow = z.infer<typeof recoatRowSchema>;

/** Breathing gear, as a safety data sheet asks for it; a filter mask is worth what its cartridge is made for. */
export const gearSchema = z.union([
	z.object({ gear: z.literal('supplied-air') }),
	z.object({ gear: z.literal('filter-mask'), cartridge: z.string().check(z.minLength(1)) }),
]);
export type Gear = z.infer<typeof gearSchema>;

export const materialSchema = z.object({
	id: z.string(),
	name: z.string(),
	isocyanate: z.boolean(),
	/** The gear named for each kind of work; null: none is. A sheet of an older day has no such field. */
	breathing: z.optional(
		z.object({
			mixing: z.nullable(gearSchema),
			spraying: z.nullable(gearSchema),
			sanding: z.nullable(gearSchema),
		}),
	),
	/** Accelerator and flattener: of the few products that have them. */
	ratio: z.object({ by: z.enum(['volume', 'weight']), base: positive, hardener: positive, ...extrasSchema }),
	/** Parts of reducer in the unit of the ratio; a percentage of base + hardener has been turned into parts. 0: none. */
	reducer_parts: z.number().check(z.minimum(0)),
	/** Reducers of that share for surfaces of one temperature each, from the coldest on; else there is one alone. */
	reducers: z.optional(
		z.array(z.object({ name: z.string(), from_C: z.number(), to_C: z.number() })).check(z.minLength(1)),
	),
	/** kg/L of each can, needed where the ratio is by weight. */
	density_kg_per_L: z.nullable(
		z.object({ base: positive, hardener: positive, reducer: positive, ...extrasSchema }),
	),
	/** The data sheet's mixing order, stirring the base in its can first; a later *stir* is of the pot. */
	order: z.array(mixStepSchema),
	/** Volume solids of the mix without its reducer; with its uncertainty ±. */
	solids: share,
	solids_tolerance: share,
	/** Film and reducer of each kind of coat this material has. */
	coats: z.partialRecord(
		coatKindSchema,
		z.object({
			dry_um: positive,
			/** The least and the most of it that the data sheet gives, where the sheet says them. */
			dryRange_um: z.optional(range),
			reducer_parts: z.number().check(z.minimum(0)),
			/** Where this kind of coat has a flash of its own. */
			flash: z.optional(flashPointsSchema),
		}),
	),
	/** Wet film above which it sags on an upright face. */
	sag_um: positive,
	potLife: timeAtSchema,
	standing_min: z.number().check(z.minimum(0)),
	strainer: z.nullable(z.string()),
	/** Wet on wet: the wait before the next coat of the same material, and the touch that allows it. */
	flash: z.object({
		min_min: positive,
		max_min: z.nullable(positive),
		at_C: z.number(),
		touch: z.array(z.enum(['tacky', 'dry'])).check(z.minLength(1)),
	}),
	/**
	 * The points of each process that the sheet lists them for, and its own factor outside them; `potLife`, `standing_min` and
	 * `flash` above are then the point nearest to a temperate shop.
	 */
	clocks: z.optional(
		z.object({
			potLife: z.optional(pointsSchema),
			standing: z.optional(pointsSchema),
			flash: z.optional(flashPointsSchema),
			factorPer10C: z.optional(positive),
		}),
	),
	wetEdge_s: positive,
	/** How long mixed paint may stand in the gun before the tip is wetted, and before the gun is flushed. */
	wetTip_min: positive,
	flush_min: positive,
	/** Recoat windows by the material that lies under this one; `under` may be this material itself. */
	recoat: z.array(z.object({ under: z.string(), rows: z.array(recoatRowSchema).check(z.minLength(1)) })),
	sandAfter: z.array(timeAtSchema),
	/** … and when its part may be picked up by it, and tape laid on it, where the sheet says. */
	dryTo: z.optional(z.object({ handle: z.optional(pointsSchema), tape: z.optional(pointsSchema) })),
	/** What the sheet leaves out and nobody measured, by its key. */
	assumed: z.optional(z.array(z.string())),
	/** Keys that the job has otherwise than the shelf. */
	changed: z.optional(z.array(z.string())),
	grit: z.nullable(z.int().check(z.positive())),
	/** `at_C`: the temperature of the paint that the seconds are given for, where the sheet says. */
	cup: z.nullable(z.object({ kind: z.string(), seconds: range, at_C: z.optional(z.number()) })),
	limits: z.object({
		air_C: range,
		/** Where the data sheet has its own for the surface; else those of the air hold for it. */
		surface_C: z.optional(range),
		/** … and for the paint as it is sprayed. */
		paint_C: z.optional(range),
		humidity_max: share,
		margin_C: z.number().check(z.minimum(0)),
	}),
	/** Factor by which times change per 10 °C outside the data sheet's points. */
	factorPer10C: positive,
	/** Lower explosive limit (share), vapour volume (m³ per litre of liquid) and exposure limit of the solvent in it, where known. */
	solvent: z.nullable(
		z.object({ share_of_mix: share, vapour_m3_per_L: positive, lel: share, limit: z.optional(share) }),
	),
});
export type Material = z.infer<typeof materialSchema>;

export const strokeSchema = z.enum(['side-to-side', 'up-and-down', 'to-and-fro']);
/** How the gun travels on a face. `to-and-fro` is `up-and-down` for flat work. */
export type Stroke = z.infer<typeof strokeSchema>;

export const hornsSchema = z.enum(['level', 'upright']);
/** The two ears of the air cap, seen with the gun upright. */
export type Horns = z.infer<typeof hornsSchema>;

/** A time of day that the wait lasts to at the least, minutes from midnight. */
const until_min = z.optional(z.int().check(z.minimum(0), z.maximum(1439)));

/** A step of work on a face, and the wait that the sheet asks for after it, h. */
const stepSchema = z.object({
	step: prepSchema,
	grit: z.nullable(z.int().check(z.positive())),
	/** Done once the coat on the face is dry to handle. */
	dry: z.optional(z.literal('handle')),
	then_h: z.optional(z.number().check(z.minimum(0))),
	until_min,
});

const attitudeSchema = z.enum(['upright', 'flat', 'underside']);

/** One coat planned for one face, in the order laid; coat n of a face is `coats[n - 1]`. */
export const plannedCoatSchema = z.object({
	stage: z.int().check(z.minimum(0)),
	material: z.string(),
	kind: coatKindSchema,
	stroke: strokeSchema,
	horns: hornsSchema,
	/** Number of this coat within its stage, and how many the stage lays on this face. */
	ofStage: z.tuple([z.int().check(z.positive()), z.int().check(z.positive())]),
	/** Work that must be recorded on the face between the coat before (or the bare part) and this coat, in order. */
	prep: z.array(stepSchema),
	/** How the sheet takes dust off the face before its coats: asked for after a sanding that no step of it is. */
	cleaned: z.optional(z.array(z.enum(['wipe', 'tack']))),
	/** Wait that the sheet asks for after the coat before, beyond the recoat windows, until anything is done to it. */
	wait_h: z.number().check(z.minimum(0)),
	until_min,
	/** Its fan, where the gun of its stage has another than the face. */
	fanHeight_mm: z.optional(positive),
	/** How the face lies, and its width and height, where its part is held in another way for this stage. */
	attitude: z.optional(attitudeSchema),
	size_mm: z.optional(z.tuple([positive, positive])),
	/** Paint as sprayed that leaves the gun for the coat on this face. */
	volume_mL: positive,
	/** Time the face should take, turns counted, the walk not. */
	spray_s: positive,
	/** The balance that both come from; a day begun under older sums has none of it. */
	trigger_s: z.optional(positive),
	strokes: z.optional(z.int().check(z.positive())),
	/** From stroke to stroke, and of the first one from the edge of the face. */
	spacing_mm: z.optional(positive),
	first_mm: z.optional(z.number().check(z.minimum(0))),
	speed_mm_per_s: z.optional(positive),
	flow_mL_per_min: z.optional(positive),
	/** Share of the landing stream that meets the face. */
	capture: z.optional(positive),
	landed_mL: z.optional(positive),
	/** Lowest and highest wet film on the face. */
	min_um: z.optional(z.number().check(z.minimum(0))),
	peak_um: z.optional(positive),
});
export type PlannedCoat = z.infer<typeof plannedCoatSchema>;

/** All that a sheet has waited for between two coats, h. */
export const waits_h = ({ wait_h, prep }: Pick<PlannedCoat, 'wait_h' | 'prep'>): number =>
	prep.reduce((sum, { then_h = 0 }) => sum + then_h, wait_h);

export const faceSchema = z.object({
	/** `part/face`. */
	id: z.string(),
	part: z.string(),
	name: z.string(),
	attitude: attitudeSchema,
	/** Reached once the part is turned over; *taken*: the sheet does not say so, but two faces of the part lie flat. */
	turned: z.optional(z.enum(['said', 'taken'])),
	/** On flat work and undersides, the edge the painter stands at: strokes are told from it. */
	nearEdge: z.optional(z.string()),
	/** How far the wrist lays the gun over, in degrees. */
	tilt: z.union([z.literal(-90), z.literal(0), z.literal(90)]),
	area_m2: positive,
	/** Width across and height along, where the sheet gives sizes. */
	size_mm: z.nullable(z.tuple([positive, positive])),
	/** An area made of pieces so wide and so long, in strokes along them. */
	strip_mm: z.optional(z.tuple([positive, positive])),
	/** The edge along its strokes gets a pass of its own, straight at the corner. */
	cornerFirst: z.optional(z.boolean()),
	/** What it is made of, where the sheet says. */
	substrate: z.optional(z.enum(substrates)),
	fanHeight_mm: positive,
	/** Faces that go before this one within a coat. */
	after: z.array(z.string()),
	coats: z.array(plannedCoatSchema),
	/** Work after the last coat, in order, and the wait before it. */
	finishing: z.optional(
		z.object({ wait_h: z.number().check(z.minimum(0)), until_min, prep: z.array(stepSchema) }),
	),
});
export type Face = z.infer<typeof faceSchema>;

/** Faces that a stage passes over. */
const leftOut = z.optional(z.array(z.string()));

export const stageSchema = z.discriminatedUnion('kind', [
	z.object({
		leftOut,
		kind: z.literal('coats'),
		name: z.string(),
		material: z.string(),
		coats: z.array(coatKindSchema),
		/** Among several guns of the job. */
		gun: z.optional(z.string()),
	}),
	z.object({
		leftOut,
		kind: z.literal('prep'),
		name: z.string(),
		step: prepSchema,
		grit: z.nullable(z.int().check(z.positive())),
		dry: z.optional(z.literal('handle')),
	}),
	z.object({ leftOut, kind: z.literal('wait'), name: z.string(), hours: positive, until_min }),
]);
export type Stage = z.infer<typeof stageSchema>;

/** Whether a stage passes over a face. */
export const leavesOut = ({ leftOut = [] }: Stage, face: string): boolean => leftOut.includes(face);

const gunSchema = z.object({
	pressure_kPa: positive,
	/** The unit that the sheet writes it in, which is the gauge's; days of older versions do not say. */
	pressureUnit: z.optional(z.enum(['bar', 'psi', 'kPa'])),
	fanHeight_mm: positive,
	fanDepth_mm: positive,
	/** Exponents of the film across and along the fan. */
	beta: z.tuple([positive, positive]),
	distance_mm: positive,
	overlap: share,
	flow_mL_per_min: positive,
	/** One deviation of it, as a share. */
	flow_tolerance: z.optional(share),
	/** The speed that the painter is used to, where the sheet says it. */
	speed_mm_per_s: z.optional(positive),
	/** What a hand can keep. */
	speeds_mm_per_s: z.optional(range),
	transfer: share,
	transfer_tolerance: share,
	/** How far a stroke goes past each end, and how long a turn takes. */
	lead_mm: z.optional(z.number().check(z.minimum(0))),
	turn_s: z.optional(z.number().check(z.minimum(0))),
	/** The trigger is held through the turns. */
	held: z.optional(z.boolean()),
	firstLine: z.optional(z.enum(['on the edge', 'half in'])),
	losses: z.optional(
		z.object({
			strainer_mL: z.number().check(z.minimum(0)),
			pot_mL: z.number().check(z.minimum(0)),
			gun_mL: z.number().check(z.minimum(0)),
			burst_s: z.number().check(z.minimum(0)),
		}),
	),
	tip_mm: z.optional(positive),
	/** What stands on its tape, where the job has several guns or set-ups. */
	called: z.optional(z.string()),
	/** Keys that the job has otherwise than the shelf. */
	changed: z.optional(z.array(z.string())),
	/** It has set-ups, none of them for this material. */
	unmeasured: z.optional(z.boolean()),
	/** What the sheet leaves out and nobody measured, by its key. */
	assumed: z.optional(z.array(z.string())),
	cup_mL: positive,
	cupKind: z.enum(['gravity', 'suction', 'pressure']),
});
export type NamedGun = z.infer<typeof gunSchema>;

export const jobSchema = z.object({
	name: z.string(),
	units: z.enum(['us', 'metric']),
	shop: z.object({
		air_C: z.number(),
		humidity: share,
		/** This shop's own measured clearance time; the program never guesses one. */
		clearance: z.nullable(z.object({ minutes: positive, measured: z.string() })),
		/** Part standing nearest the extractor, where the sheet says. */
		extractorAt: z.nullable(z.string()),
		/** Part of the day that can be sprayed in, minutes; null: open. */
		hours: z.nullable(z.number().check(z.positive())),
		/** What its largest pot holds to be mixed in; undefined: nobody said. */
		pot_mL: z.optional(positive),
	}),
	gun: gunSchema,
	/** Where spray stages have several, by the name that they have for them: of the first stage is `gun`. */
	guns: z.optional(z.record(z.string(), gunSchema)),
	/** Materials by id, in the order of the sheet. */
	materials: z.record(z.string(), materialSchema),
	stages: z.array(stageSchema).check(z.minLength(1)),
	/** Parts in the order of the sheet, and where each stands from the extractor (1 = nearest), where given. */
	parts: z
		.array(
			z.object({
				name: z.string(),
				place: z.nullable(z.number()),
				/** What it is turned by while it is wet. */
				holdBy: z.optional(z.string()),
			}),
		)
		.check(z.minLength(1)),
	/** Every face of every part, in the order of the sheet. */
	faces: z.array(faceSchema).check(z.minLength(1)),
	/** Share of batches that may run short inside a face. */
	risk: z.optional(z.number().check(z.positive(), z.maximum(0.5))),
	/** Fixed by the sheet: `fewest-turns`, `wettest-edge`, or `sheet`. */
	order: z.enum(['fewest-turns', 'wettest-edge', 'sheet']),
	/** Checklist files named by the sheet that add to the built-in lists, relative to it. */
	lists: z.array(z.string()),
});
/** A job sheet, normalised. */
export type Job = z.infer<typeof jobSchema>;

type Guns = Pick<Job, 'gun' | 'guns' | 'stages'>;
type OfStage = Pick<PlannedCoat, 'stage'>;

/** The set-up that a coat is sprayed with, by the name that its stage has for it; undefined: the job has one alone. */
export function setUpOf({ stages }: Pick<Job, 'stages'>, { stage }: OfStage): string | undefined {
	const at = stages[stage];
	return at?.kind === 'coats' ? at.gun : undefined;
}

/** The gun that a coat is sprayed with, as it is set up for it. */
export const gunFor = (job: Guns, coat: OfStage): NamedGun => job.guns?.[setUpOf(job, coat) ?? ''] ?? job.gun;

/** A job as one of its spray stages has it: with the gun of that stage. */
export const withGunOf = (job: Job, stage: number): Job =>
	job.guns ? { ...job, gun: gunFor(job, { stage }) } : job;

/** What is planned as a coat of a face; one beyond the plan repeats the last. */
export function plannedOn({ faces }: Pick<Job, 'faces'>, face: string | null, coat: number | null) {
	const coats = faces.find(({ id }) => id === face)?.coats ?? [];
	return coats[(coat ?? 0) - 1] ?? coats.at(-1);
}

/** A job with the gun that a coat of a face is sprayed with. */
export function withGunOn(job: Job, face: string | null, coat: number | null): Job {
	const planned = job.guns && plannedOn(job, face, coat);
	return planned ? withGunOf(job, planned.stage) : job;
}

/** A gun by what stands on its tape. */
export const gunCalled = ({ gun, guns = {} }: Guns, name: string | null | undefined): NamedGun =>
	Object.values(guns).find(({ called }) => called === name) ?? gun;

/** What stands on the tapes of a job's guns; none where it has one alone, in however many set-ups. */
export function gunNames({ guns = {} }: Guns): string[] {
	const names = [...new Set(Object.values(guns).flatMap(({ called }) => called ?? []))];
	return names.length > 1 ? names : [];
}

/** The guns that spray a material, each set-up once. */
export function gunsOn(job: Guns, material: string): NamedGun[] {
	const sprays = job.stages.flatMap((one, stage) =>
		one.kind === 'coats' && one.material === material ? [gunFor(job, { stage })] : [],
	);
	return [...new Set(sprays)];
}

/** A face as it is for one of its coats: as its part is held then, under the gun's fan of then. */
export const laidAs = (face: Face, { attitude, size_mm, fanHeight_mm }: PlannedCoat): Face => ({
	...face,
	...(attitude && { attitude }),
	...(size_mm && { size_mm }),
	...(fanHeight_mm !== undefined && { fanHeight_mm }),
});

/** The fan that a coat of a face is laid with, mm. */
export const fanFor_mm = (
	face: Pick<Face, 'fanHeight_mm'>,
	coat: Pick<PlannedCoat, 'fanHeight_mm'>,
): number => coat.fanHeight_mm ?? face.fanHeight_mm;
