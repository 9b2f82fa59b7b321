import { cupNamed, cupSeconds, cupViscosity, loose } from '../../trade/cup.ts';
import { format } from '../../trade/shown.ts';
import { type Given, type Worked, workPart } from './part.ts';

function work(given: Given): Worked {
	const kind = cupNamed(given.text('cup'));
	const seconds = /^[\d.\s]+$/.test(given.text('seconds'))
		? given.numberOr('seconds', 0)
		: given.quantity('seconds', 'time');
	const { viscosity_mm2_per_s, in_range, range_s } = cupViscosity(kind, seconds);
	const other = given.has('as') ? cupNamed(given.text('as')) : undefined;
	const otherSeconds = other && cupSeconds(other, viscosity_mm2_per_s);
	const [from, to] = range_s;
	return {
		keys: { viscosity_mm2_per_s, in_range, ...(other && { as: other, as_s: otherSeconds }) },
		lines: [
			`${seconds} s in ${kind} is about ${format(viscosity_mm2_per_s, 'viscosity', given.units)}.`,
			...(in_range ? [] : [`The cup is good from ${from} to ${to} s: take it as a hint only.`]),
			...(otherSeconds === undefined ? [] : [`In ${other} about ${Math.round(otherSeconds)} s. ${loose}`]),
		],
	};
}

export const cup = workPart({
	name: 'cup',
	summary: 'viscosity from the seconds that a cup takes',
	usage: ['work cup --cup CUP --seconds SECONDS [--as CUP]'],
	options: {
		cup: { type: 'string', value: 'CUP', says: 'ford1 to ford5, zahn1 to zahn5, iso3 to iso6, din4' },
		seconds: { type: 'string', value: 'SECONDS', says: 'until the stream breaks' },
		as: { type: 'string', value: 'CUP', says: 'seconds in another cup, loosely' },
	},
	examples: ['work cup --cup ford4 --seconds 36', 'work cup --cup zahn2 --seconds 25 --as iso4'],
	work,
});
