import { wrongIn } from '../check-shelf.ts';
import { readFrom } from '../from-shelf.ts';
import type { Material } from '../job.ts';
import { materialOf } from '../material.ts';
import type { Held, ShapeRead } from '../shape-words.ts';
import { readShelfGun, readShelfMaterial, readShelfShape, readShelfShop } from '../sheet.ts';
import type { Shelf, ShelfFile, ShelfKind } from '../shelf.ts';

/** What of the shelf a sheet can name. */

const named = ({ files }: Shelf, kind: ShelfKind, name: string): ShelfFile[] =>
	files.filter(file => file.kind === kind && file.name === name);

/** The names of a kind, each once, usable or not. */
export const namesOn = ({ files }: Shelf, kind: ShelfKind): string[] => [
	...new Set(files.flatMap(file => (file.kind === kind && file.name !== null ? [file.name] : []))),
];

/** Why no sheet can name a thing; null: one can. */
export function unusable(shelf: Shelf, kind: ShelfKind, name: string): string | null {
	const [file, other] = named(shelf, kind, name);
	if (!file) return `${name} is not on the shelf`;
	if (other) return `${name}: two files of the shelf have this name`;
	const [error] = wrongIn(file);
	return error ? `${name} cannot be used: ${error.says}` : null;
}

/** A material of the shelf as a sheet would have it. */
export function materialOn(shelf: Shelf, name: string): Material | undefined {
	const [file] = named(shelf, 'material', name);
	if (!file) return undefined;
	const { source, entry } = readFrom(file, readShelfMaterial);
	return entry && materialOf(source, { id: name, at: entry.at, entry });
}

/** The guns that were measured with a material, by their names. */
export const gunsMeasured = ({ files }: Shelf, material: string): string[] =>
	files
		.filter(({ kind }) => kind === 'gun')
		.flatMap(file => {
			const setUps = readFrom(file, readShelfGun).entry?.values['set-ups'] ?? [];
			const isMeasured = setUps.some(one => one.values.for?.value === material);
			return isMeasured && file.name !== null ? [file.name] : [];
		});

/** A shape of the shelf, and how a part of it is held, where it says; undefined: there is none. */
export function shapeOn(shelf: Shelf, name: string): { read: ShapeRead; held: Held | undefined } | undefined {
	const [file] = named(shelf, 'shape', name);
	const { is, held } = (file && readFrom(file, readShelfShape).entry?.values) ?? {};
	return is && unusable(shelf, 'shape', name) === null ? { read: is.value, held } : undefined;
}

/** What the questions want of the shop: its air, whether a night can be written as one, when it opens. */
export type ShopOn = { air_C: number; isOpenByDay: boolean; opens_min: number | undefined };

/** The shop of the shelf; undefined: there is none, or it cannot be used. */
export function shopOn({ files }: Shelf): ShopOn | undefined {
	const file = files.find(({ kind }) => kind === 'shop');
	if (!file) return undefined;
	const { source, entry } = readFrom(file, readShelfShop);
	const { air, day, units } = entry?.values ?? {};
	if (source.errors.length > 0 || air === undefined || units === undefined) return undefined;
	const isOpenByDay = day !== undefined && day.open_s <= 12 * 3600;
	return { air_C: air, isOpenByDay, opens_min: day?.opens_min };
}
