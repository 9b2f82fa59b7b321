/**
 * What holds where a shop has chosen nothing. It stands apart from the schema, which says what each is, so that a
 * start without a file of settings need not load that.
 */
export const standardSettings = {
	units: 'sheet',
	layout: 'us',
	learned: null,
	answer: 'corners',
	by: 'auto',
	cards: false,
	voice: false,
	sounds: true,
	plain: false,
	alone: true,
	stretch_s: 240,
	checkAge_min: 20,
	silence_min: 3,
	checkTakes_min: 6,
	listSilence_min: 15,
	settle_s: 10,
	clockSlip_s: 2,
	triggerPause_s: 20,
	farOverdue_s: 180,
	airAge_h: 4,
	airHold_min: 30,
	warnEarly_min: 10,
	warnLate_min: 2,
	margin_C: 3,
	readingTolerance: 0.1,
	pourTolerance: 0.02,
	screen_mm: 190,
	distance_m: 2.5,
} as const;
