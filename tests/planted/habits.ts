/**
 * How often a painter errs, reads by habit and misses what is there. A rate with a published figure has it beside it; the rest are
 * this file's own, without a source. The shares under `given` hold for days on which a cause is known to have got through: they
 * say how it got through, not how often.
 */
export const habits = {
	/** A reading is misread, and read again: HEART generic task E, routine and highly practised, 0.02 (Williams 1986, from memory). */
	misreads: 0.02,
	/** A key beside the one meant, where four corners answer: THERP table 20-12, wrong one of like controls, 0.003 (from memory; the figure seen in a course slide after Swain & Guttmann 1980). */
	fingers: 0.003,
	/** A call or a visitor, by key: common practice, no source; about one in 40 minutes. */
	calls: 0.006,
	/** Walks to the kettle without a key, by key: common practice, no source. */
	strolls: 0.004,
} as const;

/** Of what is wrong with the gun, at each check after it began. No source. */
export const given = {
	/** He looks, keys what is there, and is told to put it right. */
	looks: 0.45,
	/** He looks, puts it right, and keys what is then there. */
	mendsFirst: 0.2,
	/** What he keys of a number lies between the truth and what it should be: anchoring, Tversky & Kahneman 1974; the share has no source. */
	anchors: 0.5,
	/** A call came just before: no source for the share. */
	called: 0.5,
	/** A cause of mixing, air or preparation that its own record says: a reason keyed, a wrong mark read first. */
	saysSo: 0.5,
} as const;

/** The eye at inspection. */
export const eye = {
	/** A faulty face passed over: 20 to 30 % is usual for inspection by eye (Megaw 1979; See, SAND2012-8590; both from memory). */
	misses: 0.2,
	/** A sound face marked: no source. */
	falseMarks: 0.02,
	/** Another kind of like look is named: no source. */
	confuses: 0.12,
	/** What was not seen wet is laid to the coat on top, though it lies deeper: no source. */
	namesTop: 0.6,
	/** What can be seen wet is seen and marked on the day: no source. */
	seesWet: 0.35,
	/** A face that was looked at and found sound is said to be: no source. */
	clears: 0.5,
	/** The inspecting painter has a film gauge: no source. */
	gauges: 0.35,
} as const;
