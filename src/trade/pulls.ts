/** What a trigger line has said while one pass lasted: seconds pulled (null: nothing yet), and since when it is pulled. */
export type Pulls = { pulled_s: number | null; since_ms: number | null };

export const noPulls: Pulls = { pulled_s: null, since_ms: null };

/** The pulls of a pass after one more word of the line. */
export function pull({ pulled_s, since_ms }: Pulls, on: boolean, at_ms: number): Pulls {
	if (on) return { pulled_s: pulled_s ?? 0, since_ms: at_ms };
	if (since_ms === null) return { pulled_s, since_ms };
	return { pulled_s: (pulled_s ?? 0) + (at_ms - since_ms) / 1000, since_ms: null };
}

/**
 * Seconds that the trigger was pulled in a pass that ends, a pull under way with them.
 * @returns s; null where no line spoke: two keys are not a trigger, and say nothing of the film
 */
export const pulledUntil_s = (pulls: Pulls, end_ms: number): number | null =>
	pull(pulls, false, end_ms).pulled_s;

/** What a coat was planned with: turns and all, and the trigger alone; older sums knew no turns. */
type Timed = { spray_s: number; trigger_s?: number | undefined };

/**
 * Seconds of trigger that the sheet plans for a pass: its share of the coat, without the turns and without what this
 * shop's usual elapsed time is more.
 * @param given_s elapsed time that the pass was given
 * @param usual elapsed time in this shop ÷ the sheet's time; null or left out: none was learned
 */
export const plannedPull_s = (given_s: number, coat: Timed, usual: number | null | undefined): number =>
	((coat.trigger_s ?? coat.spray_s) * given_s) / (coat.spray_s * (usual ?? 1));
