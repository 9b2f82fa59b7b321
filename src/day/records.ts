import * as z from 'zod/mini';
import { checklistSchema } from '../job/checklist.ts';
import {
	componentSchema,
	extrasSchema,
	hornsSchema,
	jobSchema,
	prepSchema,
	windowSchema,
} from '../job/job.ts';
import { settingsSchema } from './settings.ts';

/**
 * Everything that a day file can say. A record is true of the moment it was written; state is the fold of
 * all of them. Instants are ISO 8601 UTC with milliseconds; other quantities are in the unit their key ends in.
 */

const instant = z.iso.datetime({ precision: 3 });
const letter = z.string().check(z.regex(/^[A-Z]+$/));
const faceId = z.string();
const coat = z.int().check(z.positive());
const onFace = { face: faceId, coat };
const maybeFace = { face: z.nullable(faceId), coat: z.nullable(coat) };

/**
 * Which of the steps that the sheet puts before a face's coming coat, from 0; null: none of them, the recoat window asks
 * for it. A record of an older day does not say: it speaks of every step of its name.
 */
const place = z.optional(z.nullable(z.int().check(z.minimum(0))));

/** Where a face stands when a day is opened, from the closed days of the same job before it. */
export const faceHistorySchema = z.object({
	/** `surfaceC`: the highest that was read since; `leastC`: the lowest, which older days do not say. */
	coats: z.array(
		z.object({
			coat,
			ended: instant,
			cup: z.array(letter),
			surfaceC: z.number(),
			leastC: z.optional(z.number()),
		}),
	),
	/** Preparation done since the last coat. */
	prep: z.array(z.object({ step: prepSchema, place, at: instant })),
	/** Steps before the coming coat that were left out with a reason; older days do not say. */
	leftOut: z.optional(z.array(z.object({ step: prepSchema, place }))),
	/**
	 * `coat`: the one that is to be sanded flat; where it was broken off, none counts it. `beside`: it has no fault, and
	 * comes back in line with its part; older days do not say, and counted every face as one with a fault.
	 */
	aside: z.nullable(
		z.object({
			why: z.string(),
			at: instant,
			done: z.array(z.string()),
			coat: z.optional(coat),
			beside: z.optional(z.boolean()),
		}),
	),
});

export type FaceHistory = z.infer<typeof faceHistorySchema>;

/** Where the days before left the faces of a job, and how many batches they have lettered. */
export const beforeSchema = z.object({
	faces: z.record(faceId, faceHistorySchema),
	letters: z.int().check(z.minimum(0)),
});

/** A day is known by the sha256 of its first line, checksum and all, without the line feed: wherever its file lies. */
const dayId = z.string().check(z.regex(/^[0-9a-f]{64}$/));

/**
 * A day that another rests on: `upto` is the number of its last record that was taken over, `sum` the crc32 of all bytes
 * of its file up to the end of that line, as 8 hex digits: the one that is kept beside a closed day in any case.
 */
export const headSchema = z.object({
	day: dayId,
	upto: z.int().check(z.positive()),
	sum: z.string().check(z.regex(/^[0-9a-f]{8}$/)),
});
export type Head = z.infer<typeof headSchema>;

/** Of which job a day is, by its first day, and which days it rests on. */
export type Follows = { of: string; after: Head[] };

/** Time and paint that coats have taken in this shop, as factors of what the sheet says; null: not known yet. */
const ownRateSchema = z.object({
	time: z.nullable(z.number().check(z.positive())),
	paint: z.nullable(z.number().check(z.positive())),
	/** What of the paint stays unsure: a deviation of its logarithm; and the cups it was learned from. */
	unsure: z.optional(z.number().check(z.minimum(0))),
	cups: z.optional(z.int().check(z.positive())),
});

/** `name`: which of the reducers that a material has by the surface; an older day has one can for them all. */
const canSchema = z.object({
	material: z.string(),
	component: componentSchema,
	mark: z.string(),
	name: z.optional(z.string()),
});

export const airSchema = z.object({ airC: z.number(), humidity: z.number(), surfaceC: z.number() });

/** What was known of the moment when a record that needs it was made: computed from the clock, never by a machine. */
export const factsSchema = z.object({
	/** Of a day of version 1: the recoat window that the face was in; since then `window.moved` says it. */
	window: z.optional(windowSchema),
	/** The air reading in force: `ok`, too old, or outside the limits. */
	air: z.optional(z.enum(['ok', 'stale', 'out', 'none'])),
	/** The oldest batch in the cup is within its pot life now. */
	alive: z.optional(z.boolean()),
	/** The cup is thinned as the coat wants it. */
	thinned: z.optional(z.boolean()),
	/** It has not stood in the gun beyond the time to flush it. */
	fresh: z.optional(z.boolean()),
	/** Its oldest batch will be alive when the face is done. */
	lasts: z.optional(z.boolean()),
	/** The cup holds what the face wants. */
	enough: z.optional(z.boolean()),
	/** The last gun check is older than its limit. */
	aged: z.optional(z.boolean()),
	/** The face broken off is still inside its wet edge. */
	wet: z.optional(z.boolean()),
	/** The least time since the painter came back has passed. */
	settled: z.optional(z.boolean()),
	/** A batch has stood long enough. */
	stood: z.optional(z.boolean()),
	/** A wait is over, or the step of a rework line is due by its own. */
	due: z.optional(z.boolean()),
	/** The painter was away so long that the list before spraying is gone through again. */
	long: z.optional(z.boolean()),
});
export type Facts = z.infer<typeof factsSchema>;

/** `bare`: no coat is on. */
export const windowStateSchema = z.enum(['bare', ...windowSchema.options]);

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
	'silence',
]);
export type BreakKind = z.infer<typeof breakKindSchema>;

const readingFeatureSchema = z.enum([
	'gun',
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
	'set-up',
	'last-face',
	'which-face',
	'one-go',
]);
export type ReadingFeature = z.infer<typeof readingFeatureSchema>;

const level = {
	level_mL: z.optional(z.number().check(z.minimum(0))),
	mass_g: z.optional(z.number().check(z.minimum(0))),
};
const record = <Type extends string, Fields extends z.core.$ZodShape>(type: Type, fields: Fields) =>
	z.strictObject({ type: z.literal(type), facts: z.optional(factsSchema), ...fields });

export const eventSchema = z.discriminatedUnion('type', [
	record('day.opened', {
		/** 2: the recoat window of each face is a record of its own, and facts that guards ask for are never left out. */
		v: z.literal([1, 2]),
		program: z.string(),
		job: z.string(),
		sheet: jobSchema,
		lists: z.array(checklistSchema),
		settings: settingsSchema,
		clock: z.enum(['real', 'moved']),
		zone: z.string(),
		cans: z.array(canSchema),
		/** Where the rotation of what is asked begins. */
		seed: z.optional(z.int().check(z.minimum(0))),
		before: beforeSchema,
		/** The first day of its job; a first day has none, and an older one does not say. */
		of: z.optional(dayId),
		/** The days that `before` was worked out from. */
		after: z.optional(z.array(headSchema)),
		/** What the shelf had become by then, and was turned down for this job: its sha256. */
		turnedDown: z.optional(z.string().check(z.regex(/^[0-9a-f]{64}$/))),
		/** What the shop's own days had shown, by material. */
		rates: z.optional(z.record(z.string(), ownRateSchema)),
	}),
	record('day.closed', { job: z.string(), why: z.enum(['done', 'early']) }),
	/** `stage` is the stage's place in the sheet; `coat` the count of coats on a face that no stage leaves out. */
	record('day.planned', {
		stage: z.int().check(z.minimum(0)),
		coat,
		faces: z.array(faceId),
		order: z.string(),
	}),
	record('clock.set', { stepMs: z.number() }),

	record('air.read', {
		...airSchema.shape,
		dewPointC: z.number(),
		spray: z.boolean(),
		reasons: z.array(z.string()),
	}),
	record('check.began', {
		check: z.int().check(z.positive()),
		list: z.string(),
		size: z.nullable(z.enum(['full', 'short'])),
		items: z.array(z.string()),
		...maybeFace,
	}),
	record('item.answered', {
		check: z.int().check(z.positive()),
		list: z.string(),
		item: z.string(),
		answer: z.string(),
		passed: z.boolean(),
	}),

	record('batch.started', {
		batch: letter,
		material: z.string(),
		/** Reducer parts of this batch (a coat kind may have its own). */
		ratio: z.object({ base: z.number(), hardener: z.number(), reducer: z.number(), ...extrasSchema }),
		by: z.enum(['volume', 'weight']),
		make_mL: z.number().check(z.positive()),
	}),
	record('batch.stepped', { batch: letter, step: z.enum(['stir', 'strain']) }),
	record('batch.poured', {
		batch: letter,
		component: componentSchema,
		can: z.string(),
		...level,
		wanted_mL: z.optional(z.number()),
		wanted_g: z.optional(z.number()),
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
	record('batch.ready', { batch: letter, volume_mL: z.number().check(z.positive()) }),
	record('batch.discarded', { batch: letter, why: z.string() }),
	/**
	 * `to_mL`: how full the cup was seen to be after it; an older day does not say. `ofGun`: whose cup it is, by its tape,
	 * where the job has several guns.
	 */
	record('batch.loaded', {
		batch: letter,
		volume_mL: z.number().check(z.positive()),
		refill: z.boolean(),
		to_mL: z.optional(z.number().check(z.minimum(0))),
		ofGun: z.optional(z.string()),
	}),
	/**
	 * `read`: what was left was measured, not worked out; no `volume_mL`: how much went is not known. Of a cup that was
	 * not the one it was taken for, `batch` is the letter read on it, where that is one, and `kept` the batch that it was
	 * taken for, where its paint is still there.
	 */
	record('cup.emptied', {
		volume_mL: z.optional(z.number().check(z.minimum(0))),
		why: z.string(),
		read: z.optional(z.literal(true)),
		batch: z.optional(letter),
		kept: z.optional(letter),
	}),

	record('gun.set', {
		horns: z.nullable(hornsSchema),
		pressure_kPa: z.nullable(z.number()),
		fanHeight_mm: z.nullable(z.number()),
		fluid: z.nullable(z.string()),
	}),
	record('reading.taken', {
		feature: readingFeatureSchema,
		value: z.union([z.string(), z.number()]),
		wanted: z.nullable(z.union([z.string(), z.number(), z.array(z.string())])),
		matched: z.boolean(),
		attempt: z.int().check(z.positive()),
		check: z.nullable(z.int().check(z.positive())),
		...maybeFace,
		batch: z.nullable(letter),
		/** The pattern card held up: the letters a tall fan covers, and those a wide one covers. */
		card: z.optional(z.strictObject({ tall: z.string(), wide: z.string() })),
		/** Faces that a touch test speaks for. */
		faces: z.optional(z.array(faceId)),
	}),
	record('gun.checked', {
		check: z.int().check(z.positive()),
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
		check: z.int().check(z.positive()),
		/** `seq` of the air reading it is sprayed under. */
		air: z.nullable(z.int()),
		/** Rules overridden for it. */
		overrides: z.array(z.string()),
		window: windowSchema,
		from: z.enum(['start', 'part']),
		/** Seconds the face should take, from which it is late. */
		spray_s: z.number().check(z.positive()),
	}),
	record('face.ended', {
		...onFace,
		extent: z.enum(['all', 'part', 'none']),
		lastStroke: z.nullable(z.int().check(z.positive())),
		estimated: z.boolean(),
		/** The face's share of its stretch, where estimated. */
		began: z.optional(instant),
		ended: z.optional(instant),
	}),
	record('face.late', onFace),
	/** A face is left for later: broken off and past its wet edge, or whole and past the recoat window of its next coat. */
	record('edge.left', onFace),
	record('window.set', {
		...onFace,
		surfaceC: z.number(),
		/** The coldest and the warmest that the surface can have had by its readings, where its edges are clocks; older days do not say. */
		bounds_C: z.optional(z.tuple([z.number(), z.number()])),
		/** What the coat just ended allows, in time order; `until: null` stays open. */
		windows: z.array(z.object({ does: windowSchema, from: instant, until: z.nullable(instant) })),
		/** Whether the sheet gives all its times, keeps one, or has one carried on by a factor; an older day does not say. */
		rule: z.optional(z.enum(['points', 'nearest point', 'rule of thumb'])),
	}),

	/** The recoat window that a face has come into; `coat` is the one to come. `wait` again: between them it was open. */
	record('window.moved', { ...onFace, to: windowStateSchema }),

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
		since: z.optional(instant),
	}),
	/** `jump`: what a painter said of a wall clock that went on by itself in it. */
	record('break.ended', {
		kind: breakKindSchema,
		by: z.enum(['painter', 'program']),
		jump: z.optional(z.enum(['set', 'slept', 'not-sure'])),
	}),
	/** `rule`: `window`, `touch`, `prep`, `coats`, `aside`, `air`, or the code of the list item passed over. */
	record('override.given', {
		rule: z.string(),
		reason: z.string(),
		...maybeFace,
		/** The one step of preparation left out. */
		step: z.optional(prepSchema),
		place,
		/** The recoat window passed over. */
		window: z.optional(windowSchema),
		/** The batch that is used as it is. */
		batch: z.optional(letter),
	}),
	record('stage.done', {
		face: faceId,
		stage: prepSchema,
		grit: z.nullable(z.int().check(z.positive())),
		place,
	}),
	record('fault.seen', {
		fault: z.string(),
		face: z.optional(faceId),
		coat: z.optional(coat),
		gun: z.optional(z.literal(true)),
		remedy: z.optional(z.string()),
	}),
	/** `faulty`: faces that have the fault; the others are sound. Older days do not say, and counted each as one that has it. */
	record('part.setAside', {
		part: z.string(),
		faces: z.array(faceId),
		faulty: z.optional(z.array(faceId)),
		why: z.string(),
	}),
	/** `no-coat`: with all its coats on, it gets none more. */
	record('rework.done', { face: faceId, step: z.enum(['set-up', 'sand', 'clean', 'respray', 'no-coat']) }),
	record('film.read', {
		...onFace,
		dry_um: z.optional(z.number()),
		wet_um: z.optional(z.number()),
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
/** Every type that a record can have. */
export const eventTypes: readonly EventType[] = eventSchema.def.options.flatMap(
	option => option.shape.type.def.values,
);
export type EventOf<Type extends EventType> = Extract<DayEvent, { type: Type }>;

export const stampSchema = z.object({
	seq: z.int().check(z.minimum(1)),
	/** Counts the starts of the program on this day; the monotonic clock means nothing across runs. */
	run: z.int().check(z.minimum(1)),
	at: instant,
	mono: z.number(),
	/** How long the machine has run, its sleep counted in, ms; left out where it cannot tell, and by older days. */
	up: z.optional(z.number().check(z.minimum(0))),
	/** The same key made the next record too: they stand or fall together. */
	more: z.optional(z.literal(true)),
});
export type Stamp = z.infer<typeof stampSchema>;
/** One line of a day file. */
export type DayRecord = Stamp & DayEvent;
