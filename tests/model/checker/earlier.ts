import type { Day } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { readLines } from './lines.ts';
import { allOf, type Note, readNotes } from './notes.ts';

/** What earlier days of the job leave behind: letters used up, and the highest whole coat on each face. */
export type Earlier = { letters: string[]; coats: Map<string, number> };

/** Reads earlier day files. */
export function earlierOf(files: Uint8Array[]): Earlier {
	const notes: Note[] = files.flatMap(bytes => readNotes(readLines(bytes).lines).notes);
	const coats = new Map<string, number>();
	for (const { face, coat, extent } of allOf(notes, 'face.ended'))
		if (extent === 'all') coats.set(face, Math.max(coat, coats.get(face) ?? 0));
	return { letters: allOf(notes, 'batch.started').map(({ batch }) => batch), coats };
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
