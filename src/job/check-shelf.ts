import type { SheetError } from './errors.ts';
import { readFrom } from './from-shelf.ts';
import { gunOf } from './gun.ts';
import { materialOf } from './material.ts';
import { allSet } from './set-ups.ts';
import { readShelfGun, readShelfMaterial, readShelfShop } from './sheet.ts';
import type { Shelf, ShelfFile } from './shelf.ts';

/** Everything that is wrong with a file of the shelf by itself, in its order. */
export function wrongIn(file: ShelfFile): SheetError[] {
	if (file.kind === 'shop') return readFrom(file, readShelfShop).source.errors;
	if (file.kind === 'gun') {
		const { source, entry } = readFrom(file, readShelfGun);
		if (entry) for (const set of allSet(entry)) gunOf(source, set);
		return source.errors;
	}
	const { source, entry } = readFrom(file, readShelfMaterial);
	const id = entry?.values.material;
	if (entry && id !== undefined) materialOf(source, { id, at: entry.at, entry });
	return source.errors;
}

/** Files that go by the name of one before them: no sheet can tell them apart. */
export const doubled = ({ files }: Shelf): ShelfFile[] =>
	files.filter(
		(file, nth) =>
			file.name !== null &&
			file.kind !== 'shop' &&
			files.slice(0, nth).some(other => other.kind === file.kind && other.name === file.name),
	);
