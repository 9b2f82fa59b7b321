import { airsThatCount } from './air-counts.ts';
import { lastLaid } from './coats.ts';
import { type Day, elapsed, plannedCoat } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Note, type NoteOf } from './notes.ts';
import { spansOver } from './recoat.ts';
import { isBySeveral, toldOver } from './several.ts';

/** Faces with a fault, or with half a coat on, so far: those that a line of their own may change. */
function faultyBy(day: Day, n: number): Set<string> {
	const older = Object.entries(day.before.faces).filter(([, { aside }]) => aside && aside.beside !== true);
	const faces = new Set(older.map(([face]) => face));
	for (const note of day.notes.slice(0, n)) {
		if (is(note, 'part.setAside')) for (const face of note.faulty ?? note.faces) faces.add(face);
		if (is(note, 'face.ended') && note.extent === 'part') faces.add(note.face);
		if (is(note, 'fault.seen') && typeof note.face === 'string') faces.add(note.face);
	}
	return faces;
}

/** No coat beyond its plan is given to a face that never had a fault (property 17). */
export function noMoreOnSound(day: Day): Finding[] {
	return allOf(day.notes, 'override.given')
		.filter(({ rule, face, n }) => rule === 'coats' && face !== null && !faultyBy(day, n).has(face))
		.map(note => finding(17, note, `${note.face}: a coat more on a face that has no fault`));
}

/** The work of one face's own line writes nothing of the preparation of another (property 17). */
export function lineKeptToItself(day: Day): Finding[] {
	const lines = allOf(day.notes, 'rework.done');
	return allOf(day.notes, 'stage.done').flatMap(note => {
		const line = lines.find(({ write }) => write === note.write);
		return line
			? [
					finding(
						17,
						note,
						`${note.stage} on ${note.face} is written with ${line.step} of ${line.face}'s own line`,
					),
				]
			: [];
	});
}

/** What a key may write before its reason: the same reason for other faces, and the batch that is mixed by finer marks. */
const leadsTo = (given: NoteOf<'override.given'>) => (note: Note) =>
	is(note, 'override.given')
		? note.rule === given.rule && note.reason === given.reason
		: is(note, 'batch.started') && given.rule === 'marks' && note.batch === given.batch;

/** A reason is a key of its own: nothing is written with it that the day does by itself, and no other rule or reason (property 17). */
export function reasonsKeyed(day: Day): Finding[] {
	return allOf(day.notes, 'override.given').flatMap(given => {
		const write = day.notes.filter(note => note.write === given.write && note.n <= given.n);
		return write.every(leadsTo(given))
			? []
			: [finding(17, given, `${given.rule} is passed over in a write that nobody began with it`)];
	});
}

/** Whether a note has reason to tell a face's windows: its own coat is on by the same key, or lies there when the day opens or the air is read. */
function isOwnWindow(day: Day, set: NoteOf<'window.set'>): boolean {
	const key = day.notes.slice(0, set.n).filter(({ write }) => write === set.write);
	const isLaid = key.some(
		note =>
			is(note, 'face.ended') && note.face === set.face && note.coat === set.coat && note.extent === 'all',
	);
	const isOpening = set.write === 1 && key.every(note => is(note, 'window.set', 'window.moved'));
	const isRead = isOpening || is(key[0], 'air.read');
	return isLaid || (isRead && lastLaid(day, set.face, set.n)?.coat === set.coat);
}

/** Windows are told by the key that ends the face's own coat, by a reading of the air, or as the day opens: by nothing done elsewhere (property 17). */
export function windowsSetAlone(day: Day): Finding[] {
	return allOf(day.notes, 'window.set')
		.filter(set => !isOwnWindow(day, set))
		.map(set => finding(17, set, `the windows of ${set.face} are set by what is done elsewhere`));
}

/** The windows that the sheet may show for a face at a note, by every surface temperature read since its coat; null where it says nothing. */
function shown(day: Day, { face, n, ...at }: NoteOf<'window.moved'>): Set<string> | null {
	const laid = lastLaid(day, face, n);
	// The sheet may have a wait among the steps before a first coat.
	if (!laid) return new Set(['bare', 'wait']);
	const over = plannedCoat(day, face, laid.coat + 1) ?? plannedCoat(day, face, laid.coat);
	const under = plannedCoat(day, face, laid.coat);
	const material = day.sheet.materials[over?.material ?? ''];
	const read = airsThatCount(day.notes.slice(0, n)).filter(air => air.n > laid.n);
	const surfaces = [
		...(laid.surfaceC === null ? [] : [laid.surfaceC]),
		...read.map(({ surfaceC }) => surfaceC),
	];
	if (!material || surfaces.length === 0) return null;
	const { least, most } = elapsed(laid.at, { ...at });
	const coat = { kind: under?.kind, coldestC: Math.min(...surfaces) };
	const spans = surfaces.flatMap(
		surfaceC => spansOver(material, laid.material ?? '', surfaceC, over?.stage === under?.stage, coat) ?? [],
	);
	const now = spans.filter(
		({ from_h, until_h }) =>
			most + 1000 >= from_h * 3_600_000 && (until_h === null || least - 1000 <= until_h * 3_600_000),
	);
	const several = isBySeveral(material, laid.material ?? '')
		? toldOver(day, { face, laid, over: material }, { ...at, n })
		: null;
	return new Set(['wait', ...now.map(({ does }) => does), ...(several ?? [])]);
}

/** A window moves by the face's own coat and time: no other than what the sheet shows for it (property 17). */
export function windowsMoveAlone(day: Day): Finding[] {
	return allOf(day.notes, 'window.moved').flatMap(moved => {
		const may = shown(day, moved);
		return may === null || may.has(moved.to)
			? []
			: [
					finding(
						17,
						moved,
						`the window of ${moved.face} moves to ${moved.to}, the sheet has ${[...may].join(' or ')}`,
					),
				];
	});
}
