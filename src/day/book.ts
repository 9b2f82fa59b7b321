import type { Component, Prep } from '../job/job.ts';
import { type CupCount, emptyCup } from '../plan/cup-count.ts';
import type { SecondFeature } from '../plan/second-feature.ts';
import type { Ratio } from '../trade/mix.ts';
import type { Pulls } from '../trade/pulls.ts';
import type { AirReading } from './air-readings.ts';
import { atMost_s, type Instant, instantAfter, sameClocks, shownBy } from './instant.ts';
import { type Passed, unknown_ms } from './passed.ts';
import type { BreakKind, DayRecord, EventOf } from './records.ts';

type Opened = EventOf<'day.opened'>;

export type LaidCoat = {
	coat: number;
	ended: Instant;
	/** When the first of it went on; null: an earlier day laid it, and does not say. */
	began: Instant | null;
	cup: readonly string[];
	/** Highest surface temperature that an earlier day held it at, °C; null: it was laid today. */
	carried_C: number | null;
	/** … and the lowest, where that day says it. */
	carriedLeast_C: number | null;
};

export type FaceBook = {
	/** The pass under way or broken off. */
	pass: {
		coat: number;
		began: Instant;
		spray_s: number;
		from: 'start' | 'part';
		/** When it was noticed that a break broke it off, and the earliest that it can have been. */
		stopped: Instant | null;
		seen: Instant | null;
		/** The program ran until it was noticed: spraying may have gone on until then. */
		watched: boolean;
		pulls: Pulls;
	} | null;
	laid: LaidCoat[];
	/** When its recoat window last moved, or a pass shut it. */
	movedAt: Instant | null;
	/** What the last coat allows, as last worked out. */
	windows: EventOf<'window.set'> | null;
	/**
	 * Where a coat broken off stands: the last stroke laid, the share of the coat that is on, when it was begun, when that it
	 * broke off was noticed, and since when its edge may dry.
	 */
	part: {
		lastStroke: number | null;
		share: number;
		began: Instant;
		since: Instant;
		wetSince: Instant;
		left: boolean;
	} | null;
	/** The coat whose recoat window was missed, once the painter has said what now; null: none was. */
	left: number | null;
	prep: { step: Prep; place?: number | null | undefined; at: Instant }[];
	/** `coat`: the one that is to be sanded flat, whole or broken off; 0: none is on. */
	aside: {
		why: string;
		since: Instant;
		coat: number;
		rework: { step: string; at: Instant }[];
		/** Since when half a coat lies on it. */
		halfSince: Instant | null;
		/** It was found still soft. */
		softAt?: Instant;
	} | null;
	/** Comes back from its rework line with the next coat. */
	respray: boolean;
	/** Back from it with all its coats on: whether it gets one more is still to be said. */
	again: boolean;
};

export type BatchBook = {
	material: string;
	by: 'volume' | 'weight';
	ratio: Ratio;
	make_mL: number;
	/** Amount of each component read so far, in mL or g. */
	amounts: Partial<Record<Component, number>>;
	/** What the pot showed at the last reading, in mL or g; the components in it in the order poured. */
	level: number;
	/** The earliest that the hardener can have gone in. */
	hardened: Instant | null;
	/** Since when its can is in the hand, the level not read since. */
	inHandSince: Instant | null;
	/** When the present standing began. */
	standing: Instant | null;
	/** Paint mixed and not yet in the gun, mL; null: still being mixed. */
	pot_mL: number | null;
	/** The cup was filled from it: what is left of it is counted, and nobody has looked. */
	poured: boolean;
	seconds: number | null;
	/** Temperature of the paint as its flow cup was timed, °C. */
	read_C: number | null;
	/** Read by finer marks than those of the pot, with a reason. */
	finer: boolean;
};

export type CheckBook = {
	no: number;
	list: string;
	size: 'full' | 'short' | null;
	items: readonly string[];
	face: string | null;
	coat: number | null;
	began: Instant;
	attempts: number;
	/** The last reading that differed and is not yet put right. */
	differed: EventOf<'reading.taken'> | null;
};

/** The times and amounts of the day: what the machines leave out so that their states stay few. */
export type Book = CupCount & {
	opened: Opened;
	/** Of the last record. */
	last: DayRecord;
	now: Instant;
	/** Of the last record that was made at another look at the clocks. */
	ran: Instant;
	/** When somebody last keyed anything, and what that was. */
	heard: Instant;
	heardAs: DayRecord['type'];
	faces: Map<string, FaceBook>;
	batches: Map<string, BatchBook>;
	lettersBefore: number;
	/** The gun on whose cup the paint is, by its tape; null: the cup is empty, or the job has one gun. */
	cupGun: string | null;
	/** When mixed paint last moved in the gun. */
	gunWetSince: Instant | null;
	air: (EventOf<'air.read'> & { seq: number; at: Instant }) | null;
	/** All that were read, but for those that the next one took back. */
	airs: AirReading[];
	/** A pass began since the air was last read. */
	sprayedIn: boolean;
	orders: EventOf<'day.planned'>[];
	checks: number;
	/** The answer by which each item of a list was closed last. */
	signs: Readonly<Record<string, string>>;
	/** The second feature that a full gun check asked for last. */
	secondAsked: SecondFeature | null;
	check: CheckBook | null;
	/** `began`: the check it rests on. */
	checked: (EventOf<'gun.checked'> & { at: Instant; began: Instant }) | null;
	/** The gun that a check last began with, by its tape; null: none yet, or the job has one alone. */
	gunInHand: string | null;
	/** The last thing done to it on instruction, or found by a reading, since it was last cleaned. */
	gun: {
		horns: string | null;
		fanHeight_mm: number | null;
		pressure_kPa: number | null;
		fluid: string | null;
	};
	/**
	 * `clockBack_s`: by how much the wall clock was set back, in it or just before; `gaps`: how many gaps of the clocks
	 * there were before it.
	 */
	break: { kind: BreakKind; since: Instant; from: string; clockBack_s: number; gaps: number } | null;
	backSince: Instant | null;
	/** No pass began since the last break. */
	broken: boolean;
	/** A hold long enough to ask for the air again is told by this. */
	longestHold_s: number;
	wait: EventOf<'wait.began'> | null;
	attempts: number;
	overrides: (DayRecord & EventOf<'override.given'>)[];
	faults: (EventOf<'fault.seen'> & { at: Instant })[];
	triggerOff: Instant | null;
	/** Pulls of the trigger that belong to no pass and no check, until it is told what they were; `on`: since when it is pulled. */
	stray: { pulled_s: number; on: Instant | null } | null;
	/** Batches given up by the last records, and something of them in a pot. */
	thrown: readonly EventOf<'batch.discarded'>[];
	stretch: readonly string[];
	/** The face that last ran over its time. */
	late: EventOf<'face.late'> | null;
	/** Faces whose last coat ended their rework line, until that is recorded. */
	resprayed: readonly string[];
	/** The tape tab was still wet at this moment. */
	tabWet: Instant | null;
	/** … and was dry at this one, nothing wet found since. */
	tabDry: Instant | null;
	/** Letters that a tall fan covers on the pattern card last held up. */
	lastCard: string | null;
};

/** Nothing is in the cup that has to be counted. */

const emptyFace = (): FaceBook => ({
	pass: null,
	laid: [],
	movedAt: null,
	windows: null,
	part: null,
	left: null,
	prep: [],
	aside: null,
	respray: false,
	again: false,
});

/** The latest that earlier days tell of, wall clock ms; -Infinity: nothing. */
const lastBefore = ({ before }: Opened): number =>
	Math.max(
		...Object.values(before.faces).flatMap(({ coats, prep, aside }) => [
			...coats.map(({ ended }) => Date.parse(ended)),
			...[...prep, ...(aside ? [aside] : [])].map(({ at }) => Date.parse(at)),
		]),
	);

/** The wall clock is behind an earlier day: nobody knows how long it has been since. */
const gapBefore = (record: DayRecord & Opened): readonly Passed[] =>
	lastBefore(record) > Date.parse(record.at) ? [{ least: 0, most: unknown_ms }] : [];

/** The book of a day just opened, with what earlier days left on each face. */
export function openBook(record: DayRecord & Opened): Book {
	const opened = instantAfter(null, shownBy(record));
	const now = { ...opened, gaps: gapBefore(record) };
	const latest = { ...opened, wall: Math.max(opened.wall, lastBefore(record)) };
	const past = (at: string): Instant => sameClocks(latest, Date.parse(at));
	const faces = new Map(
		record.sheet.faces.map(({ id }) => {
			const before = record.before.faces[id];
			const face = emptyFace();
			if (before) {
				face.movedAt = before.coats.length > 0 ? now : null;
				face.laid = before.coats.map(({ coat, ended, cup, surfaceC, leastC = null }) => ({
					coat,
					ended: past(ended),
					began: null,
					cup,
					carried_C: surfaceC,
					carriedLeast_C: leastC,
				}));
				face.prep = before.prep.map(({ step, place, at }) => ({ step, place, at: past(at) }));
				const { aside } = before;
				if (aside && aside.beside !== true)
					face.aside = {
						why: aside.why,
						since: past(aside.at),
						halfSince: null,
						coat: aside.coat ?? face.laid.at(-1)?.coat ?? 0,
						rework: aside.done.map(step => ({ step, at: past(aside.at) })),
					};
			}
			return [id, face] as const;
		}),
	);
	return {
		opened: record,
		last: record,
		now,
		ran: now,
		faces,
		batches: new Map(),
		lettersBefore: record.before.letters,
		...emptyCup,
		cupGun: null,
		gunWetSince: null,
		air: null,
		airs: [],
		sprayedIn: false,
		orders: [],
		checks: 0,
		signs: {},
		secondAsked: null,
		heard: now,
		heardAs: record.type,
		check: null,
		checked: null,
		gunInHand: null,
		gun: gunUnset,
		break: null,
		backSince: null,
		broken: false,
		longestHold_s: 0,
		wait: null,
		attempts: 0,
		overrides: [],
		faults: [],
		triggerOff: null,
		stray: null,
		thrown: [],
		stretch: [],
		late: null,
		resprayed: [],
		tabWet: null,
		tabDry: null,
		lastCard: null,
	};
}

/** A gun that was taken apart or flushed: each of its settings is made anew. */
export const gunUnset: Book['gun'] = { horns: null, fanHeight_mm: null, pressure_kPa: null, fluid: null };

/** After so long a hold the list before spraying is gone through again, s. This project's own choice. */
const away_s = 4 * 3600;

/** The break that ends now was so long that nothing looked at before it need still be so. */
export const wasLong = ({ break: held }: Book, now: Instant): boolean =>
	held !== null && atMost_s(held.since, now) >= away_s;
