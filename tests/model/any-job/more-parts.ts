import { type Chance, chanceOf } from '../keys/chance.ts';

/** Sheets by chance whose materials have an accelerator, a flattener or both, somewhere in their order of pouring. */

const beside = [['accelerator'], ['flattener'], ['accelerator', 'flattener']] as const;
const parts = ['0.25', '0.5', '1', '2'];

/** A step put in behind the hardener, before anything is strained or timed. */
function poured(order: string, step: string, chance: Chance): string {
	const steps = order.split(', ');
	const last = steps.findIndex(one => one === 'strain' || one === 'cup');
	const from = steps.indexOf('hardener') + 1;
	steps.splice(from + Math.floor(chance.next() * (last - from + 1)), 0, step);
	return steps.join(', ');
}

/** The same sheet, each material with parts more. */
export function withMoreParts(text: string, seed: number): string {
	const chance = chanceOf(seed * 32_452_843 + 3);
	return text.replace(
		/ratio: (\S+) by volume\n((?: {4}reducer: .*\n)?) {4}order: \[([^\]]*)\]/g,
		(_whole, ratio: string, reducer: string, order: string) => {
			const more = chance.pick(beside);
			const names = more.map(name => `:${chance.pick(parts)} ${name}`).join('');
			const steps = more.reduce((so: string, name) => poured(so, name, chance), order);
			return `ratio: ${ratio}${names} by volume\n${reducer}    order: [${steps}]`;
		},
	);
}
