import {
	coverage,
	dryFilm,
	type FacePaint,
	paintForFace_mL,
	paintForFaceSpan_mL,
	wetFilm,
} from '../../trade/film.ts';
import { format, formatRange } from '../../trade/shown.ts';
import { filmMap, mapOptions } from './film-map.ts';
import { type Given, type Worked, workPart } from './part.ts';

/** The volume, and the span that what is not known exactly leaves. */
function volume(given: Given, face: FacePaint): { keys: Record<string, number>; line: string } {
	const volume_mL = paintForFace_mL(face);
	const show = (value: number) => format(value, 'volume', given.units);
	const loss = given.has('transfer')
		? `with ${format(1 - face.transfer, 'share', 'metric')} lost`
		: 'without any loss';
	const area = format(face.area_m2, 'area', given.units);
	if (!given.has('solids-off') && !given.has('transfer-off'))
		return { keys: { volume_mL }, line: `${area} takes ${show(volume_mL)} as sprayed, ${loss}.` };
	const span = paintForFaceSpan_mL({
		...face,
		solids_tolerance: given.quantityOr('solids-off', 'share', 0),
		transfer_tolerance: given.quantityOr('transfer-off', 'share', 0),
	});
	return {
		keys: { volume_mL, volume_low_mL: span.low, volume_high_mL: span.high },
		line: `${area} takes ${formatRange(span.low, span.high, 'volume', given.units)} as sprayed, ${loss}.`,
	};
}

function work(given: Given): Worked {
	if (given.has('dry') && given.has('wet'))
		throw new RangeError('--dry and --wet both say the film: leave one out');
	const solids = given.quantity('solids', 'share');
	const thinning = given.quantityOr('thin', 'share', 0);
	const dry_um = given.has('wet')
		? dryFilm({ wet_um: given.quantity('wet', 'film'), solids, thinning })
		: given.quantity('dry', 'film');
	const wet_um = wetFilm({ dry_um, solids, thinning });
	const coverage_m2_per_L = coverage({ dry_um, solids });
	const transfer = given.quantityOr('transfer', 'share', 1);
	const reducerShareOfMix = thinning / (1 + thinning);
	const area =
		given.has('area') && !given.has('map')
			? volume(given, {
					area_m2: given.quantity('area', 'area'),
					dry_um,
					solids,
					transfer,
					reducerShareOfMix,
				})
			: undefined;
	if (given.has('map')) return filmMap(given, wet_um);
	const film = (value: number) => format(value, 'film', given.units);
	const thinned = thinning > 0 ? `, thinned ${format(thinning, 'share', 'metric')}` : '';
	return {
		keys: { dry_um, wet_um, coverage_m2_per_L, ...area?.keys },
		lines: [
			`${film(dry_um)} dry is ${film(wet_um)} wet at ${format(solids, 'share', 'metric')} solids${thinned}.`,
			`Unthinned and without loss it covers ${format(coverage_m2_per_L, 'coverage', given.units)}.`,
			...(area ? [area.line] : []),
		],
	};
}

export const film = workPart({
	name: 'film',
	summary: 'wet film from dry and back, coverage, the paint that an area takes, the film of a face',
	usage: [
		'work film (--dry FILM | --wet FILM) --solids SHARE [--thin SHARE] [--area AREA] [--transfer SHARE]',
		'work film --map --size SIZE --stroke STROKE --dry FILM --solids SHARE --flow FLOW --fan LENGTH [--transfer SHARE]',
	],
	options: {
		dry: { type: 'string', value: 'FILM', says: 'dry film wanted' },
		wet: { type: 'string', value: 'FILM', says: 'or: wet film laid' },
		solids: { type: 'string', value: 'SHARE', says: 'volume solids before thinning' },
		thin: { type: 'string', value: 'SHARE', says: 'thinner as a share of the paint' },
		transfer: { type: 'string', value: 'SHARE', says: 'share that lands on the work' },
		area: {
			type: 'string',
			value: 'AREA',
			says: 'what is to be covered: a large flat face, its edges not counted',
		},
		'solids-off': { type: 'string', value: 'SHARE', says: 'what the solids may be off by' },
		'transfer-off': { type: 'string', value: 'SHARE', says: 'what the transfer may be off by' },
		...mapOptions,
	},
	examples: [
		'work film --dry "1.5 mil" --solids 42%',
		'work film --map --size "24 in x 20 in" --stroke "up and down" --dry "1.0 mil" --solids 40% --flow "7 fl oz/min" --fan "8 in" --transfer 65%',
		'work film --dry "50 um" --solids 45% --thin 10% --area "2 m2" --transfer 65% --transfer-off 10%',
	],
	work,
});
