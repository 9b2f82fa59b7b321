import type { DayRecord, EventOf } from '../day/records.ts';
import { type CupUse, shownUse, type Use, unsureOf } from '../film/learning.ts';
import type { Job, PlannedCoat } from '../job/job.ts';
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
type Cup = { material: string; loaded_mL: number; bursts_mL: number; emitted_mL: number; whole: boolean };

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
 * @param job whose materials are asked about; a material counts where id, name and the set-up of the gun are the same
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
	const prior = unsureOf(job.gun.transfer, job.gun.transfer_tolerance);
	return Object.fromEntries(
		[...seen].flatMap(([mark, { elapsed_s, planned_s, timed, cups }]) => {
			const material = Object.values(job.materials).find(each => markOf(each, job) === mark);
			if (!material) return [];
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
const markOf = ({ id, name }: { id: string; name: string }, { gun }: Job) =>
	[id, name, gun.fanHeight_mm, gun.flow_mL_per_min, gun.pressure_kPa].join('\u0000');

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
		const coat = plannedOf(sheet, pass);
		if (!coat || !pass.end) continue;
		const known = of(seen, sheet, coat.material);
		if (!known || !isWhole(pass) || pass.broken || pass.estimated) continue;
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
): (CupUse & { material: string })[] {
	const told = new Map(passes.map(pass => [pass.end, pass]));
	const batches = new Map<string, string>();
	const cups: (CupUse & { material: string })[] = [];
	const { gun_mL } = lossesOf(sheet.gun);
	let cup: Cup | null = null;
	for (const record of day) {
		if (record.type === 'batch.started') batches.set(record.batch, record.material);
		else if (record.type === 'batch.loaded') cup = loaded(cup, record, batches.get(record.batch));
		else if (record.type === 'cup.emptied') {
			const left_mL = record.read ? record.volume_mL : undefined;
			const used_mL = cup && left_mL !== undefined ? cup.loaded_mL - left_mL - gun_mL - cup.bursts_mL : 0;
			if (cup?.whole && cup.emitted_mL > 0 && used_mL > 0 && !isUnderWay(passes, record))
				cups.push({ material: cup.material, emitted_mL: cup.emitted_mL, used_mL, weighed: false });
			cup = null;
		} else if (cup) {
			cup.bursts_mL += burst_mL(sheet, record);
			if (record.type !== 'face.ended') continue;
			const pass = told.get(record);
			const coat = plannedOf(sheet, record);
			if (coat && pass && isWhole(pass)) cup.emitted_mL += coat.volume_mL;
			else cup.whole = false;
		}
	}
	return cups;
}

function loaded(cup: Cup | null, record: EventOf<'batch.loaded'>, material: string | undefined): Cup | null {
	if (material === undefined) return null;
	const whole = cup === null || cup.material === material;
	if (!cup || record.to_mL !== undefined)
		return { material, loaded_mL: record.to_mL ?? record.volume_mL, bursts_mL: 0, emitted_mL: 0, whole };
	return { ...cup, loaded_mL: cup.loaded_mL + record.volume_mL, whole: cup.whole && whole };
}

function of(seen: Map<string, Seen>, sheet: Job, id: string): Seen | undefined {
	const material = sheet.materials[id];
	if (!material) return undefined;
	const mark = markOf(material, sheet);
	const known = seen.get(mark) ?? nothing();
	seen.set(mark, known);
	return known;
}
