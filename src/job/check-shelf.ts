import type { SheetError } from './errors.ts';
import { readFrom } from './from-shelf.ts';
import { gunOf } from './gun.ts';
import { materialOf } from './material.ts';
import { allSet } from './set-ups.ts';
import { readShelfGun, readShelfMaterial, readShelfShape, readShelfShop } from './sheet.ts';
import type { Shelf, ShelfFile } from './shelf.ts';

/** What is wrong with a file of the shelf by itself, in its order, and for which of its lines a usual one stands in. */
export function lookedAt(file: ShelfFile): { errors: SheetError[]; usual: readonly string[] } {
	if (file.kind === 'shape') return { errors: readFrom(file, readShelfShape).source.errors, usual: [] };
	if (file.kind === 'shop') return { errors: readFrom(file, readShelfShop).source.errors, usual: [] };
	if (file.kind === 'gun') {
		const { source, entry } = readFrom(file, readShelfGun);
		const usual = (entry ? allSet(entry) : []).flatMap(set => gunOf(source, set).assumed ?? []);
		return { errors: source.errors, usual: [...new Set(usual)] };
	}
	const { source, entry } = readFrom(file, readShelfMaterial);
	const id = entry?.values.material;
	const made = entry && id !== undefined ? materialOf(source, { id, at: entry.at, entry }) : undefined;
	return { errors: source.errors, usual: made?.assumed ?? [] };
}

export const wrongIn = (file: ShelfFile): SheetError[] => lookedAt(file).errors;

/** Files that go by the name of one before them: no sheet can tell them apart. */
export const doubled = ({ files }: Shelf): ShelfFile[] =>
	files.filter(
		(file, nth) =>
			file.name !== null &&
			file.kind !== 'shop' &&
			files.slice(0, nth).some(other => other.kind === file.kind && other.name === file.name),
	);
