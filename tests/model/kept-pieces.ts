import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { buildSync } from 'esbuild';

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

/** The sum of what some walks come to: their program alone, without the source that none of it reads. */
export function sumOfProgram(entry: string, paths: readonly string[]): string {
	const [built] = buildSync({
		...{ entryPoints: [entry], bundle: true, write: false, format: 'esm', platform: 'node' },
		...{ packages: 'external', logLevel: 'silent' },
	}).outputFiles;
	return createHash('sha256')
		.update(built?.text ?? '')
		.update(sumOf(paths))
		.digest('hex')
		.slice(0, 16);
}

type Line<Result> = { number: number; result: Result };

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
	keep(number: number, result: Result): void;
};

/** What is kept in a folder under a sum; the folder is made. */
export function keptPieces<Result>(folder: string, sum: string): KeptPieces<Result> {
	mkdirSync(folder, { recursive: true });
	const file = join(folder, `proof-${sum}.jsonl`);
	const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
	if (text !== '' && !text.endsWith('\n')) appendFileSync(file, '\n');
	const lines = text.split('\n').flatMap(line => lineOf<Result>(line));
	return {
		done: new Map(lines.map(({ number, result }) => [number, result])),
		keep: (number, result) =>
			appendFileSync(file, `${JSON.stringify({ number, result } satisfies Line<Result>)}\n`),
	};
}
