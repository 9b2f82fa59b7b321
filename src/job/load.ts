import { dirname, resolve } from 'node:path';
import { type FacePlan, planFaces } from './coats.ts';
import { checkContradictions } from './contradictions.ts';
import { readDocument, type Source } from './document.ts';
import type { SheetError } from './errors.ts';
import { notAllowed } from './errors.ts';
import { checkCircles, type FaceDraft, facesOf, resolveAfter } from './faces.ts';
import { whole } from './fields.ts';
import { type Guns, namesOf, withShelf } from './from-shelf.ts';
import { type Face, type Job, jobSchema, type Material } from './job.ts';
import { materialOf } from './material.ts';
import { standardRisk } from './on-work.ts';
import { type PartDraft, partsOf } from './parts.ts';
import { readText } from './read-text.ts';
import { gunsOf } from './set-ups.ts';
import { readSheet, type SheetEntry } from './sheet.ts';
import { noShelf, readShelf, type Shelf } from './shelf.ts';
import { gunHad, type Had, type OfShelf } from './shelf-changes.ts';
import { checkKinds, type StageRead, stagesOf, withRounds } from './stages.ts';
import { checkHeld, type OtherSides, otherSides, turnedOver } from './turning.ts';
import { overByName } from './windows.ts';

export type Loaded = { ok: true; job: Job; ofShelf: OfShelf } | { ok: false; errors: SheetError[] };

function shopOf(source: Source, sheet: SheetEntry, parts: string[]): Job['shop'] | undefined {
	const values = sheet.values.shop?.values;
	const at = values?.['extractor at'];
	if (at && !parts.includes(at.value))
		source.fail(at.at, `shop, extractor at: ${notAllowed(at.value, parts)}`);
	const read = values && whole(values, ['air', 'humidity']);
	if (!read) return undefined;
	const { time, measured } = read.clearance?.values ?? {};
	return {
		air_C: read.air,
		humidity: read.humidity,
		clearance: time === undefined || measured === undefined ? null : { minutes: time / 60, measured },
		extractorAt: at?.value ?? null,
		hours: read.day === undefined ? null : read.day.open_s / 60,
		...(read['largest pot'] !== undefined && { pot_mL: read['largest pot'] }),
	};
}

function faceOf(plan: FacePlan, after: string[], gun: Job['gun'], sides: OtherSides): Face | undefined {
	const { draft, area_m2, coats, finishing } = plan;
	const read = whole(draft.entry.values, ['attitude', 'stroke', 'tilt']);
	if (!read) return undefined;
	return {
		id: draft.id,
		part: draft.part,
		name: draft.name,
		attitude: read.attitude,
		...(sides.has(draft.id) && { turned: sides.get(draft.id) }),
		...(read['near edge'] !== undefined && { nearEdge: read['near edge'] }),
		tilt: read.tilt,
		area_m2,
		size_mm: read.size ?? null,
		...(read.strip && { strip_mm: read.strip }),
		...(read.corners && { cornerFirst: true }),
		...(draft.substrate && { substrate: draft.substrate }),
		fanHeight_mm: read.fan ?? gun.fanHeight_mm,
		after,
		coats,
		...(finishing && { finishing }),
	};
}

/** Everything that the sheet says, as far as it could be read, and all that is wrong with it said. */
type Draft = {
	guns: ReturnType<typeof gunsOf>;
	shop: Job['shop'] | undefined;
	materials: Map<string, Material>;
	parts: PartDraft[];
	stages: StageRead[];
	plans: FacePlan[];
	after: Map<string, { value: string }[]>;
	sides: OtherSides;
};

/** What a stage says of the faces of a part that could not be read follows from that, and is not said. */
function besides(source: Source, parts: readonly PartDraft[]): Source {
	const unread = parts.filter(({ faces }) => faces.length === 0).map(({ family }) => `found "${family}`);
	const follows = (says: string) =>
		/^stage, (only|leave out|coats for): /.test(says) && unread.some(part => says.includes(part));
	return { ...source, fail: (at, says) => void (follows(says) || source.fail(at, says)) };
}

function plansOf(
	faces: FaceDraft[],
	stages: StageRead[],
	guns: Draft['guns'],
	materials: Map<string, Material>,
): FacePlan[] {
	const sized = faces.flatMap(draft =>
		draft.area_m2 === undefined ? [] : [{ draft, area_m2: draft.area_m2 }],
	);
	return planFaces(sized, stages, { gun: guns.gun, gunAt: guns.at, materials });
}

/** The highest fan of any gun of a job, and how any of them takes being laid over. */
function ofAll({ own, named }: Guns): { fan_mm: number; tilted: string | undefined } {
	const all = [...(own ? [own] : []), ...named.values()].map(({ entry }) => entry.values);
	const fans = all.flatMap(gun => [gun.fan, ...(gun['set-ups'] ?? []).map(one => one.values.fan?.fan)]);
	const tilted = all.map(({ cup }) => cup?.values.tilted).filter(one => one !== undefined);
	return {
		fan_mm: Math.max(0, ...fans.filter(one => one !== undefined)),
		tilted: tilted.find(one => one !== 'pours') ?? tilted[0],
	};
}

function draftOf(source: Source, sheet: SheetEntry, shelf: Shelf, written: Guns, had?: Had): Draft {
	const materials = new Map<string, Material>();
	for (const named of sheet.values.materials ?? []) {
		const material = materialOf(source, named);
		if (material) materials.set(named.id, material);
	}
	for (const [id, material] of materials) materials.set(id, overByName(material, materials));
	for (const { id, from } of sheet.values.materials ?? []) {
		const kept = from && had?.materials[id];
		if (kept) materials.set(id, kept);
	}
	const { fan_mm, tilted } = ofAll(written);
	const parts = partsOf(source, sheet, fan_mm);
	const faces = facesOf(source, sheet, parts, tilted);
	const shop = shopOf(
		source,
		sheet,
		parts.map(({ name }) => name.value),
	);
	const after = resolveAfter(source, new Map(faces.map(face => [face.id, face])));
	checkCircles(source, after);
	const sides = otherSides(faces);
	checkHeld(source, faces, sides);
	const said = stagesOf(besides(source, parts), sheet, faces, namesOf(shelf, 'material'));
	const ids = faces.map(({ id }) => id);
	const stages = turnedOver(source, said, { faces, sides, after }).map(read => withRounds(read, ids));
	checkKinds(source, sheet);
	const guns = gunsOf(source, stages, written, had && (name => gunHad(had, name)));
	const plans = plansOf(faces, stages, guns, materials);
	const [air_C, units] = [sheet.values.shop?.values.air, sheet.values.units ?? 'us'];
	checkContradictions(source, { sheet, stages, plans, materials, gunAt: guns.at, air_C, units });
	return { guns, shop, materials, parts, stages, plans, after, sides };
}

/** The job of a sheet in which nothing is wrong. */
function jobOf(sheet: SheetEntry, { guns, shop, materials, parts, stages, plans, after, sides }: Draft): Job {
	const { gun } = guns;
	const faces = plans.map(
		plan =>
			gun &&
			faceOf(
				plan,
				(after.get(plan.draft.id) ?? []).map(({ value }) => value),
				gun,
				sides,
			),
	);
	return jobSchema.parse({
		name: sheet.values.name,
		units: sheet.values.units,
		shop,
		gun,
		...(guns.guns && { guns: guns.guns }),
		materials: Object.fromEntries(materials),
		stages: stages.map(read => {
			const { stage, leftOut } = read;
			const { name } = stage?.kind === 'coats' ? guns.at(read) : { name: undefined };
			return {
				...stage,
				...(name !== undefined && { gun: name, name: `${stage?.name}, gun ${name}` }),
				...(leftOut.size > 0 && { leftOut: [...leftOut] }),
			};
		}),
		parts: parts.map(({ name, place, holdBy }) => ({
			...{ name: name.value, place },
			...(holdBy !== undefined && { holdBy }),
		})),
		faces,
		risk: sheet.values.risk ?? standardRisk,
		order: sheet.values.order,
		lists: (sheet.values.lists ?? []).map(({ value }) => value),
	});
}

const byPlace = (a: SheetError, b: SheetError): number => a.line - b.line || a.column - b.column;

/** In the order of the file; what is said of eight parts alike is said once. */
const eachOnce = (errors: readonly SheetError[]): SheetError[] => [
	...new Map(
		errors.toSorted(byPlace).map(error => [`${error.line}:${error.column} ${error.says}`, error]),
	).values(),
];

/**
 * Reads a job sheet.
 * @param text YAML, at most 4 MB
 * @param file the name it goes by in errors
 * @param shelfAt the shop's shelf, or the one that the sheet names; asked for only where the sheet wants something of it
 * @param had of the shelf by an earlier day of the job, where that holds whatever stands on it now
 * @returns the normalised job, or every error at once, in the order of the file, those of shelf files behind them
 */
export function parseJob(
	text: string,
	file: string,
	shelfAt: (named: string | undefined) => Shelf = () => noShelf,
	had?: Had,
): Loaded {
	const source = readDocument(text, file);
	if (source.errors.length > 0) return { ok: false, errors: source.errors.toSorted(byPlace) };
	if (!source.root) {
		const says = 'is empty; fanwise example writes a sheet to begin with';
		return { ok: false, errors: [{ file, line: 1, column: 1, says }] };
	}
	const written = readSheet(source, source.root, '', 0);
	const resolved = written && withShelf(source, written, shelfAt);
	const draft = resolved && draftOf(source, resolved.sheet, resolved.shelf, resolved.guns, had);
	const errors = [source, ...(resolved?.sources ?? [])].flatMap(one => eachOnce(one.errors));
	if (!draft || errors.length > 0) return { ok: false, errors };
	const materials = resolved.sheet.values.materials ?? [];
	return {
		ok: true,
		job: jobOf(resolved.sheet, draft),
		ofShelf: {
			materials: materials.flatMap(({ id, from }) => (from ? [id] : [])),
			guns: draft.guns.ofShelf,
		},
	};
}

/**
 * Reads a job sheet from a file.
 * @param shelf the folder of the shop's shelf, for a sheet that names no other, which lies beside the sheet
 * @returns as `parseJob`; a file that cannot be read is one error at 1:1. Never throws for what a path may hold
 */
export async function loadJob(path: string, shelf?: string, had?: Had): Promise<Loaded> {
	const read = readText(path, 'check the name, or write a sheet with fanwise example');
	if (!read.ok) return read;
	const shelfAt = (named: string | undefined) => {
		const folder = named === undefined ? shelf : resolve(dirname(path), named);
		return folder === undefined ? noShelf : readShelf(folder);
	};
	return parseJob(read.text, path, shelfAt, had);
}
