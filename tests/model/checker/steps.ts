import { historyOf, lastLaid } from './coats.ts';
import { type Day, plannedCoat } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { is, type Note, type NoteOf } from './notes.ts';
import { overridesOf } from './overrides.ts';

/** A step on a list, and its place there. */
type Listed = { step: string; place: number };
/** Work told of, or a reason to leave it out; without a place it speaks of every step of its name, without a step of all. */
type Told = { step: string | undefined; place?: unknown };

/** What notes say of steps on a face, in their order: work done, a rework, reasons that hold for this start. */
function toldOn(day: Day, start: NoteOf<'face.started'>, notes: Note[]): Told[] {
	const reasons = new Set(overridesOf(day, start, 'prep').map(({ n }) => n));
	return notes.flatMap((note): Told[] => {
		if (is(note, 'stage.done') && note.face === start.face) return [{ step: note.stage, place: note.place }];
		if (is(note, 'override.given') && reasons.has(note.n))
			return [{ step: note.step as string | undefined, place: note.place }];
		if (!is(note, 'rework.done') || note.face !== start.face) return [];
		const steps = note.step === 'clean' ? ['wipe', 'tack'] : [note.step];
		return steps.map(step => ({ step, place: undefined }));
	});
}

/** A list with one thing told struck off it, and what is wrong with the telling. */
function struck(left: Listed[], { step, place }: Told): { left: Listed[]; wrong: string[] } {
	if (typeof place !== 'number')
		return {
			left: place === null ? left : left.filter(one => step !== undefined && one.step !== step),
			wrong: [],
		};
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
		let left: Listed[] = planned.prep.map(({ step }, place) => ({ step, place }));
		const wrong: string[] = [];
		for (const one of [...older, ...told]) {
			const after = struck(left, one);
			left = after.left;
			wrong.push(...after.wrong);
		}
		return [...wrong, ...left.map(({ step }) => `${step} is not recorded`)].map(says =>
			finding(16, start, `${start.face} gets coat ${start.coat}: ${says}`),
		);
	});
}
