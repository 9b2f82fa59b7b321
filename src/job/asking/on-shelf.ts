import { wrongIn } from '../check-shelf.ts';
import { readFrom } from '../from-shelf.ts';
import type { Material } from '../job.ts';
import { materialOf } from '../material.ts';
import { readShelfMaterial, readShelfShop } from '../sheet.ts';
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

/** What the questions want of the shop: its air, and whether a night can be written as one. */
export type ShopOn = { air_C: number; isOpenByDay: boolean };

/** The shop of the shelf; undefined: there is none, or it cannot be used. */
export function shopOn({ files }: Shelf): ShopOn | undefined {
	const file = files.find(({ kind }) => kind === 'shop');
	if (!file) return undefined;
	const { source, entry } = readFrom(file, readShelfShop);
	const { air, day, units } = entry?.values ?? {};
	if (source.errors.length > 0 || air === undefined || units === undefined) return undefined;
	return { air_C: air, isOpenByDay: day !== undefined && day <= 12 * 3600 };
}
