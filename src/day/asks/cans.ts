import { inert } from '../../job/inert.ts';
import type { Component, Job, Material } from '../../job/job.ts';
import { reducerAt } from '../../job/reducer-bands.ts';
import { extras } from '../../trade/mix.ts';
import type { Moment } from '../moment.ts';
import { jobOf, materialOf } from '../moment.ts';
import type { EventOf } from '../records.ts';

/** Marks unlike each other at arm's length. */
export const canMarks = ['ring', 'cross', 'bars', 'arrow', 'wave', 'steps', 'fork', 'hook', 'ladder', 'knot'];

type Can = EventOf<'day.opened'>['cans'][number];

const three = ['base', 'hardener', 'reducer'] as const;

/** The cans of a part of a material: one, or a reducer for each temperature. */
const cansFor = (material: string, component: Component, { reducers }: Pick<Material, 'reducers'>) =>
	component === 'reducer' && reducers
		? reducers.map(({ name }) => ({ material, component, name }))
		: [{ material, component }];

/** Marks by what is in the cans, as material, part and, of several reducers, its name. */
export type CanMarks = Readonly<Record<string, string>>;

const nameOf = ({ materials }: Pick<Job, 'materials'>, { material, component, name }: Omit<Can, 'mark'>) =>
	[materials[material]?.name ?? material, component, ...(name === undefined ? [] : [name])].join(', ');

/** The marks of a job's cans by what is in them. */
export const marksOfCans = (job: Pick<Job, 'materials'>, cans: readonly Can[]): CanMarks =>
	Object.fromEntries(cans.map(can => [nameOf(job, can), can.mark]));

const nthMark = (nth: number): string => {
	const mark = canMarks[nth % canMarks.length] ?? 'ring';
	return nth < canMarks.length ? mark : `${mark}-${Math.floor(nth / canMarks.length) + 1}`;
};

export const isCanMark = (value: unknown): value is string =>
	typeof value === 'string' && canMarks.includes(value.replace(/-\d{1,3}$/, ''));

/**
 * A mark for each can of the day, neighbours unlike; those of accelerators and flatteners behind all others.
 * @param kept marks of earlier jobs: a can keeps its own, and no other can gets it
 */
export function cansOf(job: Pick<Job, 'materials'>, kept: CanMarks = {}): Can[] {
	const all = Object.entries(job.materials);
	const taken = new Set(Object.values(kept));
	const given = new Set<string>();
	let nth = 0;
	const fresh = (): string => {
		while (taken.has(nthMark(nth))) nth++;
		return nthMark(nth++);
	};
	return [
		...all.flatMap(([id, material]) => three.flatMap(component => cansFor(id, component, material))),
		...all.flatMap(([material, { ratio }]) =>
			extras.filter(extra => ratio[extra]).map(component => ({ material, component })),
		),
	].map(can => {
		const own = kept[nameOf(job, can)];
		const mark = own !== undefined && !given.has(own) ? own : fresh();
		given.add(mark);
		return { ...can, mark };
	});
}

/** The mark of the can that a part of a material is poured from now; of several reducers that for the surface as read last. */
export function markFor(moment: Moment, material: string, component: Component): string {
	const which = component === 'reducer' ? bandNow(moment, material) : undefined;
	const cans = moment.state.book.opened.cans.filter(
		can => can.material === material && can.component === component,
	);
	return (cans.find(({ name }) => name === undefined || name === which) ?? cans[0])?.mark ?? '';
}

/** Which mark to tape on which can of a material: told before anything is poured, and read back at each pour. */
export function tapeWords(moment: Moment, material: string): string {
	const { order } = materialOf(moment, material);
	const cans = moment.state.book.opened.cans.filter(
		can => can.material === material && order.includes(can.component),
	);
	const which = reducerNow(moment, material);
	const told = cans.map(({ component, mark, name }) => {
		if (name !== undefined) return `${inert(name)} ${mark}`;
		return component === 'reducer' && which ? `${which} reducer ${mark}` : `${component} ${mark}`;
	});
	return cans.some(({ name }) => name !== undefined)
		? `Tape cans: ${told.join(', ')}.`
		: `Tape the cans: ${told.join(', ')}.`;
}

const bandNow = (moment: Moment, material: string): string | null | undefined =>
	reducerAt(
		materialOf(moment, material),
		moment.state.book.airs.at(-1)?.surfaceC ?? jobOf(moment).shop.air_C,
	);

/** The reducer that the surface picks, as it was read last; null: the material has one alone, or none for such a surface. */
export function reducerNow(moment: Moment, material: string): string | null {
	const name = bandNow(moment, material);
	return name == null ? null : inert(name);
}
