import type { DayRecord, EventOf } from '../day/records.ts';
import type { Job } from '../job/job.ts';
import { type Pass, passesOf } from '../records/passes.ts';
import { ownUse_mL_per_m2 } from '../trade/film.ts';
import type { Rates } from './pace.ts';

/** What this shop's days say of one material, and how many faces say it; seconds elapsed from key to key. */
export type Learned = { s_per_m2: number | null; mL_per_m2: number | null; timed: number; measured: number };

/** Faces below which the sheet's own figures are kept. This project's own choice. */
export const leastFaces = 5;

type Sprayed = { area_m2: number; used_mL: number; faces: number };
type Seen = { seconds: number; area_m2: number; timed: number; cups: Sprayed[] };
type Cup = { material: string; loaded_mL: number; area_m2: number; faces: number; whole: boolean };

/** What one day says of one material, by its id and name; no job's own, so that it can be kept. */
export type Taught = Seen & { mark: string };

/** What a day teaches; one of a moved clock teaches nothing. */
export function taughtBy(day: readonly DayRecord[]): Taught[] {
	const seen = new Map<string, Seen>();
	const opened = day[0];
	if (opened?.type === 'day.opened' && opened.clock === 'real') learnDay(day, opened, seen);
	return [...seen].map(([mark, one]) => ({ mark, ...one }));
}

/**
 * Seconds and mL for each square metre, by material, from days on the real clock.
 * @param days records of each day, in order
 * @param job whose materials are asked about; a material counts where id and name are the same
 * @returns only materials that something was learned of; times from faces keyed one by one and sprayed whole,
 *   amounts from cups whose rest was measured, with all their faces sprayed whole
 */
export const learn = (days: readonly (readonly DayRecord[])[], job: Job): Record<string, Learned> =>
	learnFrom(days.map(taughtBy), job);

/** The same, from what each day teaches. */
export function learnFrom(days: Iterable<readonly Taught[]>, job: Job): Record<string, Learned> {
	const seen = new Map<string, Seen>();
	for (const day of days)
		for (const { mark, seconds, area_m2, timed, cups } of day) {
			const known = seen.get(mark) ?? nothing();
			known.seconds += seconds;
			known.area_m2 += area_m2;
			known.timed += timed;
			known.cups.push(...cups);
			seen.set(mark, known);
		}
	return Object.fromEntries(
		[...seen].flatMap(([mark, { seconds, area_m2, timed, cups }]) => {
			const material = Object.values(job.materials).find(each => markOf(each) === mark);
			if (!material) return [];
			const measured = cups.reduce((sum, cup) => sum + cup.faces, 0);
			const enough = { time: timed >= leastFaces, paint: measured >= leastFaces };
			if (!enough.time && !enough.paint) return [];
			const s_per_m2 = enough.time ? seconds / area_m2 : null;
			const mL_per_m2 = enough.paint ? ownUse_mL_per_m2(cups) : null;
			return [[material.id, { s_per_m2, mL_per_m2, timed, measured }]];
		}),
	);
}

/** What the sheet says that all coats of a material take for each square metre. */
function sheetsOwn(job: Job, material: string): { s_per_m2: number; mL_per_m2: number } | null {
	const sum = { area_m2: 0, s: 0, mL: 0 };
	for (const { area_m2, coats } of job.faces)
		for (const coat of coats.filter(each => each.material === material)) {
			sum.area_m2 += area_m2;
			sum.s += coat.spray_s;
			sum.mL += coat.volume_mL;
		}
	return sum.area_m2 > 0 ? { s_per_m2: sum.s / sum.area_m2, mL_per_m2: sum.mL / sum.area_m2 } : null;
}

/**
 * What was learned as factors of today's sheet, as plans take it: a figure learned over coats of every kind would give
 * a full coat too little paint and a tack coat too much.
 */
export const ratesOf = (learned: Readonly<Record<string, Learned>>, job: Job): Rates =>
	Object.fromEntries(
		Object.entries(learned).flatMap(([id, { s_per_m2, mL_per_m2 }]) => {
			const sheet = sheetsOwn(job, id);
			if (!sheet) return [];
			const time = s_per_m2 === null ? null : s_per_m2 / sheet.s_per_m2;
			const paint = mL_per_m2 === null ? null : mL_per_m2 / sheet.mL_per_m2;
			return [[id, { time, paint }]];
		}),
	);

const nothing = (): Seen => ({ seconds: 0, area_m2: 0, timed: 0, cups: [] });

const markOf = ({ id, name }: { id: string; name: string }) => `${id}\u0000${name}`;

const isWhole = ({ extent, start }: Pass): boolean => extent === 'all' && start.from === 'start';

function learnDay(
	day: readonly DayRecord[],
	{ sheet }: EventOf<'day.opened'>,
	seen: Map<string, Seen>,
): void {
	const passes = passesOf(day);
	learnTimes(passes, sheet, seen);
	for (const { material, ...cup } of measuredCups(day, passes, sheet))
		of(seen, sheet, material)?.cups.push(cup);
}

/** Times of faces keyed one by one and sprayed whole in one go. */
function learnTimes(passes: readonly Pass[], sheet: Job, seen: Map<string, Seen>): void {
	for (const pass of passes) {
		const face = sheet.faces.find(({ id }) => id === pass.face);
		const material = face?.coats[pass.coat - 1]?.material;
		if (!face || material === undefined || !pass.end) continue;
		const known = of(seen, sheet, material);
		if (!known || !isWhole(pass) || pass.broken || pass.estimated) continue;
		known.seconds += (Date.parse(pass.end.at) - Date.parse(pass.start.at)) / 1000;
		known.area_m2 += face.area_m2;
		known.timed += 1;
	}
}

/** Whether the last pass of some face before a record is not told yet. */
function isUnderWay(passes: readonly Pass[], { seq }: DayRecord): boolean {
	const last = new Map(passes.filter(({ start }) => start.seq < seq).map(pass => [pass.face, pass]));
	return [...last.values()].some(({ end }) => !end || end.seq > seq);
}

/** Cups whose rest was measured, with all their faces sprayed whole. */
function measuredCups(
	day: readonly DayRecord[],
	passes: readonly Pass[],
	sheet: Job,
): (Sprayed & { material: string })[] {
	const told = new Map(passes.map(pass => [pass.end, pass]));
	const batches = new Map<string, string>();
	const cups: (Sprayed & { material: string })[] = [];
	let cup: Cup | null = null;
	for (const record of day) {
		if (record.type === 'batch.started') batches.set(record.batch, record.material);
		else if (record.type === 'batch.loaded') cup = loaded(cup, record, batches.get(record.batch));
		else if (record.type === 'cup.emptied') {
			const used_mL = cup && record.read ? cup.loaded_mL - record.volume_mL : 0;
			if (cup?.whole && cup.faces > 0 && used_mL > 0 && !isUnderWay(passes, record))
				cups.push({ material: cup.material, area_m2: cup.area_m2, used_mL, faces: cup.faces });
			cup = null;
		} else if (record.type === 'face.ended' && cup) {
			const pass = told.get(record);
			const face = sheet.faces.find(({ id }) => id === record.face);
			if (face && pass && isWhole(pass)) {
				cup.area_m2 += face.area_m2;
				cup.faces += 1;
			} else cup.whole = false;
		}
	}
	return cups;
}

function loaded(cup: Cup | null, record: EventOf<'batch.loaded'>, material: string | undefined): Cup | null {
	if (material === undefined) return null;
	if (!cup) return { material, loaded_mL: record.volume_mL, area_m2: 0, faces: 0, whole: true };
	const whole = cup.whole && cup.material === material;
	return { ...cup, loaded_mL: cup.loaded_mL + record.volume_mL, whole };
}

function of(seen: Map<string, Seen>, sheet: Job, id: string): Seen | undefined {
	const material = sheet.materials[id];
	if (!material) return undefined;
	const known = seen.get(markOf(material)) ?? nothing();
	seen.set(markOf(material), known);
	return known;
}
