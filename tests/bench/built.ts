import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';

/** Where the project stands: benchmarks are run from its root. */
export const root = process.cwd();

/** The line of `npm run build` as esbuild reads it, so that what is compared is built alike. */
function flagsOfBuild(): Record<string, string | true> {
	const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
	const flags = String(scripts.build).matchAll(/--([\w-]+(?::[\w.-]+)?)(?:=("[^"]*"|'[^']*'|\S+))?/g);
	return Object.fromEntries([...flags].map(([, name = '', value]) => [name, value ?? true]));
}

/** Bundles a program of the benchmarks as the real one is bundled, and says where it is. */
export async function builtProgram(program: string, folder: string): Promise<string> {
	const flags = flagsOfBuild();
	const outfile = join(folder, `${program.replace(/\.\w+$/, '')}.mjs`);
	await build({
		entryPoints: [join(root, 'tests/bench/programs', program)],
		outfile,
		bundle: true,
		platform: 'node',
		target: 'node20',
		format: 'esm',
		minify: flags.minify === true,
		minifySyntax: flags['minify-syntax'] === true,
		legalComments: 'none',
		define: { 'process.env.NODE_ENV': '"production"' },
		alias: { 'react-devtools-core': join(root, 'src/screen/no-devtools.cjs') },
		banner: {
			js: "import{createRequire as banner}from'node:module';const require=banner(import.meta.url);",
		},
	});
	return outfile;
}
