import { type Day, faceIn } from './day.ts';
import type { DueRow } from './next.ts';
import type { WindowRow, WindowSpan } from './windows.ts';

/** What comes next to faces together: a coat, a step of the sheet, or its next stage. */
export type Coming = {
	/** As of `DueRow`; `coat`: the next coat of the stage that is under way. */
	what: string;
	/** Name of its stage. */
	stage: string;
	/** The coat it is, and what its window asks for first; null: no coat. */
	coat: { number: number; does: WindowSpan['does'] } | null;
	faces: string[];
	/** The first of them from then on, all of them from then on. */
	from: string;
	all: string;
	/** The first moment from which one of them asks for more work. */
	until: string | null;
};

type Known = { windows: readonly WindowRow[]; due: readonly DueRow[] };
type One = DueRow & Pick<Coming, 'coat'>;

/** The next coats of a stage under way: its steps and stages to come are due by the sheet. */
function coatsToCome({ job, book }: Day, { windows, due }: Known, end: string): One[] {
	return windows.flatMap(({ face, coat, last, wants, windows: spans }) => {
		if (!last || !wants || book.faces.get(face)?.aside || due.some(row => row.face === face)) return [];
		const span = spans.find(({ does, until }) => does !== 'wait' && (until === null || until > end));
		const stage = job.stages[faceIn(job, face)?.coats[coat]?.stage ?? -1]?.name ?? '';
		if (!span) return [];
		const { does, from: at, until } = span;
		return [{ face, what: 'coat', stage, at, until, coat: { number: coat + 1, does } }];
	});
}

const earlier = (one: string | null, other: string | null): string | null =>
	one === null || (other !== null && other < one) ? other : one;

/** What comes next on the faces that have a coat, each thing once, by time. */
export function comingOf(day: Day, rows: Known, end: string): Coming[] {
	const found = new Map<string, Coming>();
	const all: One[] = [...rows.due.map(row => ({ ...row, coat: null })), ...coatsToCome(day, rows, end)];
	for (const { what, stage, coat, face, at, until } of all) {
		const key = JSON.stringify([what, stage, coat]);
		const known = found.get(key);
		if (!known) {
			found.set(key, { what, stage, coat, faces: [face], from: at, all: at, until });
			continue;
		}
		known.faces.push(face);
		if (at < known.from) known.from = at;
		if (at > known.all) known.all = at;
		known.until = earlier(known.until, until);
	}
	return [...found.values()].sort((one, other) => one.from.localeCompare(other.from));
}
