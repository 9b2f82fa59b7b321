import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

/**
 * Bundles a file of TypeScript, which Node 20 cannot read, and imports it: what it exports, or does by being run.
 * `node src/package/run.js FILE [WORDS …]` in the project's folder runs one from the shell.
 * @param {string} file
 */
export async function taken(file) {
	const outfile = path.resolve('node_modules/.cache/fanwise', `${path.parse(file).name}.mjs`);
	await build({
		entryPoints: [file],
		outfile,
		bundle: true,
		packages: 'external',
		platform: 'node',
		target: 'node20',
		format: 'esm',
		logLevel: 'warning',
	});
	return import(pathToFileURL(outfile).href);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
	const [, , file] = process.argv;
	if (file === undefined) throw new Error('name the file to run');
	process.env.NODE_ENV ??= 'production';
	process.argv.splice(1, 1);
	await taken(file);
}
