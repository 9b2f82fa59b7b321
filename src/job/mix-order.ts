import { extras, pourOrder } from '../trade/mix.ts';
import type { Source } from './document.ts';
import type { MixStep } from './job.ts';
import type { MaterialEntry } from './sheet.ts';
import { usual } from './usual.ts';

/** The order in which a material is mixed, as its data sheet has it. */

type Wanted = { step: MixStep; if: boolean; because: string };

/** It has every step that the material needs, each but the stirring once, none that it does not, and stirs first. */
export function checkOrder(source: Source, entry: MaterialEntry, reduced: boolean): void {
	const { order, standing, strainer = usual.strainer, cup = entry.values['flow cup'], ratio } = entry.values;
	if (!order || standing === undefined) return;
	const name = `${entry.name}, order`;
	const steps = order.map(({ value }) => value);
	const wanted: Wanted[] = [
		{ step: 'stir', if: true, because: 'the base is stirred in its can first' },
		{ step: 'base', if: true, because: 'a batch has base' },
		{ step: 'hardener', if: true, because: 'a batch has hardener' },
		{ step: 'reducer', if: reduced, because: reduced ? 'the material is reduced' : 'no reducer is given' },
		...extras.map(extra => ({
			step: extra,
			if: ratio?.[extra] !== undefined,
			because:
				ratio?.[extra] === undefined
					? `the ratio names none, as in "4:1:1:1 ${extra}"`
					: 'the ratio has a part of it',
		})),
		{
			step: 'stand',
			if: standing !== 0,
			because: standing !== 0 ? 'it has a standing time' : 'standing is none',
		},
		{
			step: 'strain',
			if: strainer !== 'none',
			because: strainer === 'none' ? 'strainer is none' : 'a strainer is given',
		},
		{ step: 'cup', if: cup !== undefined, because: cup ? 'cup seconds are given' : 'no cup is given' },
	];
	for (const { step, if: needed, because } of wanted) {
		const places = order.filter(({ value }) => value === step);
		if (needed && places.length === 0)
			source.fail(entry.place('order'), `${name}: ${step} is missing, but ${because}`);
		if (!needed && places[0]) source.fail(places[0].at, `${name}: ${step} is out of place: ${because}`);
		if (needed && places[1] && step !== 'stir')
			source.fail(places[1].at, `${name}: ${step} is written twice; take one out`);
	}
	const before = (early: MixStep, late: MixStep) => {
		const late_ = order[steps.indexOf(late)];
		if (late_ && steps.includes(early) && steps.indexOf(early) > steps.indexOf(late))
			source.fail(late_.at, `${name}: ${late} comes before ${early}; put ${early} first`);
	};
	before('stir', 'base');
	for (const early of ['base', 'hardener'] as const)
		for (const late of ['stand', 'strain', 'cup'] as const) before(early, late);
	for (const early of ['reducer', ...extras] as const)
		for (const late of ['strain', 'cup'] as const) before(early, late);
}

const pours: readonly (MixStep | undefined)[] = pourOrder;

/** Hardener that is not stirred in never cures: the pot is stirred after what was poured last, and after it has stood. */
export const stirred = (order: readonly MixStep[]): MixStep[] =>
	order.flatMap((step, index) => {
		const next = order[index + 1];
		const isDue = step === 'stand' || (pours.includes(step) && !pours.includes(next));
		return isDue && next !== 'stir' ? [step, 'stir'] : [step];
	});
