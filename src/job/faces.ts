import type { Substrate } from '../film/own-cooling.ts';
import type { Source } from './document.ts';
import { notAllowed } from './errors.ts';
import type { Placed } from './fields.ts';
import { brief } from './inert.ts';
import type { Face, Horns, Stroke } from './job.ts';
import type { FaceEntry } from './part-keys.ts';
import { once, type PartDraft } from './parts.ts';
import type { Held } from './shape-words.ts';
import type { SheetEntry } from './sheet.ts';

/** A face as far as it could be read, and where its words stand. */
export type FaceDraft = {
	id: string;
	part: string;
	/** The part as the sheet writes it, where it has several alike. */
	family: string;
	name: string;
	entry: FaceEntry;
	area_m2: number | undefined;
	after: Placed<string>[];
	/** What the face, or its part, is made of. */
	substrate: Substrate | undefined;
	/** What its part is turned by while it is wet. */
	holdBy: string | undefined;
	/** The face were its part held in another way; undefined: the part has no shape. */
	asHeld: ((held: Held) => FaceEntry | undefined) | undefined;
};

const most = 10_000;

function areaOf(source: Source, entry: FaceEntry): number | undefined {
	const { area, size } = entry.values;
	if (!entry.has('area') && !entry.has('size') && !entry.has('strip'))
		source.fail(entry.at, `${entry.name}, area is missing: write "area: 2 m2" or "size: 24 in x 36 in"`);
	const bound = size && (size[0] * size[1]) / 1e6;
	if (area !== undefined && bound !== undefined && area > bound * 1.01)
		source.fail(entry.place('area'), `${entry.name}, area: is more than its size holds; mend one of them`);
	checkStrip(source, entry);
	return area ?? bound;
}

/** Strips make up an area; a size has its own. */
function checkStrip(source: Source, entry: FaceEntry): void {
	if (!entry.has('strip')) return;
	if (entry.has('size'))
		source.fail(entry.place('strip'), `${entry.name}, strip: its size says it already; take one out`);
	else if (!entry.has('area'))
		source.fail(
			entry.place('strip'),
			`${entry.name}, strip: needs the area that its pieces make up; write "area: …"`,
		);
}

const flatWork = (attitude: Face['attitude']): boolean => attitude !== 'upright';

/** Upright work is stroked side to side or up and down; flat work side to side or to and fro from a near edge. */
function checkStroke(source: Source, entry: FaceEntry): void {
	const { attitude, stroke } = entry.values;
	if (!attitude) return;
	const wrong = flatWork(attitude) ? 'up-and-down' : 'to-and-fro';
	const right = flatWork(attitude) ? 'to and fro' : 'up and down';
	if (stroke === wrong)
		source.fail(
			entry.place('stroke'),
			`${entry.name}, stroke: found "${stroke.replaceAll('-', ' ')}" on ${attitude} work; allowed: side to side, ${right}`,
		);
	if (flatWork(attitude) && !entry.has('near edge'))
		source.fail(
			entry.at,
			`${entry.name}, near edge is missing: ${attitude} work needs one, as in "near edge: hinge side"`,
		);
	if (!flatWork(attitude) && entry.has('near edge'))
		source.fail(entry.place('near edge'), `${entry.name}, near edge: only flat work has one; take it out`);
}

function checkTilt(source: Source, entry: FaceEntry, tilted: string | undefined): void {
	if (!entry.values.tilt || !tilted || tilted === 'pours') return;
	source.fail(
		entry.place('tilt'),
		`${entry.name}, tilt: the gun's cup ${tilted} when tilted; hold the gun upright and turn the cap, or fit another cup`,
	);
}

function draftsOf(
	source: Source,
	{ name: { value: part }, family, substrate: ofPart, holdBy, faces, asHeld: partHeld }: PartDraft,
	tilted: string | undefined,
): FaceDraft[] {
	const seen = new Set<string>();
	const drafts: FaceDraft[] = [];
	for (const entry of faces) {
		checkStroke(source, entry);
		checkTilt(source, entry, tilted);
		const area_m2 = areaOf(source, entry);
		const face = entry.values.face;
		if (!face || !once(source, seen, face, `part ${family}, face`)) continue;
		const id = `${part}/${face.value}`;
		const { after = [], substrate = ofPart } = entry.values;
		const asHeld =
			partHeld && ((held: Held) => partHeld(held).find(one => one.values.face?.value === face.value));
		drafts.push({ id, part, family, name: face.value, entry, area_m2, after, substrate, holdBy, asHeld });
	}
	return drafts;
}

/** Every face of the parts, in their order. */
export function facesOf(
	source: Source,
	sheet: SheetEntry,
	parts: readonly PartDraft[],
	tilted: string | undefined,
): FaceDraft[] {
	const drafts = parts.flatMap(part => draftsOf(source, part, tilted));
	if (drafts.length > most)
		source.fail(sheet.place('parts'), `parts: ${drafts.length} faces; at most ${most} fit one job`);
	return drafts;
}

/**
 * The faces that a stage means by a name: a part or a face by its own; else what the sheet calls a part and all its like,
 * or a face of it; else all faces so called.
 */
export function facesNamed(faces: readonly FaceDraft[], said: string): readonly FaceDraft[] {
	const ways: ((face: FaceDraft) => string[])[] = [
		({ id, part }) => [id, part],
		({ part, family, name }) => [family, `${family}/${name}`, `${part} ${name}`, `${family} ${name}`],
		({ name }) => [name],
	];
	for (const way of ways) {
		const named = faces.filter(face => way(face).includes(said));
		if (named.length > 0) return named;
	}
	return [];
}

/** The names a place may refer to: a face of the same part by its own name, any face by `part/face`. */
function findFace(drafts: ReadonlyMap<string, FaceDraft>, part: string, name: string): FaceDraft | undefined {
	return drafts.get(`${part}/${name}`) ?? drafts.get(name);
}

/** `after` of every face as ids; unknown names are complained of. */
export function resolveAfter(
	source: Source,
	drafts: ReadonlyMap<string, FaceDraft>,
): Map<string, Placed<string>[]> {
	const resolved = new Map<string, Placed<string>[]>();
	const few = [...drafts.keys()].slice(0, 200);
	for (const draft of drafts.values()) {
		const ids: Placed<string>[] = [];
		for (const { value, at } of draft.after) {
			const found = findFace(drafts, draft.part, value);
			if (found) ids.push({ value: found.id, at });
			else {
				const near = few
					.filter(id => id.startsWith(`${draft.part}/`))
					.map(id => id.slice(draft.part.length + 1));
				source.fail(at, `${draft.entry.name}, after: ${notAllowed(value, [...near, ...few])}`);
			}
		}
		resolved.set(draft.id, ids);
	}
	return resolved;
}

/** Faces that wait for one another: the first circle met from each face is said once, where it closes. */
export function checkCircles(source: Source, after: ReadonlyMap<string, Placed<string>[]>): void {
	const done = new Set<string>();
	for (const start of after.keys()) {
		const path: { id: string; next: number }[] = done.has(start) ? [] : [{ id: start, next: 0 }];
		const onPath = new Set(path.map(({ id }) => id));
		for (let top = path.at(-1); top; top = path.at(-1)) {
			const step = after.get(top.id)?.[top.next++];
			if (!step) {
				onPath.delete(top.id);
				done.add(top.id);
				path.pop();
			} else if (onPath.has(step.value)) {
				const ids = path.map(({ id }) => id);
				const circle = [...ids.slice(ids.indexOf(step.value)), step.value].map(id => brief(id));
				const shown = circle.length > 6 ? [...circle.slice(0, 5), '…', circle.at(-1)] : circle;
				source.fail(step.at, `after goes in a circle: ${shown.join(' after ')}; take one of them out`);
			} else if (!done.has(step.value)) {
				path.push({ id: step.value, next: 0 });
				onPath.add(step.value);
			}
		}
	}
}

/**
 * How the horns must stand so that the fan lies across the stroke: fan = tilt + (level ? 0° : 90°) = stroke,
 * modulo 180°, with side to side 0°, up and down (to and fro) 90°.
 */
export function hornsFor(tilt: Face['tilt'], stroke: Stroke): Horns {
	const wanted = stroke === 'side-to-side' ? 0 : 90;
	return (wanted - tilt + 360) % 180 === 0 ? 'level' : 'upright';
}

/** The stroke of a coat that goes crosswise to the others. */
export function crossed(stroke: Stroke, attitude: Face['attitude']): Stroke {
	if (stroke !== 'side-to-side') return 'side-to-side';
	return flatWork(attitude) ? 'to-and-fro' : 'up-and-down';
}
