import type { Moment } from '../moment.ts';
import { materialOf } from '../moment.ts';
import type { EventOf } from '../records.ts';

/** Marks unlike each other at arm's length. */
export const canMarks = ['ring', 'cross', 'bars', 'arrow', 'wave', 'steps', 'fork', 'hook', 'ladder', 'knot'];

/** A mark for each can of the day, neighbours unlike. */
export const cansOf = (materials: readonly string[]): EventOf<'day.opened'>['cans'] =>
	materials.flatMap((material, place) =>
		(['base', 'hardener', 'reducer'] as const).map((component, index) => {
			const count = place * 3 + index;
			const again = Math.floor(count / canMarks.length);
			const mark = canMarks[count % canMarks.length] ?? 'ring';
			return { material, component, mark: again === 0 ? mark : `${mark}-${again + 1}` };
		}),
	);

/** Which mark to tape on which can of a material: told before anything is poured, and read back at each pour. */
export function tapeWords(moment: Moment, material: string): string {
	const { order } = materialOf(moment, material);
	const cans = moment.state.book.opened.cans.filter(
		can => can.material === material && order.includes(can.component),
	);
	return `Tape the cans: ${cans.map(({ component, mark }) => `${component} ${mark}`).join(', ')}.`;
}
