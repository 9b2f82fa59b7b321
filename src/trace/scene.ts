import type { FaultData } from './faults.ts';
import { dayOf, faceOf, planOf } from './ground.ts';
import type { FaceSeen, Mark, Scene } from './marks.ts';
import { inOrder, type Pass, type Timeline } from './timeline.ts';

export type Question = { fault: string; face: string; coat: number };

/** Marks of a face, each kind on each coat once, as it was first seen; kinds that are not of the spraying never count. */
function marksOn(timeline: Timeline, data: FaultData, ask: Question, face: string): Mark[] {
	const marks = new Map<string, Mark>();
	const mark = (kind: string, coat: number, at: number) => {
		const isAsked = kind === ask.fault && face === ask.face && coat === ask.coat;
		const key = `${kind} ${coat}`;
		if (!marks.has(key)) marks.set(key, { kind, coat, at, isAsked });
	};
	for (const { at, record } of timeline.seen)
		if (record.face === face && record.coat !== undefined && data.faults[record.fault]?.trace)
			mark(record.fault, record.coat, at);
	const verdicts = new Map(
		timeline.judged.filter(({ record }) => record.face === face).map(one => [one.record.coat, one]),
	);
	// A face to be worked on again, with no fault named: it shows what was being looked for.
	for (const [coat, { at, record }] of verdicts)
		if (record.verdict === 'rework' && marks.size === 0) mark(ask.fault, coat, at);
	if (face === ask.face) mark(ask.fault, ask.coat, timeline.last);
	return [...marks.values()];
}

function seenOf(timeline: Timeline, data: FaultData, ask: Question, id: string, passes: Pass[]): FaceSeen {
	const coats = new Map<number, number>();
	for (const { coat, ended } of passes) coats.set(coat, Math.max(coats.get(coat) ?? 0, ended));
	const verdicts = new Map<number, { at: number; isSound: boolean }>();
	for (const { at, record } of timeline.judged)
		if (record.face === id) verdicts.set(record.coat, { at, isSound: record.verdict === 'cleared' });
	const cleared = [...verdicts].filter(([, { isSound }]) => isSound).sort(([a], [b]) => b - a)[0];
	const [first] = passes;
	const attitude = (first && planOf(timeline, first)?.attitude) ?? faceOf(timeline, id)?.attitude;
	return {
		id,
		isFlat: attitude === 'flat',
		coats: [...coats].sort(([a], [b]) => a - b).map(([coat, ended]) => ({ coat, ended })),
		marks: marksOn(timeline, data, ask, id),
		cleared: cleared ? { coat: cleared[0], at: cleared[1].at } : null,
	};
}

/** All faces of a job as they were seen, in the order in which they were first sprayed. */
export function sceneOf(timeline: Timeline, data: FaultData, ask: Question): Scene {
	const faces = [...timeline.faces].map(([id, passes]) => seenOf(timeline, data, ask, id, passes));
	const asked = faces.flatMap(({ marks }) => marks.filter(({ isAsked }) => isAsked))[0];
	return { faces, asked: Math.max(timeline.last, asked?.at ?? 0), faults: data.faults };
}

/** Passes that can have put a mark where one is, in order. */
export const markingIn = (timeline: Timeline, { faces }: Scene): Pass[] =>
	faces
		.flatMap(({ id, marks }) => {
			const top = Math.max(0, ...marks.map(({ coat }) => coat));
			return (timeline.faces.get(id) ?? []).filter(({ coat }) => coat <= top);
		})
		.sort(inOrder);

/** The passes that a fault may have been put in with: its own coat, or that and the coats under it. */
export function targets(timeline: Timeline, data: FaultData, { fault, face, coat }: Question): Pass[] {
	const isUnder = data.faults[fault]?.reach === 'under';
	return (timeline.faces.get(face) ?? []).filter(pass => pass.coat === coat || (isUnder && pass.coat < coat));
}

/** What cannot have happened since for something at the bench to be looked at still. */
export function ableOn(timeline: Timeline, asked: readonly Pass[], now: number) {
	const last = asked.at(-1);
	if (!last) return () => true;
	const cups = asked.flatMap(({ start }) => start.cup);
	const isSet = timeline.days
		.slice(last.day)
		.some(({ changes }) =>
			changes.some(
				({ at, record }) =>
					at > last.ended &&
					(record.type === 'gun.set' || (record.type === 'gun.unknown' && record.why === 'cleaned')),
			),
		);
	const isThere = cups.every(letter => timeline.batches.get(letter)?.discarded !== true);
	const isSameDay = now - dayOf(timeline, last).opened < 24 * 3_600_000;
	return (until: 'gun untouched' | 'batch there' | 'same day' | 'any time'): boolean =>
		({ 'gun untouched': !isSet, 'batch there': isThere, 'same day': isSameDay, 'any time': true })[until];
}
