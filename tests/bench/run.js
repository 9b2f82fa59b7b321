import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

/**
 * Runs a benchmark of this folder: `node tests/bench/run.js NAME`. Node 20 reads no TypeScript, so it is bundled
 * first; everything after the name is the benchmark's own.
 */
const here = fileURLToPath(new URL('.', import.meta.url));
const name = process.argv[2] ?? 'append';
const outfile = join(here, `.${name}-${process.pid}.mjs`);
try {
	await build({
		entryPoints: [join(here, `${name}.ts`)],
		bundle: true,
		platform: 'node',
		format: 'esm',
		target: 'node20',
		outfile,
		define: { 'process.env.NODE_ENV': '"production"' },
		banner: { js: "import{createRequire as banner}from'node:module';const require=banner(import.meta.url);" },
	});
	await import(pathToFileURL(outfile).href);
} finally {
	rmSync(outfile, { force: true });
}
