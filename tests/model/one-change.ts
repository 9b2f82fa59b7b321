import { mkdir, mkdtemp, readFile, rm } from 'node:fs/promises';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

/** One text in one file of the program, and what it is changed into. */
export type Change = { file: string; from: string; to: string };

const built = path.resolve('node_modules/.cache/one-change');

/**
 * A module of the tests on a program with one change in it.
 * @param entry its file, of the type asked for
 * @throws Error where the text to be changed is not there just once
 */
export async function builtWith<Module>(entry: string, { file, from, to }: Change): Promise<Module> {
	await mkdir(built, { recursive: true });
	const folder = await mkdtemp(path.join(built, 'one-'));
	const changed = path.resolve(file);
	const outfile = path.join(folder, 'changed.mjs');
	try {
		await build({
			entryPoints: [path.resolve(entry)],
			bundle: true,
			outfile,
			format: 'esm',
			platform: 'node',
			packages: 'external',
			logLevel: 'silent',
			plugins: [
				{
					name: 'one-change',
					setup({ onLoad }) {
						onLoad({ filter: /\.ts$/ }, async ({ path: loaded }) => {
							if (loaded !== changed) return undefined;
							const source = await readFile(loaded, 'utf8');
							if (source.split(from).length !== 2) throw new Error(`${file} has not just one “${from}”`);
							return { contents: source.replace(from, to), loader: 'ts' };
						});
					},
				},
			],
		});
		return (await import(/* @vite-ignore */ pathToFileURL(outfile).href)) as Module;
	} finally {
		await rm(folder, { recursive: true });
	}
}
