import { cp, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildSync } from 'esbuild';
import { WithoutEnd } from './classes.ts';
import { asked, type Machines } from './machines.ts';
import { applied, type Mutant, mutantsOf } from './mutate.ts';
import { ownProofs, type Proof, properties, smallDays } from './proofs.ts';

/** The checks checked: each guard, condition and clearing action deleted or inverted in turn must be caught. */

export const files = [
	'day.ts',
	'stops.ts',
	'day-context.ts',
	'face.ts',
	'batch.ts',
	'window.ts',
	'gun.ts',
	'gun-check.ts',
] as const;
const rooms = { machines: path.resolve('machines'), built: path.resolve('node_modules/.cache/mutants') };

/** Every mutant of the machines, file after file. */
export async function allMutants(): Promise<Mutant[]> {
	const lists = await Promise.all(
		files.map(async file => mutantsOf(file, await readFile(path.join(rooms.machines, file), 'utf8'))),
	);
	return lists.flat();
}

const entry = `export { dayMachine as day } from './day.ts';
export { faceMachine as face, faceStops } from './face.ts';
export { stopsOf } from './stops.ts';
export { windowMachine as window } from './window.ts';
export { batchMachine as batch } from './batch.ts';
export { gunCheckMachine as gunCheck } from './gun-check.ts';`;

/** The machines with one mutant in them: a copy of their files with it, built and imported. */
export async function machinesWith(mutant: Mutant): Promise<Machines> {
	const folder = await mkdtemp(path.join(await made(rooms.built), 'one-'));
	try {
		await cp(rooms.machines, folder, { recursive: true });
		const file = path.join(folder, mutant.file);
		await writeFile(file, applied(await readFile(file, 'utf8'), mutant));
		const outfile = path.join(folder, 'machines.mjs');
		buildSync({
			stdin: { contents: entry, resolveDir: folder, loader: 'ts' },
			bundle: true,
			outfile,
			format: 'esm',
			platform: 'node',
			packages: 'external',
			logLevel: 'silent',
		});
		return bounded((await import(/* @vite-ignore */ pathToFileURL(outfile).href)) as Machines);
	} finally {
		await rm(folder, { recursive: true });
	}
}

type Guard = (...args: unknown[]) => boolean;

/** Machines whose guards give up where one event makes a chart go round and round. */
function bounded(machines: Machines): Machines {
	for (const { implementations } of [machines.day, machines.face, machines.batch, machines.gunCheck]) {
		const guards = implementations.guards as Record<string, Guard>;
		for (const [name, guard] of Object.entries(guards))
			guards[name] = (...args) => {
				if (++asked.guards > 5000) throw new WithoutEnd('one event makes it go round without end');
				return guard(...args);
			};
	}
	return machines;
}

const made = async (folder: string): Promise<string> => {
	await mkdir(folder, { recursive: true });
	return folder;
};

/** What caught a mutant: the property, the walk, and what it said; null where nothing did. */
export type Caught = { by: string; in: string; says: string };

const first = (proof: Proof, machines: Machines): Caught | null => {
	try {
		const [found] = proof.run(machines, true).found;
		if (!found) return null;
		return { by: `${found.property} ${properties[found.property]}`, in: proof.name, says: found.says };
	} catch (error) {
		const by = error instanceof WithoutEnd ? 'its states have no end' : 'the machine does not run';
		return { by, in: proof.name, says: String(error).split('\n')[0] ?? '' };
	}
};

/** Of each file's walks, and of the days: the one that caught last stands first, for it mostly catches the next mutant, too. */
const lastFirst = new Map<unknown, readonly Proof[]>();

/** Puts a mutant through its own chart's walks, then through the days, until one of them finds something. */
export async function caughtBy(mutant: Mutant, days: readonly Proof[] = smallDays): Promise<Caught | null> {
	const machines = await machinesWith(mutant);
	for (const walks of [ownProofs[mutant.file] ?? [], days]) {
		const ordered = lastFirst.get(walks) ?? walks;
		for (const proof of ordered) {
			const caught = first(proof, machines);
			if (!caught) continue;
			lastFirst.set(walks, [proof, ...ordered.filter(one => one !== proof)]);
			return caught;
		}
	}
	return null;
}
