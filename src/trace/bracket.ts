import { type Asked, dayOf, overlaps } from './suspicion.ts';
import type { Pass } from './timeline.ts';

/** What one reading says of a thing: good, or contrary with the size of its departure. */
export type Evidence = { at: number; good: boolean; size: number; says: string };

export type Bracket = {
	/** The last good reading before the pass, and the reading that ends the doubt after it. */
	before: Evidence | null;
	after: Evidence | null;
	/** Contrary readings that were passed over before the pass. */
	against: Evidence[];
	from: number;
	to: number;
};

/**
 * The reading after a pass that ends the doubt: a good one, or a contrary one after which the thing was put right
 * before anything more was sprayed. A contrary reading that was passed over ends nothing.
 */
function closing({ pass, timeline }: Asked, evidence: readonly Evidence[]): Evidence | null {
	for (const one of evidence) {
		if (one.at < pass.ended) continue;
		if (one.good) return one;
		const mended = evidence.find(later => later.good && later.at >= one.at)?.at ?? Number.POSITIVE_INFINITY;
		const sprayed = dayOf(timeline, pass).passes.some(other => other.began >= one.at && other.began < mended);
		if (!sprayed) return one;
	}
	return null;
}

/**
 * From the last good reading before a pass (none: from the start of the day) to the evidence that ends the doubt
 * after it (none: to the end of the day). A tick is not a reading.
 * @param evidence readings of one thing on the day of the pass, in order
 */
export function bracketOf(asked: Asked, evidence: readonly Evidence[]): Bracket {
	const { pass, timeline } = asked;
	const before = evidence.findLast(one => one.good && one.at <= pass.began) ?? null;
	const after = closing(asked, evidence);
	const day = dayOf(timeline, pass);
	const from = before?.at ?? day.opened;
	const against = evidence.filter(one => !one.good && one.at >= from && one.at <= pass.began);
	return { before, after, against, from, to: after?.at ?? day.closed };
}

/** Passes of the same day any of whose spraying overlaps a bracket. */
export function exposedTo({ timeline, pass }: Asked, { from, to }: { from: number; to: number }): Pass[] {
	return dayOf(timeline, pass).passes.filter(one => overlaps(one, from, to));
}
