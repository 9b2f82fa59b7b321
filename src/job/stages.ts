import type { Source } from './document.ts';
import { notAllowed } from './errors.ts';
import { type FaceDraft, facesNamed } from './faces.ts';
import type { Placed } from './fields.ts';
import { brief } from './inert.ts';
import { type CoatKind, coatKindSchema, type Stage } from './job.ts';
import type { FaceEntry } from './part-keys.ts';
import type { SheetEntry } from './sheet.ts';
import { isStepKey, type StageDraft, type StageEntry, stepKeys } from './stage-keys.ts';
import { timeOfDay } from './values.ts';

/** A stage as far as it could be read, and the faces that it leaves out. */
export type StageRead = {
	at: number;
	stage: Stage | undefined;
	leftOut: ReadonlySet<string>;
	/** The gun that a spray stage names. */
	gun?: Placed<string>;
	/** Faces as they are where their part is held in another way in this stage. */
	held?: ReadonlyMap<string, FaceEntry>;
	/** A wait that lasts to the morning. */
	isNight?: boolean;
	/** Coats of faces that get others than the stage says. */
	coatsFor?: ReadonlyMap<string, readonly CoatKind[]>;
};
type Known = {
	materials: string[];
	faces: FaceDraft[];
	/** How long the shop is open, and when it opens, where that is said. */
	open: { open_s: number; opens_min?: number } | undefined;
};

const works = ['spray', 'wait', 'until', ...stepKeys] as const;
type Work = (typeof works)[number];

/** What a stage does: one thing, or steps of preparation in the order in which they are written. */
function worksOf(source: Source, { at, words, entry }: StageDraft): Work[] {
	if (!entry) return words;
	const named = works.filter(work => entry.has(work));
	if (named.length > 0 && (named.length === 1 || named.every(isStepKey)))
		return named.toSorted((one, other) => entry.place(one) - entry.place(other));
	source.fail(
		at,
		`a stage does one thing: found ${named.length === 0 ? 'none' : named.join(' and ')}; allowed: one of ${works.join(', ')}`,
	);
	return [];
}

function sprayStage(source: Source, entry: StageEntry, known: Known): Stage | undefined {
	const { spray, coats, name } = entry.values;
	if (!entry.has('coats')) source.fail(entry.at, 'stage, coats is missing: write "coats: [medium, full]"');
	if (!spray) return undefined;
	if (!known.materials.includes(spray.value)) {
		source.fail(spray.at, `stage, spray: ${notAllowed(spray.value, known.materials)}`);
		return undefined;
	}
	if (!coats) return undefined;
	const kinds = coats.map(({ value }) => value);
	return { kind: 'coats', name: name ?? `spray ${spray.value}`, material: spray.value, coats: kinds };
}

/** A wait in hours; over the night it is as long as the shop is open: what follows then falls outside that day, and not before an hour that it names, or that the shop opens at. */
function waitStage(source: Source, entry: StageEntry, { open }: Known): Stage | undefined {
	const { wait = entry.values.until, name } = entry.values;
	if (wait === undefined) return undefined;
	if (typeof wait === 'number') return { kind: 'wait', name: name ?? 'wait', hours: wait / 3600 };
	const hours = open === undefined ? undefined : open.open_s / 3600;
	if (hours === undefined || hours > 12)
		source.fail(
			entry.place(entry.has('wait') ? 'wait' : 'until'),
			'stage, wait: overnight wants the hours that the shop is open, up to 12: write "day: 9 h" under shop',
		);
	const until = wait !== 'overnight' ? wait : open?.opens_min !== undefined && { until_min: open.opens_min };
	return {
		kind: 'wait',
		name: name ?? (wait === 'overnight' ? wait : `until ${timeOfDay(wait.until_min)}`),
		hours: hours ?? 12,
		...until,
	};
}

function checkCoatKeys(source: Source, entry: StageEntry, work: Work): void {
	if (work === 'spray') return;
	for (const key of ['coats', 'coats for', 'gun', 'held'] as const)
		if (entry.has(key))
			source.fail(
				entry.place(key),
				`stage, ${key}: only a spray stage has ${key.startsWith('coats') ? 'coats; take them' : 'one; take it'} out of "${work}"`,
			);
}

function stageOf(source: Source, work: Work, entry: StageEntry | null, known: Known): Stage | undefined {
	if (entry) checkCoatKeys(source, entry, work);
	if (work === 'spray') return entry ? sprayStage(source, entry, known) : undefined;
	if (work === 'wait' || work === 'until') return entry ? waitStage(source, entry, known) : undefined;
	const grit = work === 'sand' || work === 'scuff' ? (entry?.values[work] ?? null) : null;
	// The first wipe of a bare part, with a cleaner of its own: to the day it is a wipe.
	const dry = work === 'unmask' ? entry?.values.unmask?.dry : undefined;
	const step = work === 'degrease' ? ('wipe' as const) : work;
	return { kind: 'prep', name: entry?.values.name ?? work, step, grit, ...(dry && { dry }) };
}

/** Ids of the faces that a list of names means: parts, faces as `part/face`, or all of a name. */
function meant(
	source: Source,
	key: 'only' | 'leave out' | 'coats for' | 'held',
	names: Placed<string>[],
	faces: FaceDraft[],
) {
	const ids = new Set<string>();
	for (const { value, at } of names) {
		const named = facesNamed(faces, value);
		for (const { id } of named) ids.add(id);
		if (named.length > 0) continue;
		const some = [...new Set(faces.slice(0, 200).flatMap(({ part, family, id }) => [family, part, id]))];
		source.fail(at, `stage, ${key}: ${notAllowed(value, some)}`);
	}
	return ids;
}

/** Ids of the faces that a stage passes over: those that it leaves out, or all but those that it is for. */
function leftOut(source: Source, entry: StageEntry | null, faces: FaceDraft[]): Set<string> {
	const { only, 'leave out': out = [] } = entry?.values ?? {};
	if (!only) return meant(source, 'leave out', out, faces);
	if (entry?.has('leave out'))
		source.fail(entry.place('leave out'), 'stage, leave out: "only" says it already; take one out');
	const wanted = meant(source, 'only', only, faces);
	return new Set(faces.flatMap(({ id }) => (wanted.has(id) ? [] : [id])));
}

/** Faces of parts that a stage has held in another way. */
function heldIn(source: Source, entry: StageEntry | null, faces: FaceDraft[]): StageRead['held'] {
	const found = new Map<string, FaceEntry>();
	for (const { name, held } of entry?.values.held ?? [])
		for (const id of meant(source, 'held', [name], faces)) {
			const as = faces.find(face => face.id === id)?.asHeld;
			if (!as)
				source.fail(
					name.at,
					`stage, held: ${brief(name.value)} has no shape: write how its faces lie instead`,
				);
			const one = as?.(held);
			if (one) found.set(id, one);
		}
	return found.size > 0 ? found : undefined;
}

/** Coats by face, where a stage names some that get others. */
function coatsFor(source: Source, entry: StageEntry | null, faces: FaceDraft[]): StageRead['coatsFor'] {
	const own = new Map<string, readonly CoatKind[]>();
	for (const { name, at, coats } of entry?.values['coats for'] ?? [])
		for (const id of meant(source, 'coats for', [{ value: name, at }], faces))
			own.set(
				id,
				coats.map(({ value }) => value),
			);
	return own.size > 0 ? own : undefined;
}

/** The coats that a stage lays on a face. */
export const coatsOn = ({ stage, leftOut, coatsFor: own }: StageRead, id: string): readonly CoatKind[] =>
	stage?.kind !== 'coats' || leftOut.has(id) ? [] : (own?.get(id) ?? stage.coats);

/** A stage has as many rounds as the face that gets the most coats. */
export function withRounds(read: StageRead, ids: readonly string[]): StageRead {
	if (read.stage?.kind !== 'coats' || !read.coatsFor) return read;
	const [longest] = ids.map(id => coatsOn(read, id)).toSorted((one, other) => other.length - one.length);
	const all = ids.map(id => [id, coatsOn(read, id)] as const);
	return { ...read, stage: { ...read.stage, coats: [...(longest ?? [])] }, coatsFor: new Map(all) };
}

/** Every stage in order; unknown materials, stages that do two things and faces that are not there are said. */
export function stagesOf(
	source: Source,
	sheet: SheetEntry,
	faces: FaceDraft[],
	onShelf: readonly string[],
): StageRead[] {
	const here = (sheet.values.materials ?? []).map(({ id }) => id);
	const materials = [...new Set([...here, ...onShelf])];
	const known = { materials, faces, open: sheet.values.shop?.values.day };
	const drafts = sheet.values.stages ?? [];
	const stages = drafts.flatMap(draft => {
		const { entry } = draft;
		const at = entry?.has('spray') ? entry.place('spray') : draft.at;
		const out = leftOut(source, entry, faces);
		const own = coatsFor(source, entry, faces);
		const found = worksOf(source, draft).flatMap(work => {
			const after_s = work === 'unmask' ? entry?.values.unmask?.after_s : undefined;
			const wait: Stage[] = after_s ? [{ kind: 'wait', name: 'wait', hours: after_s / 3600 }] : [];
			return [...wait, stageOf(source, work, entry, known)];
		});
		const read = found.length > 0 ? found : [undefined];
		const gun = entry?.values.gun;
		const held = heldIn(source, entry, faces);
		const { wait, until } = entry?.values ?? {};
		const isNight = until !== undefined || (wait !== undefined && typeof wait !== 'number');
		const more = {
			...(isNight && { isNight }),
			...(own && { coatsFor: own }),
			...(gun && { gun }),
			...(held && { held }),
		};
		return read.map((stage): StageRead => ({ at, stage, leftOut: out, ...more }));
	});
	if (drafts.length > 0 && !drafts.some(({ entry }) => entry?.has('spray')))
		source.fail(
			sheet.place('stages'),
			'stages: none of them sprays; write "- spray: MATERIAL" with its coats',
		);
	return stages;
}

/** A coat kind that its material has no film for. */
export function checkKinds(source: Source, sheet: SheetEntry): void {
	for (const { entry } of sheet.values.stages ?? []) {
		const id = entry?.values.spray?.value;
		const coats = sheet.values.materials?.find(material => material.id === id)?.entry.values.coats;
		if (!id || !coats) continue;
		const kinds = coatKindSchema.options.filter(kind => coats.has(kind));
		const own = (entry?.values['coats for'] ?? []).flatMap(one => one.coats);
		for (const { value, at } of [...(entry?.values.coats ?? []), ...own])
			if (!kinds.includes(value))
				source.fail(at, `stage, coats: ${id} gives no film for this coat; ${notAllowed(value, kinds)}`);
	}
}
