import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { SheetError } from './errors.ts';
import { readText } from './read-text.ts';

/** What a shop keeps for every job: its materials, its guns, shapes of parts and itself, each in a file of its own. */

export const shelfKinds = ['material', 'gun', 'shape', 'shop'] as const;
export type ShelfKind = (typeof shelfKinds)[number];
/** A file of the shelf, by the name that sheets call it by; null: it says none. */
export type ShelfFile = { kind: ShelfKind; name: string | null; path: string; text: string };
export type Shelf = { folder: string; files: ShelfFile[]; errors: SheetError[] };

const folders = { material: 'materials', gun: 'guns', shape: 'shapes' } as const;
const called = (kind: ShelfKind) =>
	new RegExp(`^${kind}:[ \\t]*(?:"([^"\\n]+)"|'([^'\\n]+)'|([^"'#\\s][^#\\n]*?))[ \\t]*(?:#.*)?$`, 'm');

/** Where the file of a new thing goes, from the folder of the shelf. */
export function shelfPath(kind: ShelfKind, name: string): string {
	if (kind === 'shop') return 'shop.yaml';
	const slug = name
		.normalize('NFKD')
		.toLowerCase()
		.replaceAll(/[^a-z0-9]+/g, '-')
		.replaceAll(/^-|-$/g, '');
	return join(folders[kind], `${slug || kind}.yaml`);
}

/** The name that a file of the shelf says it goes by, without reading it as YAML. */
export function nameOnShelf(kind: ShelfKind, text: string): string | null {
	const found = called(kind).exec(text);
	return (found?.[1] ?? found?.[2] ?? found?.[3])?.normalize('NFC').replaceAll(/\s+/g, ' ') ?? null;
}

function namesIn(folder: string): string[] {
	try {
		return readdirSync(folder)
			.filter(name => /\.ya?ml$/i.test(name))
			.toSorted();
	} catch {
		return [];
	}
}

/**
 * Reads the texts of a shelf; a folder that is not there is an empty one.
 * @returns every file that can be read as text, and what is wrong with the others; never throws for what a path may hold
 */
export function readShelf(folder: string): Shelf {
	const shelf: Shelf = { folder, files: [], errors: [] };
	const take = (kind: ShelfKind, path: string) => {
		const read = readText(path, 'it was there a moment ago');
		if (read.ok) shelf.files.push({ kind, name: nameOnShelf(kind, read.text), path, text: read.text });
		else shelf.errors.push(...read.errors);
	};
	for (const kind of ['material', 'gun', 'shape'] as const) {
		const inside = join(folder, folders[kind]);
		for (const name of namesIn(inside)) take(kind, join(inside, name));
	}
	for (const name of namesIn(folder)) if (/^shop\.ya?ml$/i.test(name)) take('shop', join(folder, name));
	return shelf;
}

/** The shelf of somebody who has none. */
export const noShelf: Shelf = { folder: '', files: [], errors: [] };
