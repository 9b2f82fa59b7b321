import { join } from 'node:path';
import { build } from 'esbuild';
import { options } from '../../src/package/bundle.js';

/** Where the project stands: benchmarks are run from its root. */
export const root = process.cwd();

/**
 * Bundles a program of the benchmarks, and says where it is.
 * @param how as the real one is bundled, or without its savings: plain Ink, as it comes
 */
export async function builtProgram(program: string, folder: string, how: 'ours' | 'bare'): Promise<string> {
	const outfile = join(folder, `${program.replace(/\.\w+$/, '')}.mjs`);
	const entryPoints = [join(root, 'tests/bench/programs', program)];
	await build({ ...options(how === 'bare' ? { without: 'savings' } : {}), entryPoints, outfile });
	return outfile;
}
