import type { Face, Material, PlannedCoat } from '../job/job.ts';
import { plannedOn, setUpOf } from '../job/job.ts';
import { coatKey, put } from '../records/passes.ts';
import { clock } from '../words/clock.ts';
import { faceName } from '../words/say.ts';
import { reachOf } from './marks.ts';
import { unease } from './numbers.ts';
import type { Cause } from './prior.ts';
import type { Habits, Soft } from './soft.ts';
import type { Change, DayLine, Pass, Timeline } from './timeline.ts';
import type { Explanation } from './weigh.ts';

/** What explanations are laid out on. */
export type Ground = {
	timeline: Timeline;
	zone: string;
	habits: Habits;
	/** Days that hold a pass which can have put a mark where one is: no other can explain any. */
	days: readonly number[];
	/** Passes that can have put a mark where one is. */
	marking: ReadonlySet<Pass>;
	/** Places of faces in the scene. */
	faces: ReadonlyMap<string, number>;
	/** Passes that the fault asked about may have been put in with. */
	asked: readonly Pass[];
	/** What was not recorded and would have settled it: by cause, and in words. */
	missing: Map<string, { code: string; says: string }>;
};

export function faceOf({ job }: Timeline, id: string): Face | undefined {
	return job.faces.find(face => face.id === id);
}

/** The plan of a coat; one beyond the plan is laid like the last. */
export function planOf(timeline: Timeline, pass: Pass): PlannedCoat | undefined {
	const coats = faceOf(timeline, pass.face)?.coats;
	return coats?.[Math.min(pass.coat, coats.length) - 1];
}

export function materialOf(timeline: Timeline, pass: Pass): Material | undefined {
	return timeline.job.materials[planOf(timeline, pass)?.material ?? ''];
}

export function dayOf({ days }: Timeline, pass: Pass): DayLine {
	const day = days[pass.day];
	if (!day) throw new RangeError(`no day ${pass.day + 1} in the files given`);
	return day;
}

/** The set-up of the gun that a coat of a face is sprayed with; undefined: the job has one alone. */
export function setUpFor(
	{ job }: Timeline,
	{ face, coat }: { face: string | null; coat: number | null },
): string | undefined {
	const planned = plannedOn(job, face, coat);
	return planned && setUpOf(job, planned);
}

/** Something that lies in a gap, in order. */
export const gapOf = (passes: readonly Pass[], at: number): number => {
	let [low, high] = [0, passes.length];
	while (low < high) {
		const middle = (low + high) >> 1;
		if ((passes[middle]?.began ?? 0) <= at) low = middle + 1;
		else high = middle;
	}
	return low;
};

/** Things of a day by the gap before a pass that they fall into, and one more after the last pass. */
export function inGaps<One extends { at: number }>(passes: readonly Pass[], things: readonly One[]): One[][] {
	const gaps: One[][] = Array.from({ length: passes.length + 1 }, () => []);
	for (const one of things) gaps[gapOf(passes, one.at)]?.push(one);
	return gaps;
}

const unsettles = ({ record }: Change): boolean =>
	record.type === 'break.began' || (record.type === 'gun.unknown' && record.why === 'wait');

/** How likely something began in each gap before a pass of a day: more after a break, where it was touched, and first. */
export function uneasesOf(
	passes: readonly Pass[],
	changes: readonly Change[],
	touches: (change: Change, next: Change | undefined) => boolean = () => false,
): number[] {
	const gaps = inGaps(passes, changes);
	return passes.map((_, nth) => {
		const lie = gaps[nth] ?? [];
		return (
			unease.none +
			(lie.some(unsettles) ? unease.break : 0) +
			(lie.some((change, at) => touches(change, lie[at + 1])) ? unease.touched : 0) +
			(nth === 0 ? unease.firstOfDay : 0)
		);
	});
}

export const sumOf = (numbers: readonly number[]): number => numbers.reduce((sum, one) => sum + one, 0);

/** The passes of a coat of a day, by coat; of a part in it; in order. */
export function grouped(passes: readonly Pass[], by: (pass: Pass) => string): Pass[][] {
	const groups = new Map<string, Pass[]>();
	for (const pass of passes) put(groups, by(pass), pass);
	return [...groups.values()];
}

export const coatOfDay = ({ day, coat }: Pass): string => `${day} ${coat}`;

/** Passes of all days, and those of the days that count. */
export const daysIn = ({ timeline, days }: Ground): DayLine[] =>
	days.flatMap(day => timeline.days[day] ?? []);

export const spotSaid = ({ face, coat }: Pass): string => `${faceName(face)}, coat ${coat}`;

function extentOf(passes: readonly Pass[], zone: string): string {
	const [first, last] = [passes[0], passes.at(-1)];
	if (!first || !last) return 'nowhere';
	if (new Set(passes.map(coatKey)).size === 1) return `${spotSaid(first)} alone`;
	return `${clock(first.began, zone)} to ${clock(last.ended, zone)}, ${passes.length} coats`;
}

/**
 * One explanation, from the passes that it reached, in order; none where they can have put no mark.
 * @param more its share and odds; its words and start, where they are not those of its first pass
 */
export function explain(
	ground: Ground,
	cause: Cause,
	passes: readonly Pass[],
	more: {
		share: number;
		odds?: number;
		softs?: () => readonly Soft[];
		extent?: string;
		start?: () => { from: number; to: number };
	},
): Explanation[] {
	const { faces, marking, zone, timeline } = ground;
	if (!passes.some(pass => marking.has(pass))) return [];
	const spots = passes.map(({ face, coat }) => ({ at: faces.get(face) ?? -1, coat }));
	return [
		{
			cause,
			share: more.share,
			odds: more.odds ?? 1,
			softs: more.softs ?? (() => []),
			reach: reachOf(faces.size, spots),
			passes,
			extent: () => more.extent ?? extentOf(passes, zone),
			start: more.start ?? (() => startOf(timeline, passes[0])),
		},
	];
}

/** Between the pass before one and its own beginning. */
export function startOf(timeline: Timeline, first: Pass | undefined): { from: number; to: number } {
	if (!first) return { from: 0, to: 0 };
	const day = dayOf(timeline, first);
	const before = day.passes[gapOf(day.passes, first.began - 1) - 1];
	return { from: Math.min(before?.ended ?? day.opened, first.began), to: first.began };
}

/** What was not read of a thing that bears on the passes asked about. */
export function notRead(ground: Ground, code: string, says: string): void {
	if (!ground.missing.has(says)) ground.missing.set(says, { code, says });
}
