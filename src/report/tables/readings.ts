import type { ReadingFeature } from '../../day/records.ts';
import type { RecordOf } from '../../records/of-type.ts';
import { type Day, ofType } from './day.ts';

type Reading = RecordOf<'reading.taken'>;
type Value = Reading['wanted'];

/** A reading that differed from the one wanted, and the one that followed it. */
export type DifferedRow = {
	at: string;
	feature: ReadingFeature;
	value: string | number;
	wanted: Value;
	face: string | null;
	coat: number | null;
	batch: string | null;
	/** Read for the first time, or again after one that differed. */
	attempt: number;
	after: { at: string; value: string | number; matched: boolean } | null;
};

const follows = (one: Reading, other: Reading): boolean =>
	other.seq > one.seq &&
	other.feature === one.feature &&
	other.check === one.check &&
	other.batch === one.batch;

export function differedRows(day: Day): DifferedRow[] {
	const readings = ofType(day, 'reading.taken');
	return readings
		.filter(({ matched }) => !matched)
		.map(one => {
			const next = readings.find(other => follows(one, other));
			const { at, feature, value, wanted, face, coat, batch, attempt } = one;
			return {
				at,
				feature,
				value,
				wanted,
				face,
				coat,
				batch,
				attempt,
				after: next ? { at: next.at, value: next.value, matched: next.matched } : null,
			};
		});
}

/** How often the first reading of a feature differed; what was wanted of none cannot differ, and is not counted. */
export type FirstRow = { feature: ReadingFeature; asked: number; differed: number };

export function firstRows(day: Day): FirstRow[] {
	const rows = new Map<ReadingFeature, FirstRow>();
	for (const { feature, matched, attempt, wanted } of ofType(day, 'reading.taken')) {
		if (attempt > 1 || wanted === null) continue;
		const row = rows.get(feature) ?? { feature, asked: 0, differed: 0 };
		rows.set(feature, { feature, asked: row.asked + 1, differed: row.differed + (matched ? 0 : 1) });
	}
	return [...rows.values()];
}

export type CheckRow = {
	check: number;
	size: 'full' | 'short';
	face: string | null;
	coat: number | null;
	began: string;
	/** null: broken off. */
	passed: string | null;
	took_s: number | null;
	breathing: string | null;
	readings: { feature: ReadingFeature; value: string | number; matched: boolean }[];
};

export function checkRows(day: Day): CheckRow[] {
	const readings = ofType(day, 'reading.taken');
	const passes = ofType(day, 'gun.checked');
	return ofType(day, 'check.began').flatMap(({ check, size, face, coat, at }) => {
		if (size === null) return [];
		const passed = passes.find(one => one.check === check)?.at ?? null;
		const own = readings.filter(one => one.check === check);
		const breathing = own.findLast(({ feature }) => feature === 'breathing')?.value;
		return [
			{
				check,
				size,
				face,
				coat,
				began: at,
				passed,
				took_s: passed === null ? null : (Date.parse(passed) - Date.parse(at)) / 1000,
				breathing: breathing === undefined ? null : String(breathing),
				readings: own.map(({ feature, value, matched }) => ({ feature, value, matched })),
			},
		];
	});
}

export type OverrideRow = {
	at: string;
	rule: string;
	reason: string;
	face: string | null;
	coat: number | null;
};

export const overrideRows = (day: Day): OverrideRow[] =>
	ofType(day, 'override.given').map(({ at, rule, reason, face, coat }) => ({ at, rule, reason, face, coat }));

export type ItemRow = { at: string; list: string; item: string; answer: string; passed: boolean };

export const itemRows = (day: Day): ItemRow[] =>
	ofType(day, 'item.answered').map(({ at, list, item, answer, passed }) => ({
		at,
		list,
		item,
		answer,
		passed,
	}));
