import { execSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Where the project stands: benchmarks are run from its root. */
export const root = process.cwd();

/** What the build leaves to a program that is bundled alike but has none of its savings: plain Ink, as it comes. */
const savings = / --(?:define:(?!process)|alias:(?!react)|inject:|supported:)\S+/g;

/** The bundler's line of `npm run build`, without what it is given to bundle and where it puts it. */
function lineOfBuild(): string {
	const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
	const [line = ''] = /esbuild .*?--log-level=\w+/.exec(scripts.build) ?? [];
	return line.replace(/ fanwise=\S+| --(?:splitting|metafile=\S+|outdir=\S+)/g, '');
}

/** Bundles a program of the benchmarks as the real one is bundled, or without its savings, and says where it is. */
export function builtProgram(program: string, folder: string, how: 'ours' | 'bare'): string {
	const outfile = join(folder, `${program.replace(/\.\w+$/, '')}.mjs`);
	const line = how === 'ours' ? lineOfBuild() : lineOfBuild().replace(savings, '');
	const path = [join(root, 'node_modules/.bin'), process.env.PATH].join(delimiter);
	execSync(`${line} "tests/bench/programs/${program}" --outfile="${outfile}"`, {
		cwd: root,
		env: { ...process.env, PATH: path },
	});
	return outfile;
}
