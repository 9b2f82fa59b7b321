import { stamped } from '../../src/cli/inspect.ts';
import type { DayEvent, DayRecord } from '../../src/day/records.ts';
import type { Job } from '../../src/job/job.ts';
import type { Spot } from './causes.ts';
import type { Effects } from './effects.ts';
import { eye } from './habits.ts';
import { type Pass, wrongWith } from './hidden.ts';
import type { Lots } from './lots.ts';
import { type Shown, shownOn } from './showing.ts';

/** The morning after, or days later: a painter looks the parts over and says what he sees, not always rightly. */

export type Mark = Spot & { kind: string };

/** Kinds that look alike. Common practice, no source. */
const alike: readonly (readonly [string, string])[] = [
	['run', 'sag'],
	['orange-peel', 'dry-spray'],
	['pinholes', 'solvent-pop'],
	['fisheye', 'pinholes'],
	['wrinkling', 'lifting'],
	['thin', 'bare'],
	['blush', 'die-back'],
	['bits', 'dust'],
];
/** What sound paint is taken for. No source. */
const takenFor = ['orange-peel', 'thin', 'dry-spray', 'die-back', 'sag'] as const;
/** Seen while the coat is wet: trade facts, *seconds to minutes*. */
const wet: readonly string[] = ['run', 'sag', 'fisheye', 'blush', 'spit', 'wrinkling', 'lifting', 'bare'];

const likeOf = (kind: string): string[] =>
	alike.flatMap(([one, other]) => (one === kind ? [other] : other === kind ? [one] : []));

/** How often a kind is called by a name. */
export function callShare(kind: string, name: string): number {
	const others = likeOf(kind);
	if (name === kind) return others.length > 0 ? 1 - eye.confuses : 1;
	return others.includes(name) ? eye.confuses / others.length : 0;
}

/** The kind that he says. */
function called(kind: string, face: string, lots: Lots): string {
	const others = likeOf(kind);
	return others.length > 0 && lots.is(eye.confuses, 'confused', face)
		? lots.pick(others, 'like', face)
		: kind;
}

type Scene = {
	lots: Lots;
	job: Job;
	passes: readonly Pass[];
	records: readonly DayRecord[];
	effects: Effects;
};

const topOf = (passes: readonly Pass[], face: string): number =>
	Math.max(0, ...passes.filter(pass => pass.face === face).map(({ coat }) => coat));

function marksFor({ lots, passes }: Scene, shown: readonly Shown[]): Mark[] {
	return shown.flatMap(({ face, coat, kind }) => {
		if (lots.is(eye.misses, 'missed', face)) return [];
		const seenWet = wet.includes(kind) && lots.is(eye.seesWet, 'wet', kind);
		const top = !seenWet && lots.is(eye.namesTop, 'top', kind);
		return [{ kind: called(kind, face, lots), face, coat: top ? topOf(passes, face) : coat }];
	});
}

/** Marks on sound faces; where there is no cause at all, one at least: something is asked. */
function falseMarks({ lots, job, passes }: Scene, marks: readonly Mark[]): Mark[] {
	const sound = job.faces.filter(({ id }) => topOf(passes, id) > 0 && !marks.some(({ face }) => face === id));
	const taken = sound.filter(({ id }) => lots.is(eye.falseMarks, 'false', id));
	const one = taken.length === 0 && marks.length === 0 ? [lots.pick(sound, 'taken')] : taken;
	return one.map(({ id }) => ({ kind: lots.pick(takenFor, 'for', id), face: id, coat: topOf(passes, id) }));
}

/** What a film gauge reads on a face, coat by coat: within 8 % of what is there. Common practice, no source. */
function filmReadings({ lots, job, passes }: Scene, faces: readonly string[]): DayEvent[] {
	if (!lots.is(eye.gauges, 'gauge')) return [];
	return passes
		.filter(({ face, coat }) => faces.includes(face) && coat === topOf(passes, face))
		.map(({ face, coat, film, times }) => {
			const planned = job.faces.find(({ id }) => id === face)?.coats[coat - 1];
			const wanted = (planned && job.materials[planned.material]?.coats[planned.kind]?.dry_um) ?? 25;
			const dry_um = Math.round(10 * wanted * film * times * lots.between(0.92, 1.08, 'film', face)) / 10;
			return { type: 'film.read', face, coat, dry_um, by: 'gauge' };
		});
}

/** What he asks about first: the kind on most faces, what is really there before what is only taken for a fault. */
function asked(marks: readonly Mark[], real: readonly Mark[]): Mark | undefined {
	const worth = (mark: Mark) =>
		2 * marks.filter(({ kind }) => kind === mark.kind).length + (real.includes(mark) ? 1 : 0);
	return marks.toSorted((one, other) => worth(other) - worth(one))[0];
}

const hour_ms = 3_600_000;

/** Null: a cause was there, and nothing of it was found; such a day asks nothing. */
export function inspected(
	scene: Scene,
): { records: DayRecord[]; added: DayRecord[]; shown: Shown[]; question: Mark; marks: Mark[] } | null {
	const { lots, job, passes, records, effects } = scene;
	const shown = shownOn(passes, job, effects, lots);
	const real = marksFor(scene, shown);
	if (real.length === 0 && passes.some(pass => wrongWith(pass).length > 0)) return null;
	const all = [...real, ...falseMarks(scene, real)];
	const marks = all.filter(
		(mark, nth) => all.findIndex(({ face, kind }) => face === mark.face && kind === mark.kind) === nth,
	);
	const order = marks
		.map((mark, nth) => ({ mark, at: lots.at('walk', nth) }))
		.sort((one, other) => one.at - other.at);
	const question = asked(
		order.map(({ mark }) => mark),
		real,
	);
	const last = records.at(-1);
	if (!question || !last) return null;
	const marked = new Set(marks.map(({ face }) => face));
	const cleared = job.faces.filter(
		({ id }) => !marked.has(id) && topOf(passes, id) > 0 && lots.is(eye.clears, 'clear', id),
	);
	const events: DayEvent[] = [
		...order.map(
			({ mark }): DayEvent => ({ type: 'fault.seen', fault: mark.kind, face: mark.face, coat: mark.coat }),
		),
		...filmReadings(scene, [...marked]),
		...cleared.map(
			({ id }): DayEvent => ({
				...{ type: 'face.judged', face: id, coat: topOf(passes, id) },
				...{ verdict: 'cleared', reason: 'looked at, nothing seen' },
			}),
		),
	];
	const later = Date.parse(last.at) + lots.between(12, 14 * 24, 'later') * hour_ms;
	const added = stamped(last, events, last.run + 1, Math.round(later), 1000);
	return { records: [...records, ...added], added, shown, question, marks: order.map(({ mark }) => mark) };
}
