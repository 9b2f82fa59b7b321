import { inert } from '../../job/inert.ts';
import type { Face } from '../../job/job.ts';
import { faceName, prepWord, sentence } from '../../words/say.ts';
import { about, aboutFaces } from '../../words/spoken.ts';
import { edgeSaid } from '../../words/window-edge.ts';
import { shutWindow, windowEdge } from '../allowed.ts';
import { faceBook, faceOf, jobOf, laidOn, type Moment, materialOf, nextCoat } from '../moment.ts';
import type { Step } from '../next.ts';
import { plannedPrep } from '../prep.ts';
import { opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { workOn } from '../work.ts';
import { atPrep } from './cautions.ts';
import { reasonPrompt } from './override.ts';
import { reading } from './reading.ts';

/** Between coats: the tape tab, and what a part wants before its next coat. */

export function touchPrompt(moment: Moment, faces: readonly string[], coat: number): Prompt {
	const first = faces[0] ?? '';
	const { touch } = materialOf(moment, nextCoat(moment, first).material).flash;
	const on = { faces: [...faces], coat, face: first };
	return {
		state: 'touch',
		ask: 'touch',
		say: 'Tape tab of the last coat: touch it, gloved. How?',
		lines: [`Before coat ${coat}.`, ...closesSoon(moment, first)],
		face: first,
		coat,
		options: (['strings', 'tacky', 'dry'] as const).map(value =>
			option(value, value.toUpperCase(), reading(moment, 'touch', value, [...touch], on)),
		),
	};
}

/** A window that closes later is no concern of a tab, ms. */
const near_ms = 3_600_000;

/** Until when a face takes its coat, where its tab was wet and the window is about to close. */
export function closesSoon(moment: Moment, face: string): string[] {
	const edge = windowEdge(moment, face);
	const isNear = edge?.code === 'closes' && edge.due - moment.now.wall <= near_ms;
	if (!isNear || !moment.state.book.tabWet) return [];
	return [about(faceName(face), `${edgeSaid(edge, moment.now.wall, moment.state.book.opened.zone)}.`)];
}

/** The reading of a coat that a part is picked up by: of no face, for it lets no coat on. */
const dryness = (moment: Moment, face: string, value: string) =>
	reading(moment, 'touch', value, ['dry'], { faces: [], face });

/** Before a part is turned over: it is picked up by what was sprayed today. */
export function dryPrompt(moment: Moment, face: string): Prompt {
	return {
		state: 'touch.turning',
		ask: 'touch',
		say: 'Tape tab of the last coat: touch it, gloved. How?',
		lines: ['Before turning over: dry to handle is wanted.'],
		face,
		options: (['strings', 'tacky', 'dry'] as const).map(value =>
			option(value, value.toUpperCase(), dryness(moment, face, value)),
		),
	};
}

/** Longest list of parts that stands beside a question in the smallest window, letters. */
const mostNamed = 76;

/** Faces that lie flat on parts with two sides. */
function flatOn(moment: Moment, faces: readonly string[]): Face[] {
	const sided = new Set(jobOf(moment).faces.flatMap(({ turned, part }) => (turned ? [part] : [])));
	return faces
		.map(face => faceOf(moment, face))
		.filter(({ part, attitude }) => attitude === 'flat' && sided.has(part));
}

/** The side of parts that lies up where some of their faces are worked on; null: none lies flat, or they differ. */
function sideOf(moment: Moment, faces: readonly string[]): string | null {
	const flat = flatOn(moment, faces);
	const [name, ...others] = new Set(flat.map(one => inert(one.name)));
	if (name !== undefined && others.length === 0) return /side$/.test(name) ? `${name} up` : `${name} side up`;
	return new Set(flat.map(({ part }) => part)).size < flat.length ? 'both sides, turned between' : null;
}

const idsOf = (faces: readonly Face[]): string[] => faces.map(({ id }) => id);

/** What solvent and spray are kept off: coats of today, and parts that have all their coats. */
function besideLines(moment: Moment, prep: string, faces: readonly string[]): string[] {
	const parts = new Set(faces.map(face => faceOf(moment, face).part));
	const others = jobOf(moment).faces.filter(({ id }) => !faces.includes(id));
	if (prep === 'wipe') {
		const coated = others.filter(({ id }) => faceBook(moment, id).laid.at(-1)?.carried_C === null);
		const most = 4;
		return coated.length === 0
			? []
			: [
					coated.length > most
						? 'Other faces: wet or fresh coats, keep solvent off.'
						: aboutFaces(idsOf(coated), 'coated, keep solvent off.'),
				];
	}
	if (prep !== 'tack') return [];
	const open = new Set(
		others.flatMap(({ id, part, coats }) => (laidOn(moment, id) < coats.length ? [part] : [])),
	);
	const finished = others.filter(({ part }) => !open.has(part) && !parts.has(part));
	return finished.length === 0 ? [] : [aboutFaces(idsOf(finished), 'finished, cover or move out.')];
}

/** Done on either side of a part as it lies. */
const coversUp: readonly string[] = ['mask', 'unmask'];

type PrepStep = Extract<Step, { kind: 'prep' }>;

/** Work on faces before their next coat, told of all of them at once, or of one part after the other. */
export function prepPrompt(moment: Moment, step: PrepStep): Prompt {
	const { faces, step: prep, grit } = step;
	const parts = [...new Set(faces.map(face => faceOf(moment, face).part))];
	const [first = ''] = faces;
	const many = `${parts.length} parts`;
	const isOfPart = prep === 'turn over';
	const side = !coversUp.includes(prep) ? sideOf(moment, faces) : null;
	const topic =
		parts.length > 1 ? many : faces.length === 1 && !isOfPart ? faceName(first) : (parts[0] ?? '');
	const did = (prepWord[prep] ?? prep).toUpperCase();
	const why = () =>
		reasonPrompt(
			step.rule,
			about(topic, `why is it not ${prepWord[prep] ?? prep}?`),
			reason => leftOut(moment, step, reason),
			prep === 'turn over' ? 'TURN IT OVER' : `${prep.toUpperCase()} IT`,
		);
	const one = (part: string) => {
		const its = faces.filter(face => faceOf(moment, face).part === part);
		return opens(part, inert(part).toUpperCase(), () => prepPrompt(moment, { ...step, faces: its }));
	};
	const cautions = [...besideLines(moment, prep, faces), ...atPrep(moment, prep, first)];
	const list = sentence(`${inert(parts.join(', '))}.`);
	const byPart = (): Prompt => ({
		state: `prep.${prep}.part`,
		ask: 'choose',
		say: sentence(`${prep}: which part?`),
		face: first,
		options: parts.map(one),
	});
	const how = [
		`${prep === 'tack' ? 'tack rag' : prep}${grit ? ` with ${grit} grit` : ''}`,
		...(side === null ? [] : [side]),
		...(isOfPart || faces.length === 1 ? [] : [`${faces.length} faces`]),
	];
	return {
		state: `prep.${prep}`,
		ask: 'item',
		say: about(topic, `${how.join(', ')}.`),
		lines:
			cautions.length > 1 || parts.length === 1 || list.length > mostNamed ? cautions : [...cautions, list],
		face: parts.length > 1 ? null : first,
		options: [
			option('done', parts.length > 1 ? `ALL ${did}` : did, ...doneOn(moment, step)),
			...(parts.length > 1 ? [opens('part-by-part', 'NOT ALL', byPart)] : []),
			opens('skip', parts.length > 1 ? 'LEAVE THEM OUT' : 'LEAVE IT OUT', why),
			...(isOfPart ? [option('not-dry', 'NOT DRY, WAIT', dryness(moment, first, 'tacky'))] : []),
		],
	};
}

/** Its place in the sheet's list; null: it is no step of it. Behind the last coat nothing but the list is worked off. */
const placeOf = (moment: Moment, face: string): number | null =>
	(workOn(moment, face) ?? plannedPrep(moment, face))?.place ?? null;

const doneOn = (moment: Moment, { faces, step, grit }: PrepStep): DayEvent[] =>
	faces.map(face => ({
		type: 'stage.done',
		face,
		stage: step,
		grit,
		place: placeOf(moment, face),
	}));

const leftOut = (moment: Moment, { faces, step, rule }: PrepStep, reason: string): DayEvent[] =>
	faces.map(face => ({
		type: 'override.given',
		rule,
		reason,
		face,
		coat: laidOn(moment, face) + 1,
		...(rule === 'prep' ? { step, place: placeOf(moment, face) } : { window: shutWindow(moment, face) }),
	}));
