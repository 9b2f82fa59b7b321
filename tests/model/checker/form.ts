import type { Day } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { is, type Note } from './notes.ts';

const afterClosing = ['fault.seen', 'film.read', 'photo.kept', 'face.judged', 'part.setAside'] as const;

function orderOf(note: Note, before: Note): string[] {
	const says: string[] = [];
	if (note.seq !== before.seq + 1) says.push(`seq ${note.seq} follows ${before.seq}`);
	if (note.run < before.run) says.push(`run ${note.run} follows run ${before.run}`);
	if (note.t < before.t && !is(note, 'clock.set')) says.push('time goes back without a clock.set');
	if (note.run === before.run && note.mono < before.mono) says.push('the steady clock goes back');
	if (note.write === before.write && note.run !== before.run) says.push('one write spans two runs');
	if (is(note, 'day.opened')) says.push('the day is opened a second time');
	return says;
}

/** The file's own order: seq one by one, time forward unless the clock was set, nothing but an inspection after closing. */
export function inOrder({ notes }: Day): Finding[] {
	const findings: Finding[] = [];
	const closed = notes.findIndex(note => is(note, 'day.closed'));
	notes.forEach((note, n) => {
		const before = notes[n - 1];
		const says = before
			? orderOf(note, before)
			: note.seq === 1 && note.run === 1
				? []
				: ['seq and run start at 1'];
		if (closed >= 0 && n > closed && !is(note, ...afterClosing))
			says.push(`${note.type} after the day was closed`);
		findings.push(...says.map(text => finding('form', note, text)));
	});
	return findings;
}

type Open = { face: string; coat: number; write: number; note: Note };

function ending(note: Extract<Note, { type: 'face.ended' }>, open: Open[]): string | null {
	const [began, ended] = [note.began, note.ended].map(at => (at === undefined ? null : Date.parse(at)));
	const started = open.find(({ face, coat }) => face === note.face && coat === note.coat);
	if (!started) return `${note.face} ends coat ${note.coat} without having been started`;
	if (began === null || began === undefined || ended === null || ended === undefined) return null;
	const inside = started.note.t <= began && began <= ended && ended <= note.t;
	return inside ? null : `the share of ${note.face} lies outside its stretch`;
}

/** Every face ends once for each start; no face starts while another that was not started in the same write is open. */
export function paired({ notes }: Day): Finding[] {
	const findings: Finding[] = [];
	let open: Open[] = [];
	for (const note of notes) {
		if (is(note, 'face.started')) {
			const [other] = open.filter(({ write, face }) => write !== note.write || face === note.face);
			if (other) findings.push(finding('form', note, `${note.face} starts while ${other.face} is not ended`));
			open.push({ face: note.face, coat: note.coat, write: note.write, note });
		} else if (is(note, 'face.ended')) {
			const wrong = ending(note, open);
			if (wrong) findings.push(finding('form', note, wrong));
			open = open.filter(({ face, coat }) => face !== note.face || coat !== note.coat);
		} else if (is(note, 'face.late') && !open.some(({ face }) => face === note.face)) {
			findings.push(finding('form', note, `${note.face} is late without having been started`));
		} else if (is(note, 'gun.checked', 'day.closed') && open[0]) {
			findings.push(finding('form', note, `${note.type} while ${open[0].face} is not ended`));
		}
	}
	return findings;
}

/** Each share of a stretch begins where the one before it ends, or later; between stretches the clock may be set back. */
export function sharesInTurn({ notes }: Day): Finding[] {
	const shares = notes.filter(note => is(note, 'face.ended')).filter(note => note.ended !== undefined);
	const stretchOf = ({ face, n }: Note & { face: string }) =>
		notes.slice(0, n).findLast(note => is(note, 'face.started') && note.face === face)?.write;
	return shares.flatMap((share, n) => {
		const before = shares[n - 1];
		if (!before || stretchOf(before) !== stretchOf(share)) return [];
		return Date.parse(share.began ?? '') < Date.parse(before.ended ?? '')
			? [finding('form', share, `the share of ${share.face} overlaps that of ${before.face}`)]
			: [];
	});
}

/** Breaks and waits end only after they began. */
export function endedAfterBegun({ notes }: Day): Finding[] {
	const findings: Finding[] = [];
	let kinds: string[] = [];
	let waiting = false;
	for (const note of notes) {
		if (is(note, 'break.began')) kinds.push(note.kind);
		if (is(note, 'wait.began')) waiting = true;
		if (is(note, 'wait.ended')) {
			if (!waiting) findings.push(finding('form', note, 'a wait ends that did not begin'));
			waiting = false;
		}
		if (is(note, 'break.ended')) {
			if (!kinds.includes(note.kind))
				findings.push(finding('form', note, `a break (${note.kind}) ends that did not begin`));
			kinds = [];
		}
	}
	return findings;
}
