import { surfaceLimits_C } from '../trade/air.ts';
import { bracketOf, type Evidence, exposedTo } from './bracket.ts';
import { type Asked, type Clue, dayOf, overlaps, type Suspicion } from './suspicion.ts';
import type { AirRead, Timeline } from './timeline.ts';

/** How far an air reading lies beyond the limits of a material: the largest departure, as a share. */
function airDeparture({ record }: AirRead, timeline: Timeline, materialId: string): number {
	const limits = timeline.job.materials[materialId]?.limits;
	if (!limits) return record.spray ? 0 : 0.5;
	const [cold, warm] = limits.air_C;
	const [coldest, hottest] = surfaceLimits_C(limits);
	const departures = [
		(record.humidity - limits.humidity_max) / (1 - limits.humidity_max),
		(cold - record.airC) / 10,
		(record.airC - warm) / 10,
		(coldest - record.surfaceC) / 10,
		(record.surfaceC - hottest) / 10,
		(limits.margin_C - (record.surfaceC - record.dewPointC)) / 10,
	];
	return Math.max(0, ...departures);
}

/** The air readings of the day of a pass, as evidence. */
function airEvidence({ timeline, pass }: Asked): Evidence[] {
	const material = timeline.batches.get(pass.start.cup[0] ?? '')?.material ?? '';
	return dayOf(timeline, pass).air.map(reading => ({
		at: reading.at,
		good: reading.record.spray,
		size: 2 * airDeparture(reading, timeline, material),
		says: `the air was outside its limits (${reading.record.reasons.join(', ') || 'not fit to spray'})`,
	}));
}

/** What the air may have had to do with a pass. */
export function airSuspicion(asked: Asked): Suspicion {
	const { pass } = asked;
	const { after, against, from, to } = bracketOf(asked, airEvidence(asked));
	const exposed = exposedTo(asked, { from, to });
	const explains: Clue['explains'] = one => one.day === pass.day && overlaps(one, from, to);
	const clues: Clue[] = [...against, ...(after && !after.good ? [after] : [])].map(({ at, size, says }) => ({
		kind: 'measured',
		at: at <= pass.began ? at : from,
		size,
		reason: says,
		explains,
	}));
	if (clues.length === 0)
		clues.push({ kind: 'open', at: from, size: 0, reason: 'nothing was logged', explains });
	const unread = after ? null : `air: no reading after ${pass.face}`;
	return { code: 'air-out-of-limits', thing: 'air', from, to, exposed, clues, unread, stays: true };
}
