import { alongToAcross, bestOverlap, type Fan, layeredFilm, usualFan, variation } from '../../trade/fan.ts';
import { format } from '../../trade/shown.ts';
import { type Given, type Worked, workPart } from './part.ts';
import { columns, plot } from './plot.ts';

const strokes = 6;

/** Film across a panel of several strokes, drawn: what stripes look like before they are sprayed. */
export function stripes(beta1: number, overlap: number): string[] {
	const { film, mean } = layeredFilm(beta1, overlap, strokes);
	return [
		`Film across ${strokes} strokes at ${format(overlap, 'share', 'metric')} overlap, as a share of the mean:`,
		...plot(columns(film, 72), mean),
	];
}

function work(given: Given): Worked {
	const width_mm = given.quantity('width', 'length');
	const { feather, depthOfHeight } = usualFan;
	const fan: Fan = {
		width_mm,
		depth_mm: given.quantityOr('depth', 'length', depthOfHeight * width_mm),
		beta1: given.numberOr('beta1', feather),
		beta2: given.numberOr('beta2', feather),
	};
	const assumed = [
		...(given.has('depth') ? [] : [`depth ${format(fan.depth_mm, 'length', given.units)}`]),
		...(given.has('beta1') && given.has('beta2') ? [] : [`feather ${feather}`]),
	];
	const overlap = given.quantityOr('overlap', 'share', 0.5);
	const along_to_across_peak = alongToAcross(fan);
	const best_overlap = bestOverlap(fan.beta1);
	const variation_at_best = variation(fan.beta1, best_overlap);
	const variation_at_overlap = variation(fan.beta1, overlap);
	const share = (value: number) => format(value, 'share', 'metric');
	const spacing = format(fan.width_mm * (1 - best_overlap), 'length', given.units);
	return {
		keys: { best_overlap, variation_at_best, variation_at_overlap, along_to_across_peak, assumed },
		lines: [
			`Widest good spacing: ${share(best_overlap)} overlap, ${spacing} from stroke to stroke.`,
			`The film varies by ${share(variation_at_best)} there, by ${share(variation_at_overlap)} at ${share(overlap)} overlap.`,
			`With the fan along the stroke one line would get ${Number(along_to_across_peak.toPrecision(2))} times the film.`,
			...(assumed.length > 0 ? [`Usual, not measured: ${assumed.join(', ')}.`] : []),
			'',
			...stripes(fan.beta1, best_overlap),
			'',
			...stripes(fan.beta1, overlap),
		],
	};
}

export const fan = workPart({
	name: 'fan',
	summary: 'overlap, stripes, and what the fan lays when it lies along the stroke',
	usage: ['work fan --width LENGTH [--depth LENGTH] [--beta1 NUMBER] [--beta2 NUMBER] [--overlap SHARE]'],
	options: {
		width: { type: 'string', value: 'LENGTH', says: 'the fan from end to end on the work' },
		depth: { type: 'string', value: 'LENGTH', says: 'the fan across its middle; 0.3 of it if left out' },
		beta1: {
			type: 'string',
			value: 'NUMBER',
			says: 'feathering along its length, 1 (none) to 10; 3 if left out',
		},
		beta2: { type: 'string', value: 'NUMBER', says: 'feathering across its middle; 3 if left out' },
		overlap: { type: 'string', value: 'SHARE', says: 'overlap to compare; 50% if left out' },
	},
	examples: ['work fan --width "12 in" --depth "4 in" --beta1 2.3 --beta2 4.1 --overlap 50%'],
	work,
});
