import path from 'node:path';
import { build } from 'esbuild';

/**
 * Bundles a file of TypeScript, which Node 20 cannot read, beside what npm installed.
 * @param {string} file
 * @returns where it is
 */
export async function bundled(file) {
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
	return outfile;
}
