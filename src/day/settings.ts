import * as z from 'zod';

const atLeast = (floor: number, standard: number) => z.number().min(floor).default(standard);

const keyNames = z.array(z.string().min(1));
const learnedKeysSchema = z.object({
	topLeft: keyNames.min(1),
	topRight: keyNames.min(1),
	bottomLeft: keyNames.min(1),
	bottomRight: keyNames.min(1),
	hold: keyNames,
});

/** What a shop may choose. Every threshold has a floor below which no file can take it. */
export const settingsSchema = z.object({
	units: z.enum(['us', 'metric', 'sheet']).default('sheet'),
	layout: z.enum(['us', 'german', 'french', 'learned']).default('us'),
	/** Keys taught by the painter, as `layout: learned` reads them; `hold` beside the space bar. */
	learned: learnedKeysSchema.nullable().default(null),
	/** `corners`: four blocks of keys. `one-key`: any key is the one switch, its presses counted. */
	answer: z.enum(['corners', 'one-key']).default('corners'),
	/** `face`: a key ends each face. `stretch`: one key starts a stretch, one ends it. */
	by: z.enum(['face', 'stretch']).default('face'),
	cards: z.boolean().default(false),
	/** Sentences are spoken by the system's own speaker. */
	voice: z.boolean().default(false),
	/** Four sounds: held, a wait that ends soon, a wait that is over, an answer not taken. */
	sounds: z.boolean().default(true),
	/** Lines of text in place of the screens, for a screen reader or a pipe. */
	plain: z.boolean().default(false),
	/** Longest stretch until the shop's own rates are known, s. */
	stretch_s: atLeast(30, 240),
	/** Age at which a gun check is asked again before a face, min. */
	checkAge_min: z.number().min(5).max(60).default(20),
	/** Least time between coming back and ready, s. */
	settle_s: atLeast(10, 10),
	/** Wall and monotonic clock may disagree by this much, s. */
	clockSlip_s: z.number().min(1).max(10).default(2),
	/** Trigger pause inside a face that is a break, s. */
	triggerPause_s: z.number().min(3).max(60).default(20),
	/** A face this much over its time turns the screen to hold, s. */
	farOverdue_s: z.number().min(60).max(600).default(180),
	/** Air readings older than this are taken again, h. */
	airAge_h: z.number().min(0.5).max(4).default(4),
	/** A hold longer than this asks for the air again, min. */
	airHold_min: z.number().min(5).max(30).default(30),
	/** Warnings before a wait ends, min. */
	warnEarly_min: atLeast(2, 10),
	warnLate_min: atLeast(0.5, 2),
	/** Margin over the dew point, K; a material's own larger margin counts. */
	margin_C: atLeast(2, 3),
	/** Share by which a gauge or height reading may differ from the one wanted. */
	readingTolerance: z.number().min(0.02).max(0.15).default(0.1),
	/** Share of a level by which a pour may differ. */
	pourTolerance: z.number().min(0.005).max(0.05).default(0.02),
	/** Screen height in mm and viewing distance in m, for the size of letters. */
	screen_mm: z.number().min(50).max(2000).default(190),
	distance_m: z.number().min(0.3).max(10).default(2.5),
});
export type Settings = z.infer<typeof settingsSchema>;
