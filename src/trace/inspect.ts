import type { DayEvent, DayRecord } from '../day/records.ts';
import { nearest } from '../trade/nearest.ts';
import { parseQuantity } from '../trade/quantity.ts';
import type { FaultData } from './faults.ts';
import type { Spot } from './trace.ts';

/**
 * The walk along the faces of a closed day, line by line and without effects: what is looked at, what one line
 * makes of it, which records that adds.
 */
export type Inspection = {
	spots: readonly Spot[];
	at: number;
	judged: ReadonlySet<string>;
	over: boolean;
	/** What a trace asks to be looked at, asked again after each verdict; and all that was found so far. */
	search: Search | null;
	found: readonly DayEvent[];
	/** The part of each face, and the faces that are set aside already. */
	partOf: Readonly<Record<string, string>>;
	aside: ReadonlySet<string>;
};

/** Which faces a trace asks to be looked at, in order, with what was found since. */
export type Search = (found: readonly DayEvent[]) => readonly Spot[];

export type Heard = { inspection: Inspection; events: DayEvent[]; accepted: boolean; say: string };

const key = ({ face, coat }: Spot): string => `${face}#${coat}`;
const name = ({ face, coat }: Spot): string => `${face}, coat ${coat}`;

/**
 * Begins an inspection: the last coat of every face that was sprayed that day, in the order sprayed.
 * @param order faces to look at first, e.g. those a trace exposes
 * @param search lets verdicts choose which face comes next
 */
export function beginInspection(
	day: readonly DayRecord[],
	order: readonly Spot[] = [],
	search: Search | null = null,
): Inspection {
	const last = new Map<string, Spot>();
	const judged = new Set<string>();
	const [opened] = day;
	const sheet = opened?.type === 'day.opened' ? opened.sheet.faces : [];
	for (const record of day) {
		if (record.type === 'face.started') last.set(record.face, { face: record.face, coat: record.coat });
		if (record.type === 'face.judged') judged.add(key(record));
	}
	const first = new Set(order.map(key));
	const spots = [...order, ...[...last.values()].filter(spot => !first.has(key(spot)))];
	const partOf = Object.fromEntries(sheet.map(({ id, part }) => [id, part]));
	return {
		...{ spots, at: 0, judged, over: spots.length === 0, search, found: [] },
		...{ partOf, aside: asideIn(day) },
	};
}

/** Faces that a day leaves set aside for a fault of their own. */
function asideIn(day: readonly DayRecord[]): Set<string> {
	const aside = new Set<string>();
	for (const record of day) {
		if (record.type === 'day.opened')
			for (const [face, { aside: was }] of Object.entries(record.before.faces))
				if (was && was.beside !== true) aside.add(face);
		if (record.type === 'part.setAside') for (const face of record.faulty ?? record.faces) aside.add(face);
		if (record.type === 'rework.done' && record.step === 'clean') aside.delete(record.face);
	}
	return aside;
}

/** The face in hand; null once the walk is over. */
export const inHand = ({ spots, at, over }: Inspection): Spot | null => (over ? null : (spots[at] ?? null));

/** What is asked now. */
export function asks(inspection: Inspection): string {
	const spot = inHand(inspection);
	if (!spot) {
		const left = inspection.spots.filter(one => !inspection.judged.has(key(one))).length;
		return left === 0 ? 'Every face is judged.' : `Not judged yet: ${left} of ${inspection.spots.length}.`;
	}
	const seen = inspection.judged.has(key(spot)) ? ' (judged)' : '';
	return `${inspection.at + 1} of ${inspection.spots.length}: ${name(spot)}${seen}`;
}

/** After a verdict: to where the search would look next, else to the next face without a verdict. */
function onward(inspection: Inspection): Inspection {
	const { search, found, spots, judged } = inspection;
	const open = (spot: Spot) => !judged.has(key(spot));
	const wanted = search?.(found).find(open);
	const place = wanted
		? spots.findIndex(spot => key(spot) === key(wanted))
		: spots.findIndex((spot, at) => at > inspection.at && open(spot));
	const next = place >= 0 ? place : spots.findIndex(open);
	return next >= 0 ? moved(inspection, next) : { ...inspection, over: true };
}

type Verb = (rest: string, spot: Spot, inspection: Inspection, data: FaultData) => Heard;

const refused = (inspection: Inspection, say: string): Heard => ({
	inspection,
	events: [],
	accepted: false,
	say,
});

function moved(inspection: Inspection, to: number): Inspection {
	if (to >= inspection.spots.length) return { ...inspection, at: inspection.spots.length - 1, over: true };
	return { ...inspection, at: Math.max(0, to) };
}

const go =
	(step: number): Verb =>
	(_rest, _spot, inspection) => {
		const next = moved(inspection, inspection.at + step);
		return { inspection: next, events: [], accepted: true, say: asks(next) };
	};

const fault: Verb = (rest, spot, inspection, data) => {
	const found = /^([a-z-]+)(?:\s+coat\s+(\d+))?$/.exec(rest);
	const kind = found?.[1] ?? rest;
	const known = data.faults[kind];
	if (!known) {
		const like = nearest(kind, Object.keys(data.faults)) ?? 'run';
		return refused(inspection, `fault "${kind}" is not known: the nearest is ${like}`);
	}
	const coat = found?.[2] ? Number(found[2]) : spot.coat;
	if (coat < 1 || coat > spot.coat)
		return refused(inspection, `${spot.face} has coats 1 to ${spot.coat}: name one of them`);
	const ask = `fanwise trace --fault ${kind} --face "${spot.face}" --coat ${coat}`;
	const say = known.trace
		? `${known.say} kept. Where it began: ${ask}`
		: `${known.say} kept. It starts no trace.`;
	const seen: DayEvent = { type: 'fault.seen', fault: kind, face: spot.face, coat };
	return {
		inspection: { ...inspection, found: [...inspection.found, seen] },
		events: [seen],
		accepted: true,
		say,
	};
};

const film: Verb = (rest, spot, inspection) => {
	const found = /^(dry|wet)\s+(.+?)(?:\s+by\s+(.+))?$/.exec(rest);
	const value = found?.[2] ? parseQuantity(found[2], 'film') : null;
	if (!found || !value)
		return refused(inspection, 'film: say dry or wet and how much, as in "film dry 2.1 mil by gauge"');
	if (!value.ok) return refused(inspection, `film: ${value.message}`);
	if (value.value <= 0 || value.value > 5000)
		return refused(inspection, 'film: between 0 and 5000 µm can be read: read it again');
	const by = found[3] ?? (found[1] === 'dry' ? 'gauge' : 'comb');
	const read = found[1] === 'dry' ? { dry_um: value.value } : { wet_um: value.value };
	return {
		inspection,
		events: [{ type: 'film.read', face: spot.face, coat: spot.coat, ...read, by }],
		accepted: true,
		say: 'Film reading kept.',
	};
};

const photo: Verb = (rest, spot, inspection) =>
	rest === ''
		? refused(inspection, 'photo: say where it lies, as in "photo cart/0412.jpg"')
		: {
				inspection,
				events: [{ type: 'photo.kept', face: spot.face, coat: spot.coat, where: rest }],
				accepted: true,
				say: 'Kept where the photo lies.',
			};

const judge =
	(verdict: 'cleared' | 'rework' | 'accepted'): Verb =>
	(rest, spot, inspection) => {
		if (rest === '' && verdict !== 'cleared')
			return refused(inspection, `${verdict}: give the reason, as in "${verdict} slight, under the rail"`);
		const judged = new Set([...inspection.judged, key(spot)]);
		const reason = rest === '' ? 'looked at, nothing found' : rest;
		const aside = verdict === 'rework' ? setAside(inspection, spot, reason) : [];
		const events: DayEvent[] = [{ type: 'face.judged', ...spot, verdict, reason }, ...aside];
		const next = onward({ ...inspection, judged, found: [...inspection.found, ...events] });
		return {
			inspection: aside.length > 0 ? { ...next, aside: new Set([...next.aside, spot.face]) } : next,
			events,
			accepted: true,
			say: `${name(spot)}: ${verdict}${aside.length > 0 ? ', set aside' : ''}. ${asks(next)}`,
		};
	};

/** A face to be worked on again leaves the line: its next coat comes after its own rework. */
function setAside({ partOf, aside }: Inspection, { face }: Spot, why: string): DayEvent[] {
	const part = partOf[face];
	if (part === undefined || aside.has(face)) return [];
	return [{ type: 'part.setAside', part, faces: [face], faulty: [face], why }];
}

const face: Verb = (rest, _spot, inspection) => {
	const found = /^(.+?)(?:\s+coat\s+(\d+))?$/.exec(rest);
	const wanted = found?.[1] ?? '';
	const faces = inspection.spots.map(spot => spot.face);
	const at = inspection.spots.findIndex(
		spot => spot.face === wanted && (found?.[2] === undefined || spot.coat === Number(found[2])),
	);
	if (at < 0)
		return refused(
			inspection,
			`face "${wanted}" was not sprayed: the nearest is "${nearest(wanted, faces) ?? ''}"`,
		);
	const next = { ...inspection, at, over: false };
	return { inspection: next, events: [], accepted: true, say: asks(next) };
};

const done: Verb = (_rest, _spot, inspection) => {
	const next = { ...inspection, over: true };
	return { inspection: next, events: [], accepted: true, say: asks(next) };
};

const verbs: Record<string, Verb> = {
	fault,
	film,
	photo,
	cleared: judge('cleared'),
	rework: judge('rework'),
	accepted: judge('accepted'),
	next: go(1),
	back: go(-1),
	face,
	done,
};

/** The words a line may begin with. */
export const inspectVerbs = Object.keys(verbs);

/**
 * Takes one line: `fault run [coat 2]`, `film dry 2.1 mil [by gauge]`, `photo WHERE`, `cleared [reason]`,
 * `rework REASON`, `accepted REASON`, `next`, `back`, `face PART/FACE [coat N]`, `done`.
 * @returns the records it adds; a line that cannot be used adds none and changes nothing
 */
export function hear(inspection: Inspection, line: string, data: FaultData): Heard {
	const [word = '', ...rest] = line.trim().split(/\s+/u);
	const verb = verbs[word];
	if (!verb)
		return refused(
			inspection,
			`"${word}" is not known: the nearest is ${nearest(word, inspectVerbs) ?? 'next'}`,
		);
	const spot = inHand(inspection) ?? inspection.spots[inspection.at];
	if (!spot) return refused(inspection, 'no face was sprayed this day: there is nothing to look at');
	return verb(rest.join(' '), spot, inspection, data);
}
