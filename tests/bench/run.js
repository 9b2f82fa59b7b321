import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { options } from '../../src/package/bundle.js';

/**
 * Runs the benchmarks of this folder and prints one table: `npm run bench`, or `npm run bench NAME …` for some.
 * `npm run bench -- --save` keeps the ratios in baseline.json. Ends with 1 where a limit is passed. Node 20 reads no
 * TypeScript, so each is bundled first.
 * @import { Figure } from './figure.ts'
 */
const here = fileURLToPath(new URL('.', import.meta.url));
const baselineFile = join(here, 'baseline.json');
const all = [
	'help',
	'start',
	'history',
	'key',
	'hold',
	'append',
	'fold',
	'plan',
	'trace',
	'memory',
	'busy',
	'waiting',
];
const asked = process.argv.slice(2).filter(word => !word.startsWith('--'));
const names = asked.length > 0 ? asked : all;
for (const name of names)
	if (!all.includes(name)) {
		process.stderr.write(`no benchmark is called "${name}": there are ${all.join(', ')}\n`);
		process.exit(2);
	}
process.env.NODE_ENV = 'production';

/**
 * The figures of one benchmark.
 * @param {string} name
 * @returns {Promise<Figure[]>}
 */
async function measured(name) {
	const outfile = join(here, `.${name}-${process.pid}.mjs`);
	try {
		await build({
			...options(),
			entryPoints: [join(here, `${name}.ts`)],
			outfile,
			external: ['esbuild', '@lydell/node-pty', '@xterm/headless'],
		});
		const { measure } = await import(pathToFileURL(outfile).href);
		return await measure();
	} finally {
		rmSync(outfile, { force: true });
	}
}

/** @param {number} value */
const digits = value => value.toFixed(value >= 100 ? 0 : value >= 10 ? 1 : 2);
/** @param {readonly string[]} cells */
const row = cells =>
	`| ${cells.map((cell, at) => (at === 0 ? cell.padEnd(68) : cell.padStart(10))).join(' | ')} |\n`;

const baseline = JSON.parse(readFileSync(baselineFile, 'utf8'));
const [load = 0] = loadavg();
process.stdout.write(
	`Node ${process.version}, ${cpus().length} cores, load ${digits(load)} at the start. ` +
		'Medians of pairs taken in turn; on a shared machine only the ratios mean anything, and those near their limit move.\n\n',
);
process.stdout.write(row(['what', 'ours', 'against', 'ratio', 'limit', 'baseline', 'verdict']));
process.stdout.write(row(['---', ...Array.from({ length: 6 }, () => '---')]));

/** @param {Figure} figure */
const verdictOf = ({ ratio, limit, goal }) => {
	if (!(ratio <= limit)) return 'OVER';
	return goal !== undefined && ratio > goal ? `above ${digits(goal)}` : 'within';
};

/**
 * One figure as a row of the table, the ratio kept from before beside it.
 * @param {Figure} figure
 */
function rowOf(figure) {
	const { name, unit, ours, against, ratio, limit } = figure;
	const known = baseline[name];
	return row([
		`${name}, against ${against.what}`,
		`${digits(ours)} ${unit}`,
		`${digits(against.value)} ${unit}`,
		digits(ratio),
		digits(limit),
		known === undefined ? '-' : digits(known),
		verdictOf(figure),
	]);
}

const found = [];
for (const name of names)
	for (const figure of await measured(name)) {
		found.push(figure);
		process.stdout.write(rowOf(figure));
	}
if (process.argv.includes('--save')) {
	const kept = asked.length > 0 ? baseline : {};
	for (const { name, ratio } of found) kept[name] = Number(ratio.toFixed(3));
	writeFileSync(baselineFile, `${JSON.stringify(kept, null, '\t')}\n`);
}
if (found.some(figure => verdictOf(figure) === 'OVER')) process.exitCode = 1;
