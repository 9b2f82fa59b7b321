import * as z from 'zod/mini';
import { standardSettings } from './standard-settings.ts';

const atLeast = (floor: number, standard: number) => z._default(z.number().check(z.minimum(floor)), standard);

const keyNames = z.array(z.string().check(z.minLength(1)));
const learnedKeysSchema = z.object({
	topLeft: keyNames.check(z.minLength(1)),
	topRight: keyNames.check(z.minLength(1)),
	bottomLeft: keyNames.check(z.minLength(1)),
	bottomRight: keyNames.check(z.minLength(1)),
	hold: keyNames,
});

/** What a shop may choose. Every threshold has a floor below which no file can take it. */
export const settingsSchema = z.object({
	units: z._default(z.enum(['us', 'metric', 'sheet']), standardSettings.units),
	layout: z._default(z.enum(['us', 'german', 'french', 'learned']), standardSettings.layout),
	/** Keys taught by the painter, as `layout: learned` reads them; `hold` beside the space bar. */
	learned: z._default(z.nullable(learnedKeysSchema), standardSettings.learned),
	/** `corners`: four blocks of keys. `one-key`: any key is the one switch, its presses counted. */
	answer: z._default(z.enum(['corners', 'one-key']), standardSettings.answer),
	/**
	 * `auto`: one key starts the faces that follow each other with nothing to touch between, one ends them. `face`: each by
	 * itself, for whoever has a helper at the keys. `stretch` is what `auto` was called.
	 */
	by: z._default(z.enum(['auto', 'face', 'stretch']), standardSettings.by),
	cards: z._default(z.boolean(), standardSettings.cards),
	/** Sentences are spoken by the system's own speaker. */
	voice: z._default(z.boolean(), standardSettings.voice),
	/** Four sounds: held, a wait that ends soon, a wait that is over, an answer not taken. */
	sounds: z._default(z.boolean(), standardSettings.sounds),
	/** Lines of text in place of the screens, for a screen reader or a pipe. */
	plain: z._default(z.boolean(), standardSettings.plain),
	/** Nobody else is in the shop: the board calls for somebody to look in where the painter falls silent. */
	alone: z._default(z.boolean(), standardSettings.alone),
	/** Longest stretch until the shop's own rates are known, s. */
	stretch_s: atLeast(30, standardSettings.stretch_s),
	/** Age at which a gun check is asked again before a face, min. */
	checkAge_min: z._default(z.number().check(z.minimum(5), z.maximum(60)), standardSettings.checkAge_min),
	/** Longest silence in a gun check, from it to the first start, and at *ready* between two passes, min. */
	silence_min: z._default(z.number().check(z.minimum(1), z.maximum(3)), standardSettings.silence_min),
	/** Longest that a gun check takes with the way to the first start, min. */
	checkTakes_min: z._default(z.number().check(z.minimum(2), z.maximum(6)), standardSettings.checkTakes_min),
	/** Longest silence in the list before spraying, min. */
	listSilence_min: z._default(
		z.number().check(z.minimum(5), z.maximum(15)),
		standardSettings.listSilence_min,
	),
	/** Least time between coming back and ready, s. */
	settle_s: atLeast(10, standardSettings.settle_s),
	/** Wall and monotonic clock may disagree by this much, s. */
	clockSlip_s: z._default(z.number().check(z.minimum(1), z.maximum(10)), standardSettings.clockSlip_s),
	/** Trigger pause inside a face that is a break, s. */
	triggerPause_s: z._default(z.number().check(z.minimum(3), z.maximum(60)), standardSettings.triggerPause_s),
	/** A face this much over its time turns the screen to hold, s. */
	farOverdue_s: z._default(z.number().check(z.minimum(60), z.maximum(600)), standardSettings.farOverdue_s),
	/** Air readings older than this are taken again, h. */
	airAge_h: z._default(z.number().check(z.minimum(0.5), z.maximum(4)), standardSettings.airAge_h),
	/** A hold longer than this asks for the air again, min. */
	airHold_min: z._default(z.number().check(z.minimum(5), z.maximum(30)), standardSettings.airHold_min),
	/** Warnings before a wait ends, min. */
	warnEarly_min: atLeast(2, standardSettings.warnEarly_min),
	warnLate_min: atLeast(0.5, standardSettings.warnLate_min),
	/** Margin over the dew point, K; a material's own larger margin counts. */
	margin_C: atLeast(2, standardSettings.margin_C),
	/** Share by which a gauge or height reading may differ from the one wanted. */
	readingTolerance: z._default(
		z.number().check(z.minimum(0.02), z.maximum(0.15)),
		standardSettings.readingTolerance,
	),
	/** Share of a level by which a pour may differ. */
	pourTolerance: z._default(
		z.number().check(z.minimum(0.005), z.maximum(0.05)),
		standardSettings.pourTolerance,
	),
	/** Screen height in mm and viewing distance in m, for the size of letters. */
	screen_mm: z._default(z.number().check(z.minimum(50), z.maximum(2000)), standardSettings.screen_mm),
	distance_m: z._default(z.number().check(z.minimum(0.3), z.maximum(10)), standardSettings.distance_m),
});
export type Settings = z.infer<typeof settingsSchema>;
