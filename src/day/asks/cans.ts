import { inert } from '../../job/inert.ts';
import type { Job } from '../../job/job.ts';
import { reducerAt } from '../../job/reducer-bands.ts';
import { extras } from '../../trade/mix.ts';
import type { Moment } from '../moment.ts';
import { jobOf, materialOf } from '../moment.ts';
import type { EventOf } from '../records.ts';

/** Marks unlike each other at arm's length. */
export const canMarks = ['ring', 'cross', 'bars', 'arrow', 'wave', 'steps', 'fork', 'hook', 'ladder', 'knot'];

/** A mark for each can of the day, neighbours unlike; those of accelerators and flatteners behind all others. */
export function cansOf({ materials }: Pick<Job, 'materials'>): EventOf<'day.opened'>['cans'] {
	const all = Object.entries(materials);
	const three = ['base', 'hardener', 'reducer'] as const;
	return [
		...all.flatMap(([material]) => three.map(component => ({ material, component }))),
		...all.flatMap(([material, { ratio }]) =>
			extras.filter(extra => ratio[extra]).map(component => ({ material, component })),
		),
	].map((can, count) => {
		const again = Math.floor(count / canMarks.length);
		const mark = canMarks[count % canMarks.length] ?? 'ring';
		return { ...can, mark: again === 0 ? mark : `${mark}-${again + 1}` };
	});
}

/** Which mark to tape on which can of a material: told before anything is poured, and read back at each pour. */
export function tapeWords(moment: Moment, material: string): string {
	const { order } = materialOf(moment, material);
	const cans = moment.state.book.opened.cans.filter(
		can => can.material === material && order.includes(can.component),
	);
	const which = reducerNow(moment, material);
	const called = (component: string) => (component === 'reducer' && which ? `${which} reducer` : component);
	return `Tape the cans: ${cans.map(({ component, mark }) => `${called(component)} ${mark}`).join(', ')}.`;
}

/** The reducer that the surface picks, as it was read last; null: the material has one alone, or none for such a surface. */
export const reducerNow = (moment: Moment, material: string): string | null => {
	const surface_C = moment.state.book.airs.at(-1)?.surfaceC ?? jobOf(moment).shop.air_C;
	const name = reducerAt(materialOf(moment, material), surface_C);
	return name == null ? null : inert(name);
};
