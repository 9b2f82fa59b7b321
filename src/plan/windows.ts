import { type Face, type Job, type Material, type PlannedCoat, type Window, waits_h } from '../job/job.ts';
import { type FlashEdges, flashAt_h, ownFactor } from '../job/process-clocks.ts';
import { beyondRows, type RecoatRow, type RecoatWindow, recoatWindows } from '../trade/recoat.ts';
import { type Held, heldAt, windowsHeld } from '../trade/recoat-clocks.ts';

/** Coat n of a face, the one to come over it, and the table that its data sheet has for that. */
function tableOver(job: Job, face: Face, coat: number) {
	const under = face.coats[coat - 1];
	const over = face.coats[coat] ?? under;
	const material = over && job.materials[over.material];
	const rows = material?.recoat.find(recoat => recoat.under === under?.material)?.rows ?? [];
	return { under, over, material, rows };
}

/**
 * On which side of the sheet's recoat table over coat n a surface lies; null: inside it, or there is none. Beyond it
 * nothing opens sooner and nothing closes later than its nearest row says.
 */
export const beyondTable = (
	job: Job,
	face: Face,
	coat: number,
	surface_C: number,
): 'above' | 'below' | null => beyondRows(tableOver(job, face, coat).rows, surface_C);

/** Whether the table over coat n has rows for several temperatures: then each edge in it is a clock of its own. */
export const isClocked = (job: Job, face: Face, coat: number): boolean =>
	tableOver(job, face, coat).rows.length > 1;

function tableBy(
	material: Material,
	rows: readonly RecoatRow[],
	surface_C: number,
	held: Held = heldAt(surface_C),
) {
	if (rows.length === 0) return [];
	const factor = ownFactor(material);
	return rows.length > 1 ? windowsHeld(rows, held, factor) : recoatWindows(rows, surface_C, factor);
}

/**
 * What coat n of a face allows to be laid on it, in hours after it was finished.
 *
 * Between stages: the recoat table of the material to come over the one below. Within a stage the flash comes
 * first: before it is over nothing is laid, whatever the table says; after it the table rules. Where the sheet
 * gives no table for a material over itself, coats follow wet on wet until the longest flash, and want sanding
 * after it.
 * @param coat counted from 1; the coat that lies on top
 * @param surface_C highest surface temperature held an hour or more since
 * @param flash the waits of its flash, where readings tell them; else those at that temperature
 * @param held what its surface was read at, for a table of several rows; else that temperature
 * @returns windows in time order; after the last coat planned, those for one more of the same material
 * @throws RangeError where the sheet gives nothing for such a temperature
 */
export function windowsAfter(
	job: Job,
	face: Face,
	coat: number,
	surface_C: number,
	flash?: FlashEdges,
	held?: Held,
): RecoatWindow[] {
	const { under, over, material, rows } = tableOver(job, face, coat);
	if (!under || !over || !material) return [];
	const table = tableBy(material, rows, surface_C, held);
	if (over.stage !== under.stage)
		return table.length > 0 ? table : [{ does: 'sand', from_h: 0, until_h: null }];
	const { least_h, most_h } = flash ?? flashAt_h(material, under, surface_C);
	if (!Number.isFinite(least_h)) return [{ does: 'wait', from_h: 0, until_h: null }];
	const wet: RecoatWindow[] = [{ does: 'spray', from_h: 0, until_h: most_h }];
	if (most_h !== null) wet.push({ does: 'sand', from_h: most_h, until_h: null });
	return afterFlash(table.length > 0 ? table : wet, least_h);
}

function afterFlash(windows: readonly RecoatWindow[], least_h: number): RecoatWindow[] {
	const open = windows
		.filter(({ until_h }) => until_h === null || until_h > least_h)
		.map(window => ({ ...window, from_h: Math.max(window.from_h, least_h) }));
	const [first] = open;
	if (first?.does === 'wait') return [{ ...first, from_h: 0 }, ...open.slice(1)];
	return [{ does: 'wait', from_h: 0, until_h: least_h }, ...open];
}

/** The windows that a coat may be laid in, with the work on the face that comes before it. */
function opensWith(prep: PlannedCoat['prep']): Window[] {
	const steps = prep.map(({ step }) => step);
	if (steps.includes('sand')) return ['spray', 'scuff', 'sand'];
	return steps.includes('scuff') ? ['spray', 'scuff'] : ['spray'];
}

/** A stretch of time in which a coat may be begun; hours after the coat below was finished. */
export type Opening = { from_h: number; until_h: number | null };

/** When the coat that follows coat n may be begun, with the wait that the sheet asks for counted in. */
export function openings(job: Job, face: Face, coat: number, surface_C: number): Opening[] {
	const next = face.coats[coat];
	if (!next) return [];
	const may = opensWith(next.prep);
	const wait_h = waits_h(next);
	const joined: Opening[] = [];
	for (const { does, from_h, until_h } of windowsAfter(job, face, coat, surface_C)) {
		if (!may.includes(does) || (until_h !== null && until_h <= wait_h)) continue;
		const from = Math.max(from_h, wait_h);
		const last = joined.at(-1);
		if (last && last.until_h === from) last.until_h = until_h;
		else joined.push({ from_h: from, until_h });
	}
	return joined;
}
