import { lastLaid } from './coats.ts';
import { type Day, dayOf } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { readLines } from './lines.ts';
import { allOf, is, type Note, readNotes } from './notes.ts';

/**
 * What earlier days of the job leave behind: letters used up, the highest whole coat on each face, and the steps told of each
 * since its coat; none of a face that was in a line of its own.
 */
export type Earlier = { letters: string[]; coats: Map<string, number>; work: Map<string, string[]> };

/** What the last of the earlier days leaves behind of the work on a face that only the sheet's own list was worked on. */
function workOn(day: Day, face: string): string[] | null {
	const laid = lastLaid(day, face, day.notes.length);
	const since = day.notes.slice(laid?.n ?? 0);
	if (day.before.faces[face]?.aside || since.some(note => is(note, 'rework.done') && note.face === face))
		return null;
	const older = laid === null || laid.n === 0 ? (day.before.faces[face]?.prep ?? []) : [];
	const own = allOf(since, 'stage.done').filter(note => note.face === face);
	const told = [...older, ...own.map(({ stage, place }) => ({ step: stage, place }))];
	return told.flatMap(({ step, place }) => (typeof place === 'number' ? [`${step} at place ${place}`] : []));
}

/** Reads earlier day files. */
export function earlierOf(files: Uint8Array[]): Earlier {
	const notes: Note[] = files.flatMap(bytes => readNotes(readLines(bytes).lines).notes);
	const coats = new Map<string, number>();
	for (const { face, coat, extent } of allOf(notes, 'face.ended'))
		if (extent === 'all') coats.set(face, Math.max(coat, coats.get(face) ?? 0));
	const last = files.at(-1);
	const day = last && dayOf(readNotes(readLines(last).lines).notes);
	const work = new Map(
		day?.sheet.faces.flatMap(({ id }): [string, string[]][] => {
			const own = workOn(day, id);
			return own ? [[id, own]] : [];
		}),
	);
	return { letters: allOf(notes, 'batch.started').map(({ batch }) => batch), coats, work };
}

/** A day begins with the steps that the days before it told of, and with nobody else's (properties 16, 17). */
export function workAgrees(day: Day, earlier: Earlier): Finding[] {
	return [...earlier.work].flatMap(([face, done]) => {
		const told = (day.before.faces[face]?.prep ?? []).flatMap(({ step, place }) =>
			typeof place === 'number' ? [`${step} at place ${place}`] : [],
		);
		return told.join() === done.join()
			? []
			: [
					finding(
						17,
						{ line: 1 },
						`${face} begins with ${told.join(', ') || 'no step'}, told was ${done.join(', ') || 'none'}`,
					),
				];
	});
}

/** A day begins with the coats that the days before it laid (property 14). */
export function agrees(day: Day, earlier: Earlier): Finding[] {
	return day.sheet.faces.flatMap(({ id }) => {
		const told = Math.max(0, ...(day.before.faces[id]?.coats ?? []).map(({ coat }) => coat));
		const laid = earlier.coats.get(id) ?? 0;
		return told === laid
			? []
			: [finding(14, { line: 1 }, `${id} begins with ${told} coats, ${laid} were laid`)];
	});
}
