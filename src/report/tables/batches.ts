import { livesFrom_h } from '../../day/process.ts';
import type { DayRecord } from '../../day/records.ts';
import { lifeClock, livesAt_h } from '../../job/process-clocks.ts';
import { isTimed } from '../../records/cup-timed.ts';
import type { RecordOf } from '../../records/of-type.ts';
import type { Ratio } from '../../trade/mix.ts';
import { type Day, iso, ms, ofType } from './day.ts';

export type PourRow = {
	at: string;
	batch: string;
	component: string;
	can: string;
	level_mL: number | null;
	wanted_mL: number | null;
	mass_g: number | null;
	wanted_g: number | null;
	found: string;
	/** Found again after a break in mixing, nothing poured then. */
	again: boolean;
};

export type BatchRow = {
	batch: string;
	material: string;
	started: string;
	by: 'volume' | 'weight';
	ratio: Ratio;
	make_mL: number;
	/** The earliest that the hardener can have gone in. */
	hardened: string | null;
	stood: string | null;
	cup: { at: string; kind: string; seconds: number; temp_C: number; fits: boolean } | null;
	ready: string | null;
	volume_mL: number | null;
	/** End of its pot life at the air read when the hardener went in, or by its points; null: the sheet cannot say. */
	lives_until: string | null;
	loads: { at: string; volume_mL: number; refill: boolean }[];
	/** When the gun's cup was emptied of it. */
	emptied: string | null;
	discarded: { at: string; why: string } | null;
	pours: PourRow[];
};

type Poured = RecordOf<'batch.poured'> | RecordOf<'batch.found'>;

function pourRow(record: Poured): PourRow {
	const poured = record.type === 'batch.poured' ? record : null;
	return {
		at: record.at,
		batch: record.batch,
		component: record.component,
		can: poured?.can ?? '',
		level_mL: record.level_mL ?? null,
		wanted_mL: poured?.wanted_mL ?? null,
		mass_g: record.mass_g ?? null,
		wanted_g: poured?.wanted_g ?? null,
		found: record.found,
		again: poured === null,
	};
}

function livesUntil(day: Day, letter: string, material: string, hardened: string | null): string | null {
	const sheet = day.job.materials[material];
	const batch = day.book.batches.get(letter);
	if (!sheet || hardened === null) return null;
	if (lifeClock(sheet) && batch?.hardened)
		return iso(ms(hardened) + livesFrom_h(day.book, batch, batch.hardened) * 3_600_000);
	const air = ofType(day, 'air.read').findLast(({ at }) => at <= hardened);
	try {
		const hours = livesAt_h(sheet, air?.airC ?? day.job.shop.air_C);
		return iso(ms(hardened) + hours * 3_600_000);
	} catch (error) {
		if (error instanceof RangeError) return null;
		throw error;
	}
}

/** A cup that was not the one it was taken for was emptied of the batch read on it, if of any that is known. */
const isOf = (
	{ why, seq, batch: read }: RecordOf<'cup.emptied'>,
	batch: string,
	last?: DayRecord,
): boolean => (why === 'wrong batch' ? read === batch : last !== undefined && seq > last.seq);

/** Every batch mixed on the day, with its pours. */
export function batchRows(day: Day): BatchRow[] {
	const find = <One extends { batch: string }>(records: One[], batch: string) =>
		records.find(one => one.batch === batch);
	const loads = ofType(day, 'batch.loaded');
	const emptied = ofType(day, 'cup.emptied');
	const pours = day.records.filter(
		(record): record is Poured => record.type === 'batch.poured' || record.type === 'batch.found',
	);
	return ofType(day, 'batch.started').map(({ at, batch, material, ratio, by, make_mL }) => {
		const own = pours.filter(one => one.batch === batch).map(pourRow);
		const hardened = day.book.batches.get(batch)?.hardened;
		const from = hardened ? iso(hardened.wall) : null;
		const cup = ofType(day, 'cup.timed').findLast(one => one.batch === batch && isTimed(one));
		const ready = find(ofType(day, 'batch.ready'), batch);
		const thrown = find(ofType(day, 'batch.discarded'), batch);
		const mine = loads.filter(one => one.batch === batch);
		const last = mine.at(-1);
		return {
			batch,
			material,
			started: at,
			by,
			ratio,
			make_mL,
			hardened: from,
			stood: find(ofType(day, 'batch.stood'), batch)?.at ?? null,
			cup: cup
				? { at: cup.at, kind: cup.cup, seconds: cup.seconds, temp_C: cup.tempC, fits: cup.fits }
				: null,
			ready: ready?.at ?? null,
			volume_mL: ready?.volume_mL ?? null,
			lives_until: livesUntil(day, batch, material, from),
			loads: mine.map(({ at: loaded, volume_mL, refill }) => ({ at: loaded, volume_mL, refill })),
			emptied: emptied.find(one => isOf(one, batch, last))?.at ?? null,
			discarded: thrown ? { at: thrown.at, why: thrown.why } : null,
			pours: own,
		};
	});
}
