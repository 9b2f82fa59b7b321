import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

/**
 * Runs the benchmarks of this folder and prints one table: `npm run bench`, or `npm run bench NAME …` for some.
 * `--save` keeps the ratios in baseline.json. Node 20 reads no TypeScript, so each is bundled first.
 */
const here = fileURLToPath(new URL('.', import.meta.url));
const baselineFile = join(here, 'baseline.json');
const all = ['help', 'start', 'key', 'hold', 'memory', 'waiting', 'append', 'fold', 'trace'];
const asked = process.argv.slice(2).filter(word => !word.startsWith('--'));
const names = asked.length > 0 ? asked : all;
process.env.NODE_ENV = 'production';

/** The figures of one benchmark. */
async function measured(name) {
	const outfile = join(here, `.${name}-${process.pid}.mjs`);
	try {
		await build({
			entryPoints: [join(here, `${name}.ts`)],
			bundle: true,
			platform: 'node',
			format: 'esm',
			target: 'node20',
			outfile,
			external: ['esbuild', '@lydell/node-pty', '@xterm/headless'],
			define: { 'process.env.NODE_ENV': '"production"' },
			alias: { 'react-devtools-core': join(here, '../../src/screen/no-devtools.cjs') },
			banner: {
				js: "import{createRequire as banner}from'node:module';const require=banner(import.meta.url);",
			},
		});
		const { measure } = await import(pathToFileURL(outfile).href);
		// Those that say what they found in their own words have said it by now.
		return measure ? await measure() : [];
	} finally {
		rmSync(outfile, { force: true });
	}
}

const digits = value => value.toFixed(value >= 100 ? 0 : value >= 10 ? 1 : 2);
const row = cells =>
	`| ${cells.map((cell, at) => (at === 0 ? cell.padEnd(58) : cell.padStart(13))).join(' | ')} |\n`;

const baseline = JSON.parse(readFileSync(baselineFile, 'utf8'));
const load = loadavg()[0];
process.stdout.write(
	`Node ${process.version}, ${cpus().length} cores, load ${digits(load)} at the start. ` +
		'Medians of pairs taken in turn; on a shared machine only the ratios mean anything, and those near their limit move.\n\n',
);
process.stdout.write(row(['what', 'ours', 'against', 'ratio', 'limit', 'baseline', '']));
process.stdout.write(row(['---', ...Array.from({ length: 6 }, () => '---')]));
let over = 0;
for (const name of names)
	for (const { name: what, unit, ours, against, ratio, limit } of await measured(name)) {
		if (ratio > limit) over++;
		const known = baseline[what];
		const cells = [
			`${digits(ours)} ${unit}`,
			`${digits(against.value)} ${unit}`,
			digits(ratio),
			digits(limit),
		];
		const verdict = ratio <= limit ? 'within' : 'OVER';
		process.stdout.write(
			row([`${what}, against ${against.what}`, ...cells, known === undefined ? '-' : digits(known), verdict]),
		);
		baseline[what] = Number(ratio.toFixed(3));
	}
if (process.argv.includes('--save')) writeFileSync(baselineFile, `${JSON.stringify(baseline, null, '\t')}\n`);
if (over > 0) process.exitCode = 1;
