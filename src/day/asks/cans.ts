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

/** A mark for each can of the day, neighbours unlike; those of accelerators and flatteners behind all others. */
export function cansOf({ materials }: Pick<Job, 'materials'>): Can[] {
	const all = Object.entries(materials);
	return [
		...all.flatMap(([id, material]) => three.flatMap(component => cansFor(id, component, material))),
		...all.flatMap(([material, { ratio }]) =>
			extras.filter(extra => ratio[extra]).map(component => ({ material, component })),
		),
	].map((can, count) => {
		const again = Math.floor(count / canMarks.length);
		const mark = canMarks[count % canMarks.length] ?? 'ring';
		return { ...can, mark: again === 0 ? mark : `${mark}-${again + 1}` };
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
