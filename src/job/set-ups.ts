import type { Source } from './document.ts';
import { written } from './fields.ts';
import { gunOf } from './gun.ts';
import type { GunEntry, gunShape, SetUpEntry } from './gun-keys.ts';
import type { CoatKind, Job, NamedGun } from './job.ts';
import type { StageRead } from './stages.ts';

/** The guns of a job: one a spray stage, each set as it was measured for that material. */

/** A gun as it is written, the file that it is written in, and the name that the sheet has for its own; `own`: what it has otherwise than the shelf. */
export type GunWritten = { entry: GunEntry; from: Source; called?: string; own?: GunEntry };

/** The set-up of a gun for some coats of a material: of their kind, else of the material. */
function setUpFor(
	{ values }: GunEntry,
	material: string,
	kinds: readonly CoatKind[],
): SetUpEntry | undefined {
	const its = values['set-ups']?.filter(one => one.values.for?.value === material) ?? [];
	const ofKind = its.find(({ values: { coat } }) => coat && kinds.every(kind => kind === coat));
	return ofKind ?? its.find(({ values: { coat } }) => !coat);
}

/** A gun with a set-up of it in the place of its own figures. */
function asSet(gun: GunEntry, { values: { pressure, fan, paint } }: SetUpEntry, own?: GunEntry): GunEntry {
	const set = { ...(pressure && { pressure }), ...(fan && fan), ...(paint && { flow: paint }) };
	return written<typeof gunShape>({ ...gun.values, ...set, ...own?.values }, gun.at, gun.name);
}

/** A gun in each of its set-ups; by its own figures where it has none. */
export const allSet = (gun: GunEntry): GunEntry[] =>
	gun.values['set-ups']?.map(setUp => asSet(gun, setUp)) ?? [gun];

type Guns = {
	/** Of the first spray stage. */
	gun: Job['gun'];
	/** Where there are several, by the name that stages have for them. */
	guns: Record<string, NamedGun> | undefined;
	/** Names of those that stand on the shelf. */
	ofShelf: string[];
	/** The gun of a stage, and its name where there are several. */
	at: (read: StageRead) => { gun: Job['gun']; name: string | undefined };
};

/**
 * The gun of each spray stage.
 * @param written by the names that stages call them by, and what stands under `gun` of the sheet, for stages that name none
 * @param had of the shelf by an earlier day, where that holds
 */
export function gunsOf(
	source: Source,
	stages: readonly StageRead[],
	{ named, own }: { named: ReadonlyMap<string, GunWritten>; own: GunWritten | undefined },
	had: (name: string) => NamedGun | undefined = () => undefined,
): Guns {
	type Made = { gun: NamedGun; text: string; name: string; called: string; isOfShelf: boolean };
	const made = new Map<string, Made>();
	const gunAt = ({ stage, gun: stageGun }: StageRead): Made | undefined => {
		const at = stageGun === undefined ? own : named.get(stageGun.value);
		const material = stage?.kind === 'coats' ? stage.material : '';
		const setUp = at && setUpFor(at.entry, material, stage?.kind === 'coats' ? stage.coats : []);
		const called = stageGun?.value ?? at?.called ?? 'the gun';
		const isOwn = stageGun === undefined && at?.own !== undefined;
		const key = `${called}\u0000${setUp?.at ?? ''}${isOwn}`;
		const known = made.get(key);
		if (known || !at) return known;
		const several = at.entry.values['set-ups']?.[1] !== undefined;
		const of = [called, ...(isOwn ? ['changed'] : []), ...(several ? [material, setUp?.values.coat] : [])];
		const name = of.filter(word => word !== undefined).join(', ');
		const isOfShelf = at.from !== source;
		const gun: NamedGun = (isOfShelf ? had(name) : undefined) ?? {
			...gunOf(at.from, setUp ? asSet(at.entry, setUp, at.own) : at.entry),
			...(at.entry.has('set-ups') && !setUp && { unmeasured: true }),
			...(at.own && { changed: Object.keys(at.own.values).filter(key => key !== 'from') }),
		};
		const one = { gun, text: JSON.stringify([called, gun]), name, called, isOfShelf };
		made.set(key, one);
		return one;
	};
	const sprays = stages.filter(({ stage }) => stage?.kind === 'coats');
	const all = sprays.flatMap(read => gunAt(read) ?? []);
	const isOne = new Set(all.map(({ text }) => text)).size <= 1;
	if (!isOne) for (const one of made.values()) one.gun = { ...one.gun, called: one.called };
	const gun = all[0]?.gun ?? gunOf(own?.from ?? source, own?.entry);
	return {
		gun,
		ofShelf: [...new Set(all.flatMap(one => (one.isOfShelf ? [one.name] : [])))],
		guns: isOne ? undefined : Object.fromEntries(all.map(one => [one.name, one.gun])),
		at: read => {
			const one = gunAt(read);
			return { gun: one?.gun ?? gun, name: isOne ? undefined : one?.name };
		},
	};
}
