import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import type { Machines } from './machines.ts';
import { applied, type Mutant, mutantsOf } from './mutate.ts';
import { aloneProofs, type Proof, properties, smallDays } from './proofs.ts';

/** The checks checked: each guard, condition and clearing action deleted or inverted in turn must be caught. */

export const files = ['day.ts', 'face.ts', 'batch.ts', 'gun-check.ts'] as const;
const rooms = { machines: path.resolve('machines'), built: path.resolve('node_modules/.cache/mutants') };

/** Every mutant of the machines, file after file. */
export async function allMutants(): Promise<Mutant[]> {
	const lists = await Promise.all(
		files.map(async file => mutantsOf(file, await readFile(path.join(rooms.machines, file), 'utf8'))),
	);
	return lists.flat();
}

const entry = `export { dayMachine as day } from './day.ts';
export { faceMachine as face } from './face.ts';
export { batchMachine as batch } from './batch.ts';
export { gunCheckMachine as gunCheck } from './gun-check.ts';`;

let built = 0;

/** The machines with one mutant in them, built in memory and imported from a file of its own. */
export async function machinesWith(mutant: Mutant): Promise<Machines> {
	const source = await readFile(path.join(rooms.machines, mutant.file), 'utf8');
	const { outputFiles } = await build({
		stdin: { contents: entry, resolveDir: rooms.machines, loader: 'ts' },
		bundle: true,
		write: false,
		format: 'esm',
		platform: 'node',
		packages: 'external',
		logLevel: 'silent',
		plugins: [
			{
				name: 'one mutant',
				setup(machines) {
					machines.onLoad({ filter: new RegExp(`machines[\\\\/]${mutant.file}$`) }, () => ({
						contents: applied(source, mutant),
						loader: 'ts',
					}));
				},
			},
		],
	});
	await mkdir(rooms.built, { recursive: true });
	const file = path.join(rooms.built, `${process.pid}-${built++}.mjs`);
	await writeFile(file, outputFiles[0]?.text ?? '');
	try {
		return (await import(/* @vite-ignore */ pathToFileURL(file).href)) as Machines;
	} finally {
		await rm(file);
	}
}

/** What caught a mutant: the property, the walk, and what it said; null where nothing did. */
export type Caught = { by: string; in: string; says: string };

const first = (proof: Proof, machines: Machines): Caught | null => {
	try {
		const [found] = proof.run(machines, true).found;
		if (!found) return null;
		return { by: `${found.property} ${properties[found.property]}`, in: proof.name, says: found.says };
	} catch (error) {
		return { by: 'the machine does not run', in: proof.name, says: String(error).split('\n')[0] ?? '' };
	}
};

/** Puts a mutant through the walks, the smallest first, until one of them finds something. */
export async function caughtBy(mutant: Mutant, days: readonly Proof[] = smallDays): Promise<Caught | null> {
	let machines: Machines;
	try {
		machines = await machinesWith(mutant);
	} catch (error) {
		return { by: 'the machine does not run', in: 'building', says: String(error).split('\n')[0] ?? '' };
	}
	const own = Object.entries(aloneProofs).filter(([file]) => file === mutant.file);
	for (const proof of [...own.map(([, one]) => one), ...days]) {
		const caught = first(proof, machines);
		if (caught) return caught;
	}
	return null;
}
