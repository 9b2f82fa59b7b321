import { windowsOf } from '../../day/allowed.ts';
import { waits_s } from '../../day/sheet-wait.ts';
import type { Window } from '../../job/job.ts';
import type { CoatRow } from './coats.ts';
import { type Day, faceIn, iso, ms, ofType } from './day.ts';

export type WindowSpan = { does: Window; from: string; until: string | null };

/** What one coat allowed on top of it, and what was done with it. */
export type WindowRow = {
	face: string;
	coat: number;
	ended: string;
	surface_C: number;
	windows: WindowSpan[];
	/** The coat laid on it today, and the window it fell in. */
	next: { coat: number; began: string; window: string } | null;
	/** The last coat on its face: its windows are the ones in force. */
	last: boolean;
	/** The sheet has a coat to lay on it. */
	wants: boolean;
};

/** Windows that follow each other and allow the same are one. */
function joined(windows: readonly WindowSpan[]): WindowSpan[] {
	const spans: WindowSpan[] = [];
	for (const span of windows) {
		const last = spans.at(-1);
		if (last?.does === span.does && last.until === span.from) last.until = span.until;
		else spans.push({ ...span });
	}
	return spans;
}

/** Windows with the wait that the sheet asks for beyond them laid over their beginning. */
export function heldBack(windows: readonly WindowSpan[], ended: string, wait_s: number): WindowSpan[] {
	const free = ms(ended) + wait_s * 1000;
	if (wait_s <= 0) return [...windows];
	const later = windows
		.filter(({ until }) => until === null || ms(until) > free)
		.map(span => ({ ...span, from: iso(Math.max(ms(span.from), free)) }));
	const [first, ...rest] = later;
	if (first?.does === 'wait') return [{ ...first, from: ended }, ...rest];
	return [{ does: 'wait', from: ended, until: iso(free) }, ...later];
}

const waitBefore_s = ({ job, opened }: Day, face: string, coat: number, ended: string): number =>
	waits_s(faceIn(job, face)?.coats[coat - 1] ?? {}, ms(ended), opened.zone);

/** The last coat of a face not sprayed today, from the days before. */
function fromBefore(day: Day): Omit<WindowRow, 'next' | 'last' | 'wants'>[] {
	return day.job.faces.flatMap(face => {
		const last = day.opened.before.faces[face.id]?.coats.at(-1);
		if (!last) return [];
		const hours = (from: number) => iso(ms(last.ended) + from * 3_600_000);
		const windows = windowsOf(day.job, face, last.coat, last.surfaceC).map(({ does, from_h, until_h }) => ({
			does,
			from: hours(from_h),
			until: until_h === null ? null : hours(until_h),
		}));
		return [{ face: face.id, coat: last.coat, ended: last.ended, surface_C: last.surfaceC, windows }];
	});
}

/** Recoat windows of every coat in question, in the order of the sheet, then of the coats. */
export function windowRows(day: Day, coats: readonly CoatRow[]): WindowRow[] {
	const found = new Map<string, Omit<WindowRow, 'next' | 'last' | 'wants'>>();
	const key = (face: string, coat: number) => `${coat}#${face}`;
	for (const row of fromBefore(day)) found.set(key(row.face, row.coat), row);
	for (const { face, coat, surfaceC, windows, at } of ofType(day, 'window.set')) {
		const ended = windows[0]?.from ?? at;
		found.set(key(face, coat), { face, coat, ended, surface_C: surfaceC, windows });
	}
	const place = (id: string) => day.job.faces.findIndex(face => face.id === id);
	const rows = [...found.values()].sort(
		(one, other) => place(one.face) - place(other.face) || one.coat - other.coat,
	);
	return rows.map(row => {
		const over = coats.find(({ face, coat }) => face === row.face && coat === row.coat + 1);
		return {
			...row,
			windows: joined(heldBack(row.windows, row.ended, waitBefore_s(day, row.face, row.coat + 1, row.ended))),
			next: over ? { coat: over.coat, began: over.began, window: over.window } : null,
			wants: (faceIn(day.job, row.face)?.coats.length ?? 0) > row.coat,
			last: !rows.some(({ face, coat }) => face === row.face && coat > row.coat),
		};
	});
}
