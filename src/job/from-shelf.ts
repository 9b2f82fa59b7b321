import { readDocument, type Source } from './document.ts';
import { type Entry, type Placed, type Reader, type Shape, written } from './fields.ts';
import { brief } from './inert.ts';
import { lineToWrite } from './lines-to-write.ts';
import type { PartEntry, PartWritten } from './part-keys.ts';
import type { GunWritten } from './set-ups.ts';
import {
	type GunOfSheet,
	type MaterialEntry,
	type Named,
	readShelfGun,
	readShelfMaterial,
	readShelfShape,
	readShelfShop,
	type SheetEntry,
	type SheetWritten,
} from './sheet.ts';
import { noShelf, type Shelf, type ShelfFile, type ShelfKind } from './shelf.ts';

/** A file of the shelf as it is read; what is wrong in it is said of that file. */
export function readFrom<T>(file: ShelfFile, read: Reader<T>): { source: Source; entry: T | undefined } {
	const source = readDocument(file.text, file.path);
	if (source.errors.length === 0 && !source.root) source.fail(0, `is empty; a ${file.kind} is wanted`);
	return { source, entry: source.root ? read(source, source.root, file.kind, 0) : undefined };
}

type Wanting = { source: Source; shelf: Shelf; sources: Source[] };

/** The file of a kind and name, read; two of one name are complained of where the sheet names them. */
function taken<T>(
	{ source, shelf, sources }: Wanting,
	kind: ShelfKind,
	{ value, at }: Placed<string>,
	read: Reader<T>,
): { entry: T; source: Source } | undefined {
	const [file, other] = shelf.files.filter(one => one.kind === kind && one.name === value);
	if (!file) return undefined;
	if (other)
		source.fail(at, `${brief(value)}: two files of the shelf have this name; take ${brief(other.path)} out`);
	const found = readFrom(file, read);
	sources.push(found.source);
	return found.entry && { entry: found.entry, source: found.source };
}

/** What the shelf has, but for the keys of the sheet. */
const overlaid = <S extends Shape>(own: Entry<S>, found: Entry<S>, like: Placed<string>): Entry<S> => ({
	...{ at: own.at, name: own.name, values: { ...found.values, ...own.values } },
	place: key => (own.has(key) ? own.place(key) : like.at),
	has: key => own.has(key) || found.has(key),
});

/** A material of the sheet as it stands; one that is like one of the shelf has the keys of that, but for its own. */
function asChanged(wanting: Wanting, named: Named<MaterialEntry>): Named<MaterialEntry>[] {
	const { like, entry } = named;
	if (!like) return [named];
	const found = taken(wanting, 'material', like, readShelfMaterial)?.entry;
	if (!found) {
		const names = namesOf(wanting.shelf, 'material').map(name => brief(name));
		if (!names.includes(brief(like.value)))
			wanting.source.fail(
				like.at,
				`${entry.name}, from: found "${brief(like.value)}"; the shelf has ${names.length === 0 ? 'no material' : names.join(', ')}`,
			);
		return [];
	}
	const changed = Object.keys(entry.values).filter(key => key !== 'from');
	return [{ ...named, entry: overlaid(entry, found, like), changed }];
}

/** Materials that a stage sprays and the sheet does not have, each once. */
function missing({ values }: SheetWritten): Placed<string>[] {
	const here = new Set(values.materials?.map(({ id }) => id));
	const named = (values.stages ?? []).flatMap(({ entry }) => entry?.values.spray ?? []);
	return [...new Map(named.toReversed().map(one => [one.value, one])).values()]
		.filter(({ value }) => !here.has(value))
		.toReversed();
}

/** Guns that stages name, each once; the sheet's own stand before those of the shelf. */
function gunsFrom(wanting: Wanting, { values }: SheetWritten): Map<string, GunWritten> {
	const found = new Map(
		(values.guns ?? []).flatMap(one => {
			const gun = gunAsChanged(wanting, one);
			return gun ? [[one.name, gun] as const] : [];
		}),
	);
	for (const { entry } of values.stages ?? []) {
		const gun = entry?.values.gun;
		const read = gun && !found.has(gun.value) && gunFrom(wanting, gun);
		if (gun && read) found.set(gun.value, read);
	}
	return found;
}

function gunFrom(wanting: Wanting, gun: Placed<string>): GunWritten | undefined {
	const names = namesOf(wanting.shelf, 'gun');
	const found = taken(wanting, 'gun', gun, readShelfGun);
	if (!found && !names.includes(gun.value))
		wanting.source.fail(
			gun.at,
			`gun: found "${brief(gun.value)}"; the shelf has ${names.length === 0 ? 'no gun' : names.map(name => brief(name)).join(', ')}`,
		);
	return found && { entry: found.entry, from: found.source, called: gun.value };
}

/** A gun of the sheet as it stands; one that is like one of the shelf has the keys of that, but for its own. */
function gunAsChanged(wanting: Wanting, { entry: own, like }: GunOfSheet): GunWritten | undefined {
	if (!like) return { entry: own, from: wanting.source };
	const found = gunFrom(wanting, like);
	return found && { entry: overlaid(own, found.entry, like), from: wanting.source, called: like.value, own };
}

/** Every spray stage has a gun: its own, or that of the sheet. */
function isGunMissing(sheet: SheetWritten): boolean {
	const sprays = (sheet.values.stages ?? []).filter(({ entry }) => entry?.has('spray'));
	return !sheet.has('gun') && (sprays.length === 0 || sprays.some(({ entry }) => !entry?.has('gun')));
}

export type Guns = { own: GunWritten | undefined; named: ReadonlyMap<string, GunWritten> };

/** The names of a kind on a shelf. */
export const namesOf = ({ files }: Shelf, kind: ShelfKind): string[] =>
	files.flatMap(file => (file.kind === kind && file.name !== null ? [file.name] : []));

/** A part whose shape is one of the shelf has that, and is held as that is, but for its own keys. */
function shaped(wanting: Wanting, part: PartWritten): PartEntry {
	const { shape, ...own } = part.values;
	if (!shape || 'value' in shape) return { ...part, values: { ...own, ...(shape && { shape }) } };
	const names = namesOf(wanting.shelf, 'shape');
	const found = taken(wanting, 'shape', { value: shape.named, at: shape.at }, readShelfShape)?.entry;
	if (!names.includes(shape.named))
		wanting.source.fail(
			shape.at,
			names.length === 0
				? shape.wrong
				: `${shape.wrong}; the shelf has ${names.map(name => brief(name)).join(', ')}`,
		);
	const { is, held, 'hold by': holdBy } = found?.values ?? {};
	const values: PartEntry['values'] = {
		...{ ...(held && { held }), ...(holdBy !== undefined && { 'hold by': holdBy }), ...own },
		...(is && { shape: { value: is.value, at: shape.at } }),
	};
	return { ...part, values, has: key => part.has(key) || values[key] !== undefined };
}

type Values = SheetEntry['values'];

/** The shop of the shelf, which has no part that stands nearest the extractor. */
function shopOnShelf({ shelf, sources }: Wanting): Pick<Values, 'shop' | 'units'> | undefined {
	const file = shelf.files.find(({ kind }) => kind === 'shop');
	if (!file) return undefined;
	const { source, entry } = readFrom(file, readShelfShop);
	sources.push(source);
	if (!entry) return {};
	const { shop: _, units, ...values } = entry.values;
	return { shop: written(values, entry.at, entry.name), ...(units && { units }) };
}

/** Shop and units, of the sheet or else of the shelf. */
function shopFrom(wanting: Wanting, sheet: SheetWritten): Pick<Values, 'shop' | 'units'> {
	const { shop, units } = sheet.values;
	const own = { ...(shop && { shop }), ...(units && { units }) };
	if (sheet.has('shop') && sheet.has('units')) return own;
	const theirs = shopOnShelf(wanting);
	for (const key of ['shop', 'units'] as const)
		if (!sheet.has(key) && !(theirs && (key === 'shop' || theirs.units)))
			wanting.source.fail(sheet.at, `${key} is missing: write "${lineToWrite('', key)}"`);
	return { ...theirs, ...own };
}

/**
 * A sheet with what it only names read from the shelf: materials that it sprays, its gun, the shop.
 * @param shelfAt the shelf, read only where the sheet wants something of it
 * @returns with the files it came from, in which something may be wrong
 */
export function withShelf(
	source: Source,
	sheet: SheetWritten,
	shelfAt: (named: string | undefined) => Shelf,
): { sheet: SheetEntry; sources: Source[]; shelf: Shelf; guns: Guns } {
	const { gun: named, guns: all = [], shop: _, units: __, shelf: at, parts, ...values } = sheet.values;
	const wanted = missing(sheet);
	const guns_ = named && 'entry' in named ? [named, ...all] : all;
	const isNamed =
		(named !== undefined && 'value' in named) ||
		guns_.some(({ like }) => like) ||
		(values.stages ?? []).some(({ entry }) => entry?.has('gun'));
	const isLike = (values.materials ?? []).some(({ like: one }) => one !== undefined);
	const isShaped = parts?.some(({ values: { shape } }) => shape && 'named' in shape) ?? false;
	const wants =
		isShaped || wanted.length > 0 || isNamed || isLike || !sheet.has('shop') || !sheet.has('units');
	const shelf = wants ? shelfAt(at?.value) : noShelf;
	if (wants && at && shelf.files.length === 0)
		source.fail(at.at, `shelf: nothing of a shelf is in "${brief(at.value)}"`);
	const wanting: Wanting = { source, shelf, sources: [] };
	const found = wanted.flatMap((one): Named<MaterialEntry>[] => {
		const it = taken(wanting, 'material', one, readShelfMaterial);
		return it ? [{ id: one.value, at: one.at, entry: it.entry, from: it.source }] : [];
	});
	const ofSheet = (values.materials ?? []).flatMap(one => asChanged(wanting, one));
	const materials = [...ofSheet, ...found];
	if (!sheet.has('materials') && materials.length === 0)
		source.fail(sheet.at, 'materials is missing: write "materials: …", or spray one of the shelf');
	const own = named && ('value' in named ? gunFrom(wanting, named) : gunAsChanged(wanting, named));
	const guns = { own, named: gunsFrom(wanting, sheet) };
	if (isGunMissing(sheet)) source.fail(sheet.at, `gun is missing: write "${lineToWrite('', 'gun')}"`);
	const gun = (own ?? [...guns.named.values()][0])?.entry;
	const whole = {
		...{ ...values, ...(parts && { parts: parts.map(part => shaped(wanting, part)) }) },
		...(gun && { gun }),
		...shopFrom(wanting, sheet),
		materials,
	};
	return { sheet: { ...sheet, values: whole }, sources: wanting.sources, shelf, guns };
}
