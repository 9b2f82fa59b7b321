import { marksOf } from '../../../machines/stops.ts';
import type { Face } from '../../job/job.ts';
import { format } from '../../trade/shown.ts';
import { coatCounted, duration, facesInOrder, numberedPart, sentence } from '../../words/say.ts';
import { about, shortFace } from '../../words/spoken.ts';
import { edgeSaid } from '../../words/window-edge.ts';
import {
	cupLife_s,
	factsForFace,
	isWet,
	levelFor_mL,
	shutWindow,
	stopsAt,
	wantedFor,
	windowEdge,
} from '../allowed.ts';
import { gunNext } from '../guns.ts';
import { atMost_s } from '../instant.ts';
import {
	contextOf,
	faceBook,
	faceOf,
	faceState,
	laidOn,
	type Moment,
	nextCoat,
	settingsOf,
	unitsOf,
} from '../moment.ts';
import { pending } from '../order.ts';
import { type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { oneStroke_s } from '../strokes.ts';
import { isTimed } from '../takes.ts';
import { layFor, wordsFor } from './gun-items.ts';
import { inTrouble } from './trouble.ts';

/** *Ready*: the next face or stretch, and what starts it. */

/** Most unlike faces in a stretch: more are neither kept in mind on the way to the work nor named on a small screen. */
const mostInStretch = 6;

/** The same for a face of each of several equal parts, which a `count` or their numbered names tell. */
const kindOfFace = ({ part, name, area_m2 }: Face): string =>
	JSON.stringify([numberedPart(part).kind, name, area_m2]);

/**
 * Faces from the next on, that follow with nothing on the gun to touch and can all be finished from this cup. The
 * wrist stays as it is in all of them: a tilt is told before a face, and nothing is told while one is sprayed.
 */
function stretchFrom(moment: Moment, first: string): string[] {
	const { by, stretch_s } = settingsOf(moment);
	if (by === 'face' || faceState(moment, first).matches('part')) return [first];
	const lead = nextCoat(moment, first);
	const faces = pending(moment).map(({ face }) => face);
	let { spray_s } = wantedFor(moment, first);
	const kinds = (of: readonly string[]) => new Set(of.map(face => kindOfFace(faceOf(moment, face)))).size;
	const row: [string, ...string[]] = [first];
	const goesOn = (face: string): boolean => {
		const coat = nextCoat(moment, face);
		row.push(face);
		spray_s += wantedFor(moment, face).spray_s;
		return (
			coat.stage === lead.stage &&
			coat.ofStage[0] === lead.ofStage[0] &&
			faceOf(moment, face).tilt === faceOf(moment, first).tilt &&
			!faceState(moment, face).matches('part') &&
			faceState(moment, face).context.overrides.length === 0 &&
			stopsAt(moment, face).length === 0 &&
			levelFor_mL(moment, row) <= moment.state.book.cup_mL + 1e-6 &&
			spray_s < cupLife_s(moment) &&
			spray_s <= stretch_s
		);
	};
	const following = faces.slice(faces.indexOf(first) + 1);
	const end = following.findIndex(face => !goesOn(face) || kinds(row) > mostInStretch);
	return [first, ...(end < 0 ? following : following.slice(0, end))];
}

/** The record that begins a pass on a face. */
export const startOf = (moment: Moment, face: string): DayEvent => {
	const { book } = moment.state;
	const facts = factsForFace(moment, face);
	return {
		type: 'face.started',
		face,
		coat: laidOn(moment, face) + 1,
		cup: [...contextOf(moment).cup],
		check: book.checked?.check ?? 0,
		air: book.air?.seq ?? null,
		overrides: marksOf(contextOf(moment), faceState(moment, face)),
		window: shutWindow(moment, face) ?? 'spray',
		from: faceState(moment, face).matches('part') ? 'part' : 'start',
		spray_s: wantedFor(moment, face).spray_s,
		facts,
	};
};

/** The faces of a stretch in their order. */
const stretchLine = (faces: readonly string[]): string => sentence(`${facesInOrder(faces)}.`);

/** A face or a stretch by name, and the line of its order where the name does not say it: `seat 1 to 8 top` does. */
export function stretchSaid(faces: readonly string[]): { name: string; lines: string[] } {
	const [first = ''] = faces;
	const all = facesInOrder(faces);
	if (faces.length === 1) return { name: shortFace(first), lines: [] };
	return all.includes(';')
		? { name: `${shortFace(first)} and ${faces.length - 1} more`, lines: [stretchLine(faces)] }
		: { name: all.replace(':', ''), lines: [] };
}

/** Where a face broken off is gone on with: one stroke back while its edge is wet, else behind the last stroke. */
function goOnFrom(moment: Moment, face: string): string | null {
	const { part } = faceBook(moment, face);
	if (!part) return null;
	const { lastStroke } = part;
	if (lastStroke === null) return 'Part of it is on. Not from the start.';
	if (!isWet(moment, face)) return `Go on after stroke ${lastStroke}. Not from the start.`;
	return lastStroke === 1
		? 'Go on one stroke back, over stroke 1.'
		: `Go on one stroke back, from stroke ${lastStroke - 1}. Not from the start.`;
}

/** A face that the sheet puts before this one, and that has not got this coat: why it is not waited for. */
function notWaitedFor(moment: Moment, faces: readonly string[]): string | null {
	for (const face of faces) {
		const before = faceOf(moment, face).after.find(
			one =>
				!faces.includes(one) &&
				nextCoat(moment, one).stage === nextCoat(moment, face).stage &&
				laidOn(moment, one) < Math.min(laidOn(moment, face) + 1, faceOf(moment, one).coats.length),
		);
		if (before === undefined) continue;
		const state = faceState(moment, before);
		const why =
			state.matches('aside') || state.matches('beside') ? 'it is set aside' : 'it cannot go on for hours';
		return about(`Before ${shortFace(before)}`, `${why}.`);
	}
	return null;
}

/** How long the face takes: by the sheet, or from START to FINISHED as is usual in this shop. */
const timeWords = (moment: Moment, face: string): string =>
	`${isUsual(moment, face) ? 'usually ' : ''}${duration(wantedFor(moment, face).spray_s)}`;
const isUsual = (moment: Moment, face: string): boolean =>
	isTimed(moment.state.book.opened, nextCoat(moment, face).material);

/** Strokes of a whole coat, and the seconds of one: what its speed is told by; null: part of it is on, or none were planned. */
function strokeWords(moment: Moment, face: string): string | null {
	const coat = nextCoat(moment, face);
	const each_s = oneStroke_s(coat, gunNext(moment, face));
	if (each_s === null || coat.strokes === undefined || faceBook(moment, face).part) return null;
	const strokes = coat.strokes === 1 ? 'one stroke' : `${coat.strokes} strokes`;
	return `${strokes} of ${each_s.toFixed(1)} s`;
}

/** What the hand does: the way it goes, how much it lays, how long that takes and each stroke of it. */
function handLines(moment: Moment, face: string): { first: string; last: string | null } {
	const { stroke, kind } = nextCoat(moment, face);
	const strokes = strokeWords(moment, face);
	const says = `${stroke.replaceAll('-', ' ')}, ${kind} coat, ${timeWords(moment, face)}`;
	if (strokes === null || isUsual(moment, face))
		return { first: sentence(`${says}.`), last: strokes && `By the sheet ${strokes}.` };
	return { first: sentence(`${says}: ${strokes}.`), last: null };
}

/** A window that closes later is no concern of this face, ms. */
const near_ms = 3_600_000;

/** A start that follows on the last key within this is part of what that key began, s. This project's own choice. */
const follows_s = 60;

/**
 * One key starts what follows at once on the last right reading of a check, or on FINISHED with nothing to touch between.
 * It stands where neither of those is keyed (an answer of a pattern card may stand anywhere), and nothing stands there
 * while a face is sprayed.
 */
function startsByOne(moment: Moment, faces: readonly string[]): boolean {
	const { book } = moment.state;
	const isNext =
		book.heardAs === 'face.ended' || (book.heardAs === 'reading.taken' && !settingsOf(moment).cards);
	const isSound = faces.every(
		face =>
			!faceState(moment, face).matches('part') &&
			marksOf(contextOf(moment), faceState(moment, face)).length === 0,
	);
	return isNext && isSound && !book.broken && atMost_s(book.heard, moment.now) <= follows_s;
}

/**
 * Ready: one key starts the face, or the stretch, where it follows on the last; else two different corners do.
 * @param armed the first of those is struck
 */
export function readyPrompt(moment: Moment, face: string, armed = false): Prompt {
	const hand = handLines(moment, face);
	const faces = stretchFrom(moment, face);
	const { book } = moment.state;
	const units = unitsOf(moment);
	const wanted = faces.reduce((sum, one) => sum + wantedFor(moment, one).volume_mL, 0);
	const edge = windowEdge(moment, face);
	const lay = layFor(moment, face);
	const lines = [
		goOnFrom(moment, face),
		notWaitedFor(moment, faces),
		...wordsFor(lay),
		hand.first,
		edge && edge.due - moment.now.wall <= near_ms
			? sentence(`${edgeSaid(edge, moment.now.wall, book.opened.zone)}.`)
			: null,
		faces.length === 1
			? `Cup ${format(book.cup_mL, 'volume', units)}, wants ${format(wanted, 'volume', units)}.`
			: null,
		hand.last,
	].filter(line => line !== null);
	const said = stretchSaid(faces);
	const starts = (text: string): Option => ({
		...option('start', text, ...faces.map(one => startOf(moment, one))),
		at: 'bottomRight',
	});
	const first = startsByOne(moment, faces)
		? starts('START')
		: opens('start', 'START', () => readyPrompt(moment, face, true));
	return {
		state: armed ? 'ready.armed' : 'ready',
		ask: 'go',
		say: about(said.name, `${coatCounted(laidOn(moment, face) + 1, faceOf(moment, face).coats.length)}.`),
		lines: [...said.lines, ...lines].slice(0, lay.some(({ to }) => to === 'upright') ? 2 : 3),
		face,
		coat: laidOn(moment, face) + 1,
		options: armed ? [starts('AND START')] : [first, { ...inTrouble(moment), at: 'topRight' }],
	};
}
