import { historyOf, lastLaid } from './coats.ts';
import { type Day, plannedCoat } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Note, type NoteOf } from './notes.ts';
import { overridesOf } from './overrides.ts';

/** A step on a list, and its place there. */
type Listed = { step: string; place: number };
/**
 * Work told of, or a reason to leave it out; without a place it speaks of every step of its name, without a step of all.
 * `rework`: a face with a fault is through its own line; the list begins anew, and the line has done of it what comes first.
 */
type Told = 'rework' | { step: string | undefined; place?: unknown };

/** Whether the day says which face of the part had the fault; older days took the line of each as every step of its names. */
function saysWhich(day: Day, face: string, n: number): boolean {
	const aside = allOf(day.notes.slice(0, n), 'part.setAside').findLast(({ faces }) => faces.includes(face));
	return aside ? aside.faulty !== undefined : historyOf(day, face)?.aside?.beside !== undefined;
}

function reworked(day: Day, { face, step, n }: NoteOf<'rework.done'>): Told[] {
	if (saysWhich(day, face, n)) return step === 'clean' ? ['rework'] : [];
	return step === 'clean' ? [{ step: 'wipe' }, { step: 'tack' }] : [{ step }];
}

/** What notes say of steps on a face, in their order: work done, a rework, reasons that hold for this start. */
function toldOn(day: Day, start: NoteOf<'face.started'>, notes: Note[]): Told[] {
	const reasons = new Set(overridesOf(day, start, 'prep').map(({ n }) => n));
	return notes.flatMap((note): Told[] => {
		if (is(note, 'stage.done') && note.face === start.face) return [{ step: note.stage, place: note.place }];
		if (is(note, 'override.given') && reasons.has(note.n))
			return [{ step: note.step as string | undefined, place: note.place }];
		return is(note, 'rework.done') && note.face === start.face ? reworked(day, note) : [];
	});
}

/** A list with one thing told struck off it, and what is wrong with the telling. */
function struck(left: Listed[], list: Listed[], told: Told): { left: Listed[]; wrong: string[] } {
	if (told === 'rework')
		return {
			left: ['sand', 'wipe', 'tack'].reduce(
				(rest, step) => (rest[0]?.step === step ? rest.slice(1) : rest),
				list,
			),
			wrong: [],
		};
	const { step, place } = told;
	if (place === null) return { left, wrong: [] };
	if (typeof place !== 'number')
		return { left: left.filter(one => step !== undefined && one.step !== step), wrong: [] };
	const [next, ...later] = left;
	if (next?.step === step && next?.place === place) return { left: later, wrong: [] };
	const wanted = next ? `${next.step} at place ${next.place}` : 'nothing';
	return { left, wrong: [`${step} is told of place ${place}, wanted was ${wanted}`] };
}

/** Every step that the sheet puts before a coat is done, or left out with a reason, in its place and as often as it stands there (property 16). */
export function stepsInPlace(day: Day): Finding[] {
	return day.notes.flatMap(start => {
		if (!is(start, 'face.started') || start.from === 'part') return [];
		const planned = plannedCoat(day, start.face, start.coat);
		const laid = lastLaid(day, start.face, start.n);
		if (!planned || laid?.coat === start.coat) return [];
		const older = laid === null || laid.n === 0 ? (historyOf(day, start.face)?.prep ?? []) : [];
		const told = toldOn(day, start, day.notes.slice(laid?.n ?? 0, start.n));
		const list = planned.prep.map(({ step }, place) => ({ step, place }));
		let left: Listed[] = list;
		const wrong: string[] = [];
		for (const one of [...older, ...told]) {
			const after = struck(left, list, one);
			left = after.left;
			wrong.push(...after.wrong);
		}
		return [...wrong, ...left.map(({ step }) => `${step} is not recorded`)].map(says =>
			finding(16, start, `${start.face} gets coat ${start.coat}: ${says}`),
		);
	});
}
