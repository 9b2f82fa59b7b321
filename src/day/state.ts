import { initialTransition } from 'xstate';
import { type DayMachineState, dayMachine } from '../../machines/day.ts';
import type { DayInput } from '../../machines/day-context.ts';
import type { FaceInput } from '../../machines/face.ts';
import { transition } from '../../machines/step.ts';
import { wantsSuppliedAir } from '../job/breathing.ts';
import { type Face, fanFor_mm, type Job } from '../job/job.ts';
import { type Book, openBook } from './book.ts';
import { enter } from './enter.ts';
import { instantAfter, shownBy } from './instant.ts';
import { asToday } from './older.ts';
import type { DayRecord, EventOf } from './records.ts';

/** The day as it stands: which activity by the machines, times and amounts by the book. */
export type DayState = { machine: DayMachineState; book: Book };

const faceInput = (face: Face, job: Job, before: EventOf<'day.opened'>['before']): FaceInput => {
	const history = before.faces[face.id];
	const beside = history?.aside?.beside;
	/** Where the sheet has lost the face with the fault, nothing holds the sound ones of its part. */
	const isHeldUp = job.faces.some(
		({ id, part }) => part === face.part && before.faces[id]?.aside?.beside === false,
	);
	return {
		id: face.id,
		part: face.part,
		coats: face.coats.map(coat => ({
			material: coat.material,
			horns: coat.horns,
			pattern: coat.stroke === 'side-to-side' ? 'tall' : 'wide',
			fanHeight_mm: fanFor_mm(face, coat),
			prep: coat.prep.map(({ step }) => step),
			cleaned: coat.cleaned,
			touch: coat.ofStage[0] > 1 && job.stages[coat.stage] !== undefined,
		})),
		finishing: face.finishing?.prep.map(({ step }) => step),
		...(history && {
			before: {
				laid: history.coats.length,
				done: history.prep.map(({ step, place }) => ({ step, place })),
				leftOut: history.leftOut ?? [],
				aside: history.aside !== null && beside !== true,
				beside: beside && isHeldUp,
				rework: history.aside?.done ?? [],
			},
		}),
	};
};

/** The rules that the machines need of a job, without its times and amounts. */
export const dayInput = (opened: EventOf<'day.opened'>): DayInput => ({
	faces: opened.sheet.faces.map(face => faceInput(face, opened.sheet, opened.before)),
	materials: Object.fromEntries(
		Object.entries(opened.sheet.materials).map(([id, material]) => [
			id,
			{ isocyanate: wantsSuppliedAir(material), order: material.order },
		]),
	),
});

/**
 * The day after one more record.
 * @throws Error where the record cannot follow on what stands: the file is not a day's.
 */
export function fold(state: DayState | null, record: DayRecord): DayState {
	if (state === null) {
		if (record.type !== 'day.opened')
			throw new Error(`record 1: a day begins with day.opened, not ${record.type}`);
		return { machine: initialTransition(dayMachine, dayInput(record))[0], book: openBook(record) };
	}
	if (record.type === 'day.opened') throw new Error(`record ${record.seq}: the day is open already`);
	const now = instantAfter(state.book.now, shownBy(record));
	let { machine } = state;
	for (const event of asToday(state, record, now)) {
		const [next] = transition(dayMachine, machine, event);
		if (next === machine && !machine.can(event))
			throw new Error(`record ${record.seq}: ${record.type} cannot happen in ${String(machine.value)}`);
		machine = next;
	}
	const book = enter(state.book, record, String(state.machine.value));
	return { machine, book: 'batch' in record ? noteStanding(book, machine, record.batch ?? null) : book };
}

/** From when a batch stands: the machine says that it does, the book says since when. */
function noteStanding(book: Book, machine: DayMachineState, letter: string | null): Book {
	const batch = letter === null ? undefined : book.batches.get(letter);
	if (letter === null || !batch) return book;
	const stands = machine.context.batches[letter]?.matches('standing') === true;
	if (stands === (batch.standing !== null)) return book;
	const standing = stands ? book.now : null;
	return { ...book, batches: new Map(book.batches).set(letter, { ...batch, standing }) };
}

/** The day after many records. */
export function foldAll(records: readonly DayRecord[]): DayState {
	const state = records.reduce<DayState | null>(fold, null);
	if (state === null) throw new Error('an empty file is no day');
	return state;
}
