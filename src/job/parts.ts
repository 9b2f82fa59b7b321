import type { Substrate } from '../film/own-cooling.ts';
import type { Source } from './document.ts';
import type { Placed } from './fields.ts';
import type { FaceEntry, PartEntry } from './part-keys.ts';
import type { Held } from './shape-words.ts';
import { facesOfShape } from './shapes.ts';
import type { SheetEntry } from './sheet.ts';

/** One thing to be painted: of a part that the sheet has eight of, each of the eight. */
export type PartDraft = {
	name: Placed<string>;
	/** What the sheet calls it and all its like. */
	family: string;
	place: number | null;
	substrate: Substrate | undefined;
	/** What it is turned by while it is wet. */
	holdBy: string | undefined;
	faces: FaceEntry[];
	/** Its faces were it held in another way; undefined: it has no shape. */
	asHeld: ((held: Held) => FaceEntry[]) | undefined;
};

/** Names that are there already, told apart as a reader would: capitals do not count. */
export function once(source: Source, seen: Set<string>, name: Placed<string>, what: string): boolean {
	const plain = name.value.toLowerCase();
	if (seen.has(plain))
		source.fail(name.at, `${what} ${name.value}: there is one of this name already; choose another`);
	const fresh = !seen.has(plain);
	seen.add(plain);
	return fresh;
}

const most = 10_000;

/** The faces that are written out, and those that follow from its shape. */
function facesIn(source: Source, part: PartEntry, fan_mm: number): FaceEntry[] {
	const { shape, held, faces = [] } = part.values;
	if (!part.has('shape')) {
		if (!part.has('faces'))
			source.fail(
				part.at,
				`${part.name}, faces is missing: write "faces: …", or "shape: panel, 40 x 38 x 3 cm"`,
			);
		if (part.has('held'))
			source.fail(part.place('held'), `${part.name}, held: only a part with a shape is held; take it out`);
		return faces;
	}
	if (!part.has('held'))
		source.fail(part.at, `${part.name}, held is missing: write "held: standing", "hanging" or "on points"`);
	return shape && held ? facesOfShape({ shape, held, fan_mm, name: part.name }, faces) : faces;
}

/** A part as many times as it is there: `count: 8` of seat are seat 1 … seat 8, in places that follow one another. */
function counted(entry: PartEntry, faces: FaceEntry[], asHeld: PartDraft['asHeld']): PartDraft[] {
	const { part, count, place, substrate, 'hold by': holdBy } = entry.values;
	if (!part) return [];
	return Array.from({ length: count ?? 1 }, (_, nth) => ({
		name: count === undefined ? part : { value: `${part.value} ${nth + 1}`, at: part.at },
		family: part.value,
		place: place === undefined ? null : place + nth,
		...{ substrate, holdBy, faces, asHeld },
	}));
}

/** Every part of the sheet, in its order; names that come twice are complained of. */
export function partsOf(source: Source, sheet: SheetEntry, fan_mm: number): PartDraft[] {
	const [families, seen] = [new Set<string>(), new Set<string>()];
	const parts: PartDraft[] = [];
	for (const part of sheet.values.parts ?? []) {
		const name = part.values.part;
		if (!name || !once(source, families, name, 'part')) continue;
		const faces = facesIn(source, part, fan_mm);
		const { shape, faces: own = [] } = part.values;
		const asHeld = shape && ((held: Held) => facesOfShape({ shape, held, fan_mm, name: part.name }, own));
		parts.push(...counted(part, faces, asHeld).filter(one => once(source, seen, one.name, 'part')));
		if (parts.length > most) break;
	}
	return parts;
}
