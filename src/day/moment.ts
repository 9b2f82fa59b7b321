import type { BatchState, FaceState } from '../../machines/day-context.ts';
import { ruleFor } from '../../machines/day-context.ts';
import type { Face, Job, Material, PlannedCoat } from '../job/job.ts';
import type { FaceBook } from './book.ts';
import { type Instant, isLater } from './instant.ts';
import type { Settings } from './settings.ts';
import type { DayState } from './state.ts';

/** The day as it stands, at a moment. */
export type Moment = { state: DayState; now: Instant };

export const jobOf = ({ state }: Moment): Job => state.book.opened.sheet;
export const settingsOf = ({ state }: Moment): Settings => state.book.opened.settings;
export const unitsOf = (moment: Moment): 'us' | 'metric' => {
	const { units } = settingsOf(moment);
	return units === 'sheet' ? jobOf(moment).units : units;
};

export type Activity = 'bench' | 'list' | 'mix' | 'check' | 'ready' | 'spraying' | 'wait' | 'hold' | 'closed';
export const activityOf = ({ state }: Moment): Activity => state.machine.value as Activity;
export const contextOf = ({ state }: Moment) => state.machine.context;

const found = <Thing>(thing: Thing | undefined, name: string): Thing => {
	if (thing === undefined) throw new Error(`the job sheet knows no ${name}`);
	return thing;
};

export const faceOf = (moment: Moment, id: string): Face =>
	found(
		jobOf(moment).faces.find(face => face.id === id),
		`face ${id}`,
	);

export const faceBook = ({ state }: Moment, id: string): FaceBook =>
	found(state.book.faces.get(id), `face ${id}`);

export const faceState = (moment: Moment, id: string): FaceState =>
	found(
		contextOf(moment).faces.find(face => face.context.rules.id === id),
		`face ${id}`,
	);

export const laidOn = (moment: Moment, id: string): number => faceState(moment, id).context.laid;

/** The coat that a face gets next; one beyond the plan repeats the last. */
export const nextCoat = (moment: Moment, id: string): PlannedCoat => {
	const { coats } = faceOf(moment, id);
	return found(coats[laidOn(moment, id)] ?? coats.at(-1), `coat of ${id}`);
};

export const materialOf = (moment: Moment, id: string): Material =>
	found(jobOf(moment).materials[id], `material ${id}`);

export const ruleOf = (moment: Moment, id: string) => found(ruleFor(faceState(moment, id)), `coat of ${id}`);

export const batchesIn = (moment: Moment, ...states: BatchState['value'][]): string[] =>
	Object.entries(contextOf(moment).batches)
		.filter(([, batch]) => states.includes(batch.value))
		.map(([letter]) => letter);

export const facesIn = (moment: Moment, ...states: FaceState['value'][]): string[] =>
	contextOf(moment)
		.faces.filter(face => states.includes(face.value))
		.map(face => face.context.rules.id);

/** Out of line: set aside for a fault, or with a face of its part that has one. */
export const isAside = (moment: Moment, id: string): boolean =>
	facesIn(moment, 'aside', 'beside').includes(id);

/** What holds up a sound face of a part: the fault on another; null: it is in line, or has one of its own. */
export function besideOf(moment: Moment, id: string): FaceBook['aside'] {
	const { part } = faceOf(moment, id);
	const held = facesIn(moment, 'beside').includes(id);
	const other = held && facesIn(moment, 'aside').find(one => faceOf(moment, one).part === part);
	return other ? faceBook(moment, other).aside : null;
}

/** Faces of a part that are in line, and may be set aside. */
export const inLineOf = (moment: Moment, part: string): string[] =>
	facesIn(moment, 'open', 'part').filter(id => faceOf(moment, id).part === part);

/** The face that a coat was laid on last, and which coat; null: none yet. */
export function lastSprayed({ state }: Moment): { face: string; coat: number } | null {
	const laid = [...state.book.faces].flatMap(([face, { laid }]) => {
		const last = laid.at(-1);
		return last ? [{ face, coat: last.coat, at: last.ended }] : [];
	});
	const last = laid.reduce<(typeof laid)[number] | null>(
		(one, other) => (one && isLater(one.at, other.at) ? one : other),
		null,
	);
	return last && { face: last.face, coat: last.coat };
}
