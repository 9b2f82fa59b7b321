import type { DayRecord, EventOf } from '../day/records.ts';
import { type CupUse, shownUse, type Use, unsureOf } from '../film/learning.ts';
import {
	gunCalled,
	gunFor,
	gunsOn,
	type Job,
	type NamedGun,
	type PlannedCoat,
	withGunOn,
} from '../job/job.ts';
import { lossesOf } from '../job/on-work.ts';
import { burst_mL } from '../records/bursts.ts';
import { type Pass, passesOf } from '../records/passes.ts';
import type { Rates } from './pace.ts';

/**
 * What this shop's days say of one material: the elapsed time, from key to key, as a factor of the sheet's, and its
 * use of paint; how many faces and cups say it.
 */
export type Learned = { time: number | null; use: Use | null; timed: number };

/** Faces below which the sheet's own times are kept. This project's own choice. */
export const leastFaces = 5;

type Seen = { elapsed_s: number; planned_s: number; timed: number; cups: CupUse[] };
type Cup = Omit<CupUse, 'used_mL' | 'weighed'> & {
	material: string;
	/** Under which set-up it was sprayed; null: nothing was yet. */
	mark: string | null;
	/** What stays in its gun. */
	gun_mL: number;
	loaded_mL: number;
	bursts_mL: number;
	whole: boolean;
};

/** What one day says of one material under one set-up of the gun; no job's own, so that it can be kept. */
export type Taught = Seen & { mark: string };

/** What a day teaches; one of a moved clock teaches nothing. */
export function taughtBy(day: readonly DayRecord[]): Taught[] {
	const seen = new Map<string, Seen>();
	const opened = day[0];
	if (opened?.type === 'day.opened' && opened.clock === 'real') learnDay(day, opened, seen);
	return [...seen].map(([mark, one]) => ({ mark, ...one }));
}

/**
 * Time and paint as factors of the sheet's, by material, from days on the real clock.
 * @param days records of each day, in order
 * @param job whose materials are asked about; a material counts where id, name and the set-up of the gun are the same,
 *   and where all its coats are sprayed with that one
 * @returns only materials that something was learned of; times from faces keyed one by one and sprayed whole,
 *   amounts from cups whose rest was measured, with all their faces sprayed whole; never from a day of older sums
 */
export const learn = (days: readonly (readonly DayRecord[])[], job: Job): Record<string, Learned> =>
	learnFrom(days.map(taughtBy), job);

/** The same, from what each day teaches. */
export function learnFrom(days: Iterable<readonly Taught[]>, job: Job): Record<string, Learned> {
	const seen = new Map<string, Seen>();
	for (const day of days)
		for (const { mark, elapsed_s, planned_s, timed, cups } of day) {
			const known = seen.get(mark) ?? nothing();
			known.elapsed_s += elapsed_s;
			known.planned_s += planned_s;
			known.timed += timed;
			known.cups.push(...cups);
			seen.set(mark, known);
		}
	return Object.fromEntries(
		Object.values(job.materials).flatMap(material => {
			const [gun = job.gun, ...others] = gunsOn(job, material.id);
			const its = others.length > 0 ? undefined : seen.get(markOf(material, gun));
			if (!its) return [];
			const { elapsed_s, planned_s, timed, cups } = its;
			const prior = unsureOf(gun.transfer, gun.transfer_tolerance);
			const time = timed >= leastFaces ? elapsed_s / planned_s : null;
			const use = cups.length > 0 ? shownUse(cups, prior) : null;
			return time === null && use === null ? [] : [[material.id, { time, use, timed }]];
		}),
	);
}

/** What was learned as factors of today's sheet, as plans take it. */
export const ratesOf = (learned: Readonly<Record<string, Learned>>): Rates =>
	Object.fromEntries(
		Object.entries(learned).map(([id, { time, use }]) => [
			id,
			{ time, paint: use?.factor ?? null, ...(use && { unsure: use.unsure, cups: use.cups }) },
		]),
	);

const nothing = (): Seen => ({ elapsed_s: 0, planned_s: 0, timed: 0, cups: [] });

/** A material under a set-up of the gun: fan, fluid and pressure. */
const markOf = ({ id, name }: { id: string; name: string }, gun: NamedGun) =>
	[id, name, gun.fanHeight_mm, gun.flow_mL_per_min, gun.pressure_kPa].join('\u0000');

const isWhole = ({ extent, start }: Pass): boolean => extent === 'all' && start.from === 'start';

function learnDay(
	day: readonly DayRecord[],
	{ sheet }: EventOf<'day.opened'>,
	seen: Map<string, Seen>,
): void {
	const passes = passesOf(day);
	learnTimes(passes, sheet, seen);
	for (const { mark, ...cup } of measuredCups(day, passes, sheet)) seenAs(seen, mark).cups.push(cup);
}

/** Times of faces keyed one by one and sprayed whole in one go. */
function learnTimes(passes: readonly Pass[], sheet: Job, seen: Map<string, Seen>): void {
	for (const pass of passes) {
		const coat = plannedOf(sheet, pass);
		if (!coat || !pass.end) continue;
		const mark = markFor(sheet, coat);
		if (mark === null || !isWhole(pass) || pass.broken || pass.estimated) continue;
		const known = seenAs(seen, mark);
		known.elapsed_s += (Date.parse(pass.end.at) - Date.parse(pass.start.at)) / 1000;
		known.planned_s += coat.spray_s;
		known.timed += 1;
	}
}

/** The planned coat of a pass; none where older sums planned it: what they expected teaches nothing. */
function plannedOf(sheet: Job, { face, coat }: Pick<Pass, 'face' | 'coat'>): PlannedCoat | undefined {
	const planned = sheet.faces.find(({ id }) => id === face)?.coats[coat - 1];
	return planned?.capture === undefined ? undefined : planned;
}

/** Whether the last pass of some face before a record is not told yet. */
function isUnderWay(passes: readonly Pass[], { seq }: DayRecord): boolean {
	const last = new Map(passes.filter(({ start }) => start.seq < seq).map(pass => [pass.face, pass]));
	return [...last.values()].some(({ end }) => !end || end.seq > seq);
}

/** Cups whose rest was measured, with all their faces sprayed whole; bursts and what stays in the gun taken off. */
function measuredCups(
	day: readonly DayRecord[],
	passes: readonly Pass[],
	sheet: Job,
): (CupUse & { mark: string })[] {
	const told = new Map(passes.map(pass => [pass.end, pass]));
	const batches = new Map<string, string>();
	const cups: (CupUse & { mark: string })[] = [];
	let cup: Cup | null = null;
	for (const record of day) {
		if (record.type === 'batch.started') batches.set(record.batch, record.material);
		else if (record.type === 'batch.loaded') cup = loaded(cup, record, batches.get(record.batch), sheet);
		else if (record.type === 'cup.emptied') {
			const left_mL = record.read ? record.volume_mL : undefined;
			const gun_mL = cup?.gun_mL ?? 0;
			const used_mL = cup && left_mL !== undefined ? cup.loaded_mL - left_mL - gun_mL - cup.bursts_mL : 0;
			if (cup?.mark && cup.whole && used_mL > 0 && !isUnderWay(passes, record))
				cups.push({ mark: cup.mark, emitted_mL: cup.emitted_mL, used_mL, weighed: false });
			cup = null;
		} else if (cup) {
			if (record.type === 'reading.taken')
				cup.bursts_mL += burst_mL(withGunOn(sheet, record.face, record.coat), record);
			if (record.type !== 'face.ended') continue;
			const pass = told.get(record);
			const coat = plannedOf(sheet, record);
			const mark = coat ? markFor(sheet, coat) : null;
			if (coat && pass && isWhole(pass) && (cup.mark ?? mark) === mark) {
				cup.emitted_mL += coat.volume_mL;
				cup.mark = mark;
			} else cup.whole = false;
		}
	}
	return cups;
}

function loaded(
	cup: Cup | null,
	record: EventOf<'batch.loaded'>,
	material: string | undefined,
	sheet: Job,
): Cup | null {
	if (material === undefined) return null;
	const whole = cup === null || cup.material === material;
	if (!cup || record.to_mL !== undefined) {
		const { gun_mL } = lossesOf(gunCalled(sheet, record.ofGun));
		const loaded_mL = record.to_mL ?? record.volume_mL;
		return { material, mark: null, gun_mL, loaded_mL, bursts_mL: 0, emitted_mL: 0, whole };
	}
	return { ...cup, loaded_mL: cup.loaded_mL + record.volume_mL, whole: cup.whole && whole };
}

function markFor(sheet: Job, coat: PlannedCoat): string | null {
	const material = sheet.materials[coat.material];
	return material ? markOf(material, gunFor(sheet, coat)) : null;
}

function seenAs(seen: Map<string, Seen>, mark: string): Seen {
	const known = seen.get(mark) ?? nothing();
	seen.set(mark, known);
	return known;
}
