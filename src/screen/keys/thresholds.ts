/** Every time that the keys are judged by, in one place; ms unless the name says otherwise. */
export const keyTimes = {
	/** The same corner again within this, measured from the last one seen, is the same press. */
	repeat_ms: 500,
	/** Two corners within this are a glove across two blocks: neither counts. */
	chord_ms: 60,
	/** Keys struck before a new screen has been up for this long were meant for the last one. */
	newScreen_ms: 500,
	/** A program that stood still for this long has keys waiting that were meant for an older screen. */
	stall_ms: 250,
	/** How often the event loop is looked at; a gap of `stall_ms` between two looks counts, so this must be less. */
	heartbeat_ms: 125,
	/** Two figures that nothing follows for this long are the whole number, where only such are asked for. */
	figures_ms: 1500,
	/** An escape byte with nothing after it for this long is the Escape key. */
	escape_ms: 50,
	/** A paste with nothing more for this long has ended, whether or not its end was seen. */
	paste_ms: 500,
} as const;

/** Times of the single switch, ms. */
export const oneKeyTimes = {
	/** Presses nearer than this are one press: a bouncing contact, or a terminal's own repeat. */
	bounce_ms: 60,
	/** No further press for this long ends the count. */
	count_ms: 900,
	/** A press that confirms has to stand alone for this long. */
	confirm_ms: 400,
	/** A choice that nobody confirms is let go. */
	lapse_ms: 8000,
	/** Held down this long: hold. */
	held_ms: 1200,
	/** So many presses, or more: hold. */
	holdPresses: 6,
	/** So many repeats nearer than a bounce, one after another: the key is held down. */
	heldRepeats: 5,
} as const;
