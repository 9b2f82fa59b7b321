import { hardening_s } from '../../day/prep.ts';
import { leavesOut } from '../../job/job.ts';
import { isAt, placeOf } from '../../job/places.ts';
import { coldestHeld } from '../../trade/time.ts';
import { type Day, faceIn, iso, ms, plannedCoat } from './day.ts';
import type { WindowRow } from './windows.ts';

/** What comes next to a face, and from when. */
export type DueRow = {
	face: string;
	/** `sand`: hard enough to sand; `stage`: the next stage may begin; another step of the sheet by its own word. */
	what: string;
	/** Name of the stage it belongs to. */
	stage: string;
	at: string;
	/** The last moment without more work, where there is one. */
	until: string | null;
};

type Coat = { coat: number; ended: string; surface_C: number };

/** From when a coat is hard enough to sand; null: the data sheet does not say for so cold or warm a surface. */
function sandable(day: Day, face: string, { coat, ended, surface_C }: Coat): string | null {
	const material = day.job.materials[plannedCoat(day.job, face, coat)?.material ?? ''];
	const readings = day.book.airs.map(({ at, surfaceC }) => ({ at_ms: at.wall, C: surfaceC }));
	const held = coldestHeld(readings, ms(ended), day.book.now.wall) ?? surface_C;
	const hard_s = (material && hardening_s(material, held)) ?? Number.POSITIVE_INFINITY;
	return Number.isFinite(hard_s) ? iso(ms(ended) + hard_s * 1000) : null;
}

const laterOf = (one: string, other: string | null): string => (other !== null && other > one ? other : one);

/** Done in a minute right before spraying: nobody puts it in a calendar. */
const passing: ReadonlySet<string> = new Set(['wipe', 'tack']);

/** Steps of the sheet between the last coat and the next, or after the last: each when the ones before allow it. */
function between(day: Day, row: WindowRow, first: number): DueRow[] {
	const due: DueRow[] = [];
	const did = day.book.faces.get(row.face)?.prep ?? [];
	let at = row.ended;
	for (const [index, stage] of [...day.job.stages.entries()].slice(first)) {
		if (leavesOut(stage, row.face)) continue;
		if (stage.kind === 'coats') break;
		if (stage.kind === 'wait') {
			at = iso(ms(at) + stage.hours * 3_600_000);
			continue;
		}
		if (passing.has(stage.step)) continue;
		if (stage.step === 'sand') at = laterOf(at, sandable(day, row.face, row));
		const place = placeOf(day.job, row.face, index);
		if (did.some(one => isAt(one, stage.step, place))) continue;
		due.push({ face: row.face, what: stage.step, stage: stage.name, at, until: null });
	}
	return due;
}

function dueOn(day: Day, row: WindowRow): DueRow[] {
	const { face } = row;
	const book = day.book.faces.get(face);
	const coats = faceIn(day.job, face)?.coats ?? [];
	if (book?.aside) {
		const from = iso(book.aside.since.wall);
		const at = sandable(day, face, { ...row, coat: book.aside.coat, ended: laterOf(row.ended, from) });
		return at === null || book.aside.rework.some(({ step }) => step === 'sand')
			? []
			: [{ face, what: 'sand', stage: 'rework', at, until: null }];
	}
	const done = coats[row.coat - 1];
	const next = coats[row.coat];
	const first = (done?.stage ?? -1) + 1;
	const steps = between(day, row, first);
	if (!next || next.stage === done?.stage) return next ? [] : steps;
	const open = row.windows.find(({ does }) => does !== 'wait');
	const last = row.windows.findLast(({ does }) => does === 'spray' || does === 'scuff');
	const from = open && laterOf(open.from, steps.at(-1)?.at ?? null);
	const stage = day.job.stages[next.stage]?.name ?? '';
	const begin = from ? [{ face, what: 'stage', stage, at: from, until: last?.until ?? null }] : [];
	return [...steps, ...begin];
}

/** What comes next on every face that has a coat, by time. */
export const dueRows = (day: Day, windows: readonly WindowRow[]): DueRow[] =>
	windows
		.filter(({ last }) => last)
		.flatMap(row => dueOn(day, row))
		.sort((one, other) => one.at.localeCompare(other.at));
