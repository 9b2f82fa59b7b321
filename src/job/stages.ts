import type { Source } from './document.ts';
import { notAllowed } from './errors.ts';
import { type FaceDraft, facesNamed } from './faces.ts';
import type { Placed } from './fields.ts';
import { coatKindSchema, type Stage } from './job.ts';
import { prepSteps, type SheetEntry, type StageDraft, type StageEntry } from './sheet.ts';

/** A stage as far as it could be read, and the faces that it leaves out. */
export type StageRead = { at: number; stage: Stage | undefined; leftOut: ReadonlySet<string> };
type Known = { materials: string[]; faces: FaceDraft[] };

const works = ['spray', 'wait', ...prepSteps] as const;
type Work = (typeof works)[number];

function workOf(source: Source, draft: StageDraft): Work | undefined {
	if (draft.word) return draft.word;
	const named = works.filter(work => draft.entry?.has(work));
	if (named.length === 1) return named[0];
	source.fail(
		draft.at,
		`a stage does one thing: found ${named.length === 0 ? 'none' : named.join(' and ')}; allowed: one of ${works.join(', ')}`,
	);
	return undefined;
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

function stageOf(source: Source, draft: StageDraft, known: Known): Stage | undefined {
	const work = workOf(source, draft);
	const { entry } = draft;
	if (!work) return undefined;
	if (entry?.has('coats') && work !== 'spray')
		source.fail(
			entry.place('coats'),
			`stage, coats: only a spray stage has coats; take them out of "${work}"`,
		);
	if (work === 'spray') return entry ? sprayStage(source, entry, known) : undefined;
	if (work === 'wait') {
		const seconds = entry?.values.wait;
		if (seconds === undefined) return undefined;
		return { kind: 'wait', name: entry?.values.name ?? 'wait', hours: seconds / 3600 };
	}
	const grit = work === 'sand' || work === 'scuff' ? (entry?.values[work] ?? null) : null;
	return { kind: 'prep', name: entry?.values.name ?? work, step: work, grit };
}

/** Ids of the faces that a list of names means: parts, faces as `part/face`, or all of a name. */
function meant(source: Source, key: 'only' | 'leave out', names: Placed<string>[], faces: FaceDraft[]) {
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

/** Every stage in order; unknown materials, stages that do two things and faces that are not there are said. */
export function stagesOf(source: Source, sheet: SheetEntry, faces: FaceDraft[]): StageRead[] {
	const materials = (sheet.values.materials ?? []).map(({ id }) => id);
	const drafts = sheet.values.stages ?? [];
	const stages = drafts.map(draft => ({
		at: draft.entry?.has('spray') ? draft.entry.place('spray') : draft.at,
		stage: stageOf(source, draft, { materials, faces }),
		leftOut: leftOut(source, draft.entry, faces),
	}));
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
		for (const { value, at } of entry?.values.coats ?? [])
			if (!kinds.includes(value))
				source.fail(at, `stage, coats: ${id} gives no film for this coat; ${notAllowed(value, kinds)}`);
	}
}
