import * as z from 'zod';
import { standardSettings } from './standard-settings.ts';

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
	units: z.enum(['us', 'metric', 'sheet']).default(standardSettings.units),
	layout: z.enum(['us', 'german', 'french', 'learned']).default(standardSettings.layout),
	/** Keys taught by the painter, as `layout: learned` reads them; `hold` beside the space bar. */
	learned: learnedKeysSchema.nullable().default(standardSettings.learned),
	/** `corners`: four blocks of keys. `one-key`: any key is the one switch, its presses counted. */
	answer: z.enum(['corners', 'one-key']).default(standardSettings.answer),
	/** `face`: a key ends each face. `stretch`: one key starts a stretch, one ends it. */
	by: z.enum(['face', 'stretch']).default(standardSettings.by),
	cards: z.boolean().default(standardSettings.cards),
	/** Sentences are spoken by the system's own speaker. */
	voice: z.boolean().default(standardSettings.voice),
	/** Four sounds: held, a wait that ends soon, a wait that is over, an answer not taken. */
	sounds: z.boolean().default(standardSettings.sounds),
	/** Lines of text in place of the screens, for a screen reader or a pipe. */
	plain: z.boolean().default(standardSettings.plain),
	/** Longest stretch until the shop's own rates are known, s. */
	stretch_s: atLeast(30, standardSettings.stretch_s),
	/** Age at which a gun check is asked again before a face, min. */
	checkAge_min: z.number().min(5).max(60).default(standardSettings.checkAge_min),
	/** Least time between coming back and ready, s. */
	settle_s: atLeast(10, standardSettings.settle_s),
	/** Wall and monotonic clock may disagree by this much, s. */
	clockSlip_s: z.number().min(1).max(10).default(standardSettings.clockSlip_s),
	/** Trigger pause inside a face that is a break, s. */
	triggerPause_s: z.number().min(3).max(60).default(standardSettings.triggerPause_s),
	/** A face this much over its time turns the screen to hold, s. */
	farOverdue_s: z.number().min(60).max(600).default(standardSettings.farOverdue_s),
	/** Air readings older than this are taken again, h. */
	airAge_h: z.number().min(0.5).max(4).default(standardSettings.airAge_h),
	/** A hold longer than this asks for the air again, min. */
	airHold_min: z.number().min(5).max(30).default(standardSettings.airHold_min),
	/** Warnings before a wait ends, min. */
	warnEarly_min: atLeast(2, standardSettings.warnEarly_min),
	warnLate_min: atLeast(0.5, standardSettings.warnLate_min),
	/** Margin over the dew point, K; a material's own larger margin counts. */
	margin_C: atLeast(2, standardSettings.margin_C),
	/** Share by which a gauge or height reading may differ from the one wanted. */
	readingTolerance: z.number().min(0.02).max(0.15).default(standardSettings.readingTolerance),
	/** Share of a level by which a pour may differ. */
	pourTolerance: z.number().min(0.005).max(0.05).default(standardSettings.pourTolerance),
	/** Screen height in mm and viewing distance in m, for the size of letters. */
	screen_mm: z.number().min(50).max(2000).default(standardSettings.screen_mm),
	distance_m: z.number().min(0.3).max(10).default(standardSettings.distance_m),
});
export type Settings = z.infer<typeof settingsSchema>;
