import { isAt } from '../job/places.ts';
import { coatKey } from '../records/passes.ts';
import { under } from './face-things.ts';
import { type Asked, type Clue, dayOf, faceOf, planOf, type Suspicion } from './suspicion.ts';
import type { Pass, Timeline } from './timeline.ts';

const same = (a: Pass, b: Pass) => a.face === b.face && a.coat === b.coat;

const sized = (size: number, reason: string, pass: Pass, explains: Clue['explains']): Clue => ({
	kind: size > 0 ? 'measured' : 'open',
	at: pass.began,
	size,
	reason,
	explains,
});

/** A coat that was sanded off is laid again by right. */
const reworked = ({ reworks }: Timeline, first: Pass, again: Pass): boolean =>
	reworks.get(first.face)?.some(({ at }) => at >= first.ended && at <= again.began) === true;

/** Whether a face was gone over again from its start within one coat, or got a coat beyond the plan. */
function extra(timeline: Timeline, pass: Pass): string | null {
	const planned = faceOf(timeline, pass.face)?.coats.length ?? pass.coat;
	if (pass.coat > planned) return `coat ${pass.coat} of ${planned}`;
	const coats = timeline.coats.get(coatKey(pass)) ?? [];
	const before = coats.find(
		one => one !== pass && one.ended <= pass.began && one.extent !== 'none' && !reworked(timeline, one, pass),
	);
	return before && pass.start.from === 'start' ? 'gone over again from its start' : null;
}

function count({ timeline, pass }: Asked): Suspicion | null {
	const reason = extra(timeline, pass);
	if (!reason) return null;
	const exposed = timeline.passes.filter(one => extra(timeline, one) !== null);
	const explains = (one: Pass) => extra(timeline, one) !== null;
	return {
		code: 'too-many-coats',
		thing: 'count',
		from: pass.began,
		to: pass.ended,
		exposed,
		clues: [sized(1, reason, pass, explains)],
		unread: null,
		stays: false,
	};
}

function missed({ timeline, pass }: Asked): Suspicion {
	const last = timeline.coats.get(coatKey(pass))?.at(-1) ?? pass;
	const left = last.extent === 'part' || last.extent === 'none';
	const reason = last.extent === 'part' ? 'it was ended in part and not taken up again' : 'nothing was laid';
	return {
		code: 'face-missed',
		thing: 'extent',
		from: pass.began,
		to: pass.ended,
		exposed: [pass],
		clues: [sized(left ? 1 : 0, left ? reason : 'it was keyed as done', pass, one => same(one, pass))],
		unread: left ? null : `extent: only a key says that all of ${pass.face} was laid`,
		stays: false,
	};
}

/** Preparation that the plan asks for before a coat and that no record ticks. */
function unticked(timeline: Timeline, pass: Pass): string[] {
	const plan = planOf(timeline, pass);
	if (!plan || pass.start.from === 'part') return [];
	const since = under(timeline, pass)?.ended ?? 0;
	const done = (timeline.stages.get(pass.face) ?? [])
		.filter(({ at }) => at >= since && at <= pass.began)
		.map(({ record: { stage, place } }) => ({ step: stage, place }));
	return plan.prep
		.filter(({ step }, place) => !done.some(one => isAt(one, step, place)))
		.map(({ step }) => step);
}

function surface({ timeline, pass }: Asked): Suspicion {
	const day = dayOf(timeline, pass);
	const left = unticked(timeline, pass);
	const explains: Clue['explains'] = one =>
		one.day === pass.day && (left.length === 0 || unticked(timeline, one).length > 0);
	return {
		code: 'surface',
		thing: 'surface',
		from: day.opened,
		to: day.closed,
		exposed: day.passes,
		clues: [
			sized(
				left.length > 0 ? 1 : 0,
				left.length > 0 ? `not recorded: ${left.join(', ')}` : 'ticks only',
				pass,
				explains,
			),
		],
		unread: `surface: ticks say that ${pass.face} was clean, no reading does`,
		stays: false,
	};
}

/** Last coats of every face: what was done to them after the spraying. */
const lastCoats = ({ faces }: Timeline): Pass[] => [...faces.values()].flatMap(passes => passes.at(-1) ?? []);

/** Hours from the last coat of a face to its unmasking; null where that is not recorded. */
function masked_h(timeline: Timeline, pass: Pass): number | null {
	const off = timeline.stages
		.get(pass.face)
		?.find(({ at, record }) => record.stage === 'unmask' && at >= pass.ended);
	return off ? (off.at - pass.ended) / 3600_000 : null;
}

/** Tape left on for longer than this is late. Common practice, no source; a data sheet goes before it. */
const lateUnmask_h = 24;

function handling({ timeline, pass }: Asked): Suspicion {
	const mine = masked_h(timeline, pass);
	const late = (one: Pass) => (masked_h(timeline, one) ?? 0) > lateUnmask_h;
	const size = mine !== null && mine > lateUnmask_h ? Math.max(1, mine / lateUnmask_h - 1) : 0;
	const exposed = lastCoats(timeline);
	const mineFirst = exposed.some(one => same(one, pass)) ? exposed : [...exposed, pass];
	return {
		code: 'handling',
		thing: 'handling',
		from: pass.ended,
		to: Math.max(pass.ended, timeline.last),
		exposed: mineFirst,
		clues: [
			sized(size, size > 0 ? `unmasked after ${Math.round(mine ?? 0)} h` : 'nothing was logged', pass, one =>
				size > 0 ? late(one) : mineFirst.includes(one),
			),
		],
		unread:
			mine === null
				? `handling: the unmasking of ${pass.face} is not recorded`
				: `handling: nothing else was recorded of ${pass.face}`,
		stays: false,
	};
}

export const countThings: Record<string, (asked: Asked) => Suspicion | null> = {
	'too-many-coats': count,
	'face-missed': missed,
	surface,
	handling,
};
