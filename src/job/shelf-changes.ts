import { isDeepStrictEqual } from 'node:util';
import type { Job, NamedGun } from './job.ts';

/** What stands on the shelf otherwise than a job began with it. */

/** What a job has of the shelf: materials by their ids, guns by the names that its stages have for them. */
export type OfShelf = { materials: readonly string[]; guns: readonly string[] };

/** As an earlier day of the job had them. */
export type Had = Pick<Job, 'materials' | 'gun' | 'guns'>;

/** A thing of the shelf that is another now, and in which of its keys. */
export type Changed = { name: string; keys: string[]; now: unknown };

/** A gun by the name that stages have for it; a job that has one alone has it by any. */
export const gunHad = ({ gun, guns }: Had, name: string): NamedGun | undefined =>
	guns === undefined ? gun : guns[name];

/** The key of a sheet that a figure comes from: `wetEdge_s` from *wet edge*. */
const asWritten = (key: string): string =>
	key === 'clocks'
		? 'times'
		: key.replace(/_.*$/, '').replaceAll(/[A-Z]/g, letter => ` ${letter.toLowerCase()}`);

function keysOf(had: object, now: object): string[] {
	const [before, after] = [new Map(Object.entries(had)), new Map(Object.entries(now))];
	const keys = [...new Set([...before.keys(), ...after.keys()])].filter(
		key => key !== 'assumed' && !isDeepStrictEqual(before.get(key), after.get(key)),
	);
	return [...new Set(keys.map(asWritten))];
}

/** The things of the shelf that differ from what an earlier day of the job had; none of those that are new in it. */
export function changedOnShelf(had: Had, job: Job, { materials, guns }: OfShelf): Changed[] {
	const pairs = [
		...materials.map(id => ({ name: id, had: had.materials[id], now: job.materials[id] })),
		...guns.map(name => ({ name: `gun ${name}`, had: gunHad(had, name), now: gunHad(job, name) })),
	];
	return pairs.flatMap(({ name, had: before, now }) => {
		const keys = before && now ? keysOf(before, now) : [];
		return keys.length > 0 ? [{ name, keys, now }] : [];
	});
}
