import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** Pieces of a proof that was stopped: kept beside a sum of all that they rest on, and not done again while that stands. */

/** A sum of every file below some paths, and of what runs them. */
export function sumOf(paths: readonly string[]): string {
	const sum = createHash('sha256').update(process.version);
	for (const path of paths) {
		const below = statSync(path).isDirectory()
			? readdirSync(path, { recursive: true, encoding: 'utf8' })
			: [''];
		for (const name of below.toSorted()) {
			const file = join(path, name);
			if (statSync(file).isFile()) sum.update(`${file}\0`).update(readFileSync(file));
		}
	}
	return sum.digest('hex').slice(0, 16);
}

type Line<Result> = { number: number; result: Result; minutes: number };

/** A line as it was written; none where the program ended in it. */
function lineOf<Result>(text: string): Line<Result>[] {
	try {
		return [JSON.parse(text)];
	} catch {
		return [];
	}
}

export type KeptPieces<Result> = {
	/** Pieces that need not be done. */
	done: ReadonlyMap<number, Result>;
	/** What the runs before this one took, min. */
	minutes: number;
	/** `minutes`: since the first of those runs began, without what lay between them. */
	keep(number: number, result: Result, minutes: number): void;
};

/** What is kept in a folder under a sum; the folder is made. */
export function keptPieces<Result>(folder: string, sum: string): KeptPieces<Result> {
	mkdirSync(folder, { recursive: true });
	const file = join(folder, `proof-${sum}.jsonl`);
	const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
	const lines = text.split('\n').flatMap(line => lineOf<Result>(line));
	if (text !== '' && !text.endsWith('\n')) appendFileSync(file, '\n');
	return {
		done: new Map(lines.map(({ number, result }) => [number, result])),
		minutes: lines.at(-1)?.minutes ?? 0,
		keep: (number, result, minutes) =>
			appendFileSync(file, `${JSON.stringify({ number, result, minutes } satisfies Line<Result>)}\n`),
	};
}
