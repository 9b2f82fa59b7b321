import * as z from 'zod';
import { checklistSchema } from '../job/checklist.ts';
import { componentSchema, hornsSchema, jobSchema, prepSchema, windowSchema } from '../job/job.ts';
import { settingsSchema } from './settings.ts';

/**
 * Everything that a day file can say. A record is true of the moment it was written; state is the fold of
 * all of them. Instants are ISO 8601 UTC with milliseconds; other quantities are in the unit their key ends in.
 */

const instant = z.iso.datetime({ precision: 3 });
const letter = z.string().regex(/^[A-Z]+$/);
const faceId = z.string();
const coat = z.number().int().positive();
const onFace = { face: faceId, coat };
const maybeFace = { face: faceId.nullable(), coat: coat.nullable() };

/** Where a face stands when a day is opened, from the closed days of the same job before it. */
export const faceHistorySchema = z.object({
	coats: z.array(z.object({ coat, ended: instant, cup: z.array(letter), surfaceC: z.number() })),
	/** Preparation done since the last coat. */
	prep: z.array(z.object({ step: prepSchema, at: instant })),
	aside: z.object({ why: z.string(), at: instant, done: z.array(z.string()) }).nullable(),
});

export type FaceHistory = z.infer<typeof faceHistorySchema>;

/** Time and paint that a coat has taken in this shop for each square metre; null: not known yet. */
const ownRateSchema = z.object({
	s_per_m2: z.number().positive().nullable(),
	mL_per_m2: z.number().positive().nullable(),
});

export const canSchema = z.object({ material: z.string(), component: componentSchema, mark: z.string() });

export const airSchema = z.object({ airC: z.number(), humidity: z.number(), surfaceC: z.number() });

/** What was known of the moment when a record that needs it was made: computed from the clock, never by a machine. */
export const factsSchema = z.object({
	window: windowSchema.optional(),
	/** The air reading in force: `ok`, too old, or outside the limits. */
	air: z.enum(['ok', 'stale', 'out', 'none']).optional(),
	/** The oldest batch in the cup is within its pot life now. */
	alive: z.boolean().optional(),
	/** … and will be when the face is done. */
	lasts: z.boolean().optional(),
	/** The cup holds what the face wants. */
	enough: z.boolean().optional(),
	/** The last gun check is older than its limit. */
	aged: z.boolean().optional(),
	/** The face broken off is still inside its wet edge. */
	wet: z.boolean().optional(),
	/** The least time since the painter came back has passed. */
	settled: z.boolean().optional(),
	/** A batch has stood long enough. */
	stood: z.boolean().optional(),
	/** The step of a rework line is due by its wait. */
	due: z.boolean().optional(),
});
export type Facts = z.infer<typeof factsSchema>;

/** Why the gun is no longer known. */
export const unknownWhySchema = z.enum([
	'break',
	'wait',
	'cap-turn',
	'knob',
	'batch',
	'refill',
	'gun-fault',
	'cleaned',
	'restart',
	'late',
	'age',
]);
export type UnknownWhy = z.infer<typeof unknownWhySchema>;

export const breakKindSchema = z.enum([
	'hold',
	'air-lost',
	'trouble',
	'restart',
	'suspend',
	'clock',
	'hangup',
	'overdue',
	'trigger-pause',
]);
export type BreakKind = z.infer<typeof breakKindSchema>;

export const readingFeatureSchema = z.enum([
	'breathing',
	'batch',
	'gauge',
	'pattern',
	'card',
	'horns',
	'pattern-height',
	'flooded',
	'can',
	'touch',
	'last-face',
	'which-face',
	'one-go',
]);
export type ReadingFeature = z.infer<typeof readingFeatureSchema>;

const level = { level_mL: z.number().min(0).optional(), mass_g: z.number().min(0).optional() };
const record = <Type extends string, Fields extends z.ZodRawShape>(type: Type, fields: Fields) =>
	z.strictObject({ type: z.literal(type), facts: factsSchema.optional(), ...fields });

export const eventSchema = z.discriminatedUnion('type', [
	record('day.opened', {
		v: z.literal(1),
		program: z.string(),
		job: z.string(),
		sheet: jobSchema,
		lists: z.array(checklistSchema),
		settings: settingsSchema,
		clock: z.enum(['real', 'moved']),
		zone: z.string(),
		cans: z.array(canSchema),
		/** Where the rotation of what is asked begins. */
		seed: z.number().int().min(0).optional(),
		before: z.object({ faces: z.record(faceId, faceHistorySchema), letters: z.number().int().min(0) }),
		/** What the shop's own days had shown, by material. */
		rates: z.record(z.string(), ownRateSchema).optional(),
	}),
	record('day.closed', { job: z.string(), why: z.enum(['done', 'early']) }),
	/** `stage` is the stage's place in the sheet; `coat` the count of coats on a face that no stage leaves out. */
	record('day.planned', { stage: z.number().int().min(0), coat, faces: z.array(faceId), order: z.string() }),
	record('clock.set', { stepMs: z.number() }),

	record('air.read', {
		...airSchema.shape,
		dewPointC: z.number(),
		spray: z.boolean(),
		reasons: z.array(z.string()),
	}),
	record('check.began', {
		check: z.number().int().positive(),
		list: z.string(),
		size: z.enum(['full', 'short']).nullable(),
		items: z.array(z.string()),
		...maybeFace,
	}),
	record('item.answered', {
		check: z.number().int().positive(),
		list: z.string(),
		item: z.string(),
		answer: z.string(),
		passed: z.boolean(),
	}),

	record('batch.started', {
		batch: letter,
		material: z.string(),
		/** Reducer parts of this batch (a coat kind may have its own). */
		ratio: z.object({ base: z.number(), hardener: z.number(), reducer: z.number() }),
		by: z.enum(['volume', 'weight']),
		make_mL: z.number().positive(),
	}),
	record('batch.stepped', { batch: letter, step: z.enum(['stir', 'strain']) }),
	record('batch.poured', {
		batch: letter,
		component: componentSchema,
		can: z.string(),
		...level,
		wanted_mL: z.number().optional(),
		wanted_g: z.number().optional(),
		found: z.enum(['short', 'right', 'over']),
	}),
	/** The level found after a break in mixing. `before`: nothing more went in since the last reading. */
	record('batch.found', {
		batch: letter,
		...level,
		found: z.enum(['before', 'short', 'right', 'over', 'unknown']),
		component: componentSchema,
	}),
	record('batch.stood', { batch: letter }),
	record('cup.timed', {
		batch: letter,
		cup: z.string(),
		seconds: z.number(),
		tempC: z.number(),
		fits: z.boolean(),
	}),
	record('batch.ready', { batch: letter, volume_mL: z.number().positive() }),
	record('batch.discarded', { batch: letter, why: z.string() }),
	record('batch.loaded', { batch: letter, volume_mL: z.number().positive(), refill: z.boolean() }),
	/** `read`: what was left was measured, not worked out. */
	record('cup.emptied', { volume_mL: z.number().min(0), why: z.string(), read: z.literal(true).optional() }),

	record('gun.set', {
		horns: hornsSchema.nullable(),
		pressure_kPa: z.number().nullable(),
		fanHeight_mm: z.number().nullable(),
		fluid: z.string().nullable(),
	}),
	record('reading.taken', {
		feature: readingFeatureSchema,
		value: z.union([z.string(), z.number()]),
		wanted: z.union([z.string(), z.number(), z.array(z.string())]).nullable(),
		matched: z.boolean(),
		attempt: z.number().int().positive(),
		check: z.number().int().positive().nullable(),
		...maybeFace,
		batch: letter.nullable(),
		/** The pattern card held up: the letters a tall fan covers, and those a wide one covers. */
		card: z.strictObject({ tall: z.string(), wide: z.string() }).optional(),
		/** Faces that a touch test speaks for. */
		faces: z.array(faceId).optional(),
	}),
	record('gun.checked', {
		check: z.number().int().positive(),
		size: z.enum(['full', 'short']),
		...onFace,
		cup: z.array(letter),
		horns: hornsSchema,
		tilt: z.number(),
	}),
	record('gun.unknown', { why: unknownWhySchema }),

	record('face.started', {
		...onFace,
		cup: z.array(letter),
		check: z.number().int().positive(),
		/** `seq` of the air reading it is sprayed under. */
		air: z.number().int().nullable(),
		/** Rules overridden for it. */
		overrides: z.array(z.string()),
		window: windowSchema,
		from: z.enum(['start', 'part']),
		/** Seconds the face should take, from which it is late. */
		spray_s: z.number().positive(),
	}),
	record('face.ended', {
		...onFace,
		extent: z.enum(['all', 'part', 'none']),
		lastStroke: z.number().int().positive().nullable(),
		estimated: z.boolean(),
		/** The face's share of its stretch, where estimated. */
		began: instant.optional(),
		ended: instant.optional(),
	}),
	record('face.late', onFace),
	/** A face broken off and past its wet edge: wait for its flash, then finish it. */
	record('edge.left', onFace),
	record('window.set', {
		...onFace,
		surfaceC: z.number(),
		/** What the coat just ended allows, in time order; `until: null` stays open. */
		windows: z.array(z.object({ does: windowSchema, from: instant, until: instant.nullable() })),
	}),

	record('wait.began', {
		...maybeFace,
		due: instant,
		why: z.enum(['flash', 'window', 'touch', 'stand', 'rework']),
	}),
	record('wait.ended', { ...maybeFace, due: instant }),
	/** `since`: when the program last ran, where nobody saw the break begin. */
	record('break.began', {
		kind: breakKindSchema,
		by: z.enum(['painter', 'program']),
		since: instant.optional(),
	}),
	record('break.ended', { kind: breakKindSchema, by: z.enum(['painter', 'program']) }),
	/** `rule`: `window`, `touch`, `prep`, `coats`, `aside`, `air`, or the code of the list item passed over. */
	record('override.given', { rule: z.string(), reason: z.string(), ...maybeFace }),
	record('stage.done', { face: faceId, stage: prepSchema, grit: z.number().int().positive().nullable() }),
	record('fault.seen', {
		fault: z.string(),
		face: faceId.optional(),
		coat: coat.optional(),
		gun: z.literal(true).optional(),
		remedy: z.string().optional(),
	}),
	record('part.setAside', { part: z.string(), faces: z.array(faceId), why: z.string() }),
	record('rework.done', { face: faceId, step: z.enum(['set-up', 'sand', 'clean', 'respray']) }),
	record('film.read', {
		...onFace,
		dry_um: z.number().optional(),
		wet_um: z.number().optional(),
		by: z.string(),
	}),
	record('photo.kept', { ...onFace, where: z.string() }),
	record('face.judged', {
		...onFace,
		verdict: z.enum(['cleared', 'rework', 'accepted']),
		reason: z.string(),
	}),
	record('trigger.on', {}),
	record('trigger.off', {}),
]);
/** What happened: a record without its place in the file. The machines' events are exactly these. */
export type DayEvent = z.infer<typeof eventSchema>;
export type EventType = DayEvent['type'];
export type EventOf<Type extends EventType> = Extract<DayEvent, { type: Type }>;

export const stampSchema = z.object({
	seq: z.number().int().min(1),
	/** Counts the starts of the program on this day; the monotonic clock means nothing across runs. */
	run: z.number().int().min(1),
	at: instant,
	mono: z.number(),
	/** The same key made the next record too: they stand or fall together. */
	more: z.literal(true).optional(),
});
export type Stamp = z.infer<typeof stampSchema>;
/** One line of a day file. */
export type DayRecord = Stamp & DayEvent;
