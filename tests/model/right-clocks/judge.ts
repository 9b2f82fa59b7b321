import type { DayRecord, EventOf } from '../../../src/day/records.ts';

/** A day's records beside the true time at which each was made: whether a minimum ended early, or a maximum late. */

export type Timed = DayRecord & { truth: number };
export type Judged = { minimums: number; maximums: number; says: string[] };

/** Clocks that differ by less than this are taken for one, twice over, ms. */
const slack_ms = 4000;
const hour_ms = 3_600_000;
const min_ms = 60_000;

type Laid = { truth: number; at: number; windows: EventOf<'window.set'>['windows'] };
type Known = {
	laid: Map<string, Laid>;
	hardened: Map<string, number>;
	stirred: Map<string, number>;
	material: Map<string, string>;
	reasons: Set<string>;
	air: { truth: number; warmest_C: number } | null;
	moved: number | null;
	cameBack: number;
	checked: number;
};

type Paint = { potLife: { at_C: number; hours: number }; factorPer10C: number };

/**
 * Hours that paint lives by the one time of its sheet: never longer than that, shorter by its factor for each 10 °C warmer;
 * none is left more than 20 °C off.
 */
function lives_h({ potLife: { at_C, hours }, factorPer10C }: Paint, airC: number): number {
	if (Math.abs(airC - at_C) > 20) return 0;
	return hours / factorPer10C ** (Math.max(0, airC - at_C) / 10);
}

export function judge(records: readonly Timed[]): Judged {
	const [opened] = records;
	if (opened?.type !== 'day.opened') throw new Error('no day');
	const { sheet, settings } = opened;
	const judged: Judged = { minimums: 0, maximums: 0, says: [] };
	const known: Known = {
		laid: new Map(),
		hardened: new Map(),
		stirred: new Map(),
		material: new Map(),
		reasons: new Set(),
		air: null,
		moved: null,
		cameBack: Number.NEGATIVE_INFINITY,
		checked: Number.NEGATIVE_INFINITY,
	};
	const least = (record: Timed, since: number, ms: number, what: string) => {
		judged.minimums++;
		if (record.truth - since < ms - slack_ms)
			judged.says.push(
				`record ${record.seq}: ${what} ${(record.truth - since) / min_ms} min, not the ${ms / min_ms} it takes`,
			);
	};
	const most = (record: Timed, since: number, ms: number, what: string) => {
		judged.maximums++;
		if (record.truth - since > ms + slack_ms)
			judged.says.push(
				`record ${record.seq}: ${what} ${(record.truth - since) / min_ms} min, over the ${ms / min_ms} it may`,
			);
	};
	const materialOf = (batch: string) => sheet.materials[known.material.get(batch) ?? ''];

	const started = (record: Timed & EventOf<'face.started'>) => {
		const laid = known.laid.get(record.face);
		const isReasoned = known.reasons.has(`${record.face} ${record.coat}`);
		if (laid && !isReasoned && record.from === 'start') {
			judged.minimums++;
			judged.maximums++;
			const age = record.truth - laid.truth;
			const isOpen = laid.windows.some(({ does, from, until }) => {
				const opens = Date.parse(from) - laid.at;
				const closes = until === null ? Number.POSITIVE_INFINITY : Date.parse(until) - laid.at;
				return does === record.window && age >= opens - slack_ms && age <= closes + slack_ms;
			});
			if (!isOpen)
				judged.says.push(
					`record ${record.seq}: ${record.face} in ${record.window}, ${age / min_ms} min after its coat`,
				);
		}
		for (const batch of record.cup) {
			const material = materialOf(batch);
			if (!material) continue;
			const life_ms = lives_h(material, known.air?.warmest_C ?? sheet.shop.air_C) * hour_ms;
			most(record, known.hardened.get(batch) ?? record.truth, life_ms, `batch ${batch} is`);
			most(record, known.moved ?? record.truth, material.flush_min * min_ms, 'the gun stood');
		}
		most(
			record,
			known.air?.truth ?? Number.NEGATIVE_INFINITY,
			settings.airAge_h * hour_ms,
			'the air was read',
		);
		most(record, known.checked, settings.checkAge_min * min_ms, 'the gun was checked');
		known.moved = record.truth;
	};

	for (const record of records) {
		switch (record.type) {
			case 'air.read':
				known.air = {
					truth: record.truth,
					warmest_C: Math.max(record.airC, known.air?.warmest_C ?? record.airC),
				};
				break;
			case 'override.given':
				known.reasons.add(`${record.face} ${record.coat}`);
				break;
			case 'batch.started':
				known.material.set(record.batch, record.material);
				break;
			case 'batch.poured':
				if (record.component === 'hardener' && !known.hardened.has(record.batch))
					known.hardened.set(record.batch, record.truth);
				known.stirred.set(record.batch, record.truth);
				break;
			case 'batch.stepped':
				known.stirred.set(record.batch, record.truth);
				break;
			case 'batch.stood': {
				const standing_ms = (materialOf(record.batch)?.standing_min ?? 0) * min_ms;
				least(
					record,
					known.stirred.get(record.batch) ?? record.truth,
					standing_ms,
					`batch ${record.batch} stood`,
				);
				break;
			}
			case 'batch.loaded':
				known.moved = record.truth;
				break;
			case 'cup.emptied':
				known.moved = null;
				break;
			case 'break.ended':
			case 'wait.ended':
				known.cameBack = record.truth;
				break;
			case 'gun.checked':
				least(record, known.cameBack, settings.settle_s * 1000, 'back for');
				known.checked = record.truth;
				break;
			case 'face.started':
				started(record);
				break;
			case 'face.ended':
				if (record.extent !== 'none') known.moved = record.truth;
				if (record.extent === 'all' && record.ended === undefined)
					known.laid.set(record.face, { truth: record.truth, at: Date.parse(record.at), windows: [] });
				else if (record.extent !== 'none') known.laid.delete(record.face);
				break;
			case 'window.set': {
				const laid = known.laid.get(record.face);
				if (laid) known.laid.set(record.face, { ...laid, windows: record.windows });
				break;
			}
		}
	}
	return judged;
}
