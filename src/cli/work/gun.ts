import { balanceOf, laidOut } from '../../film/balance.ts';
import { feather, flowCaught_mL_per_min, landedShare } from '../../film/measured.ts';
import { parseQuantity } from '../../trade/quantity.ts';
import { format } from '../../trade/shown.ts';
import { laidFor, mapOptions } from './film-map.ts';
import { type Given, type Worked, workPart } from './part.ts';

/** What a painter has measured of the gun. */

function caught(given: Given): Worked {
	const seconds = /^[\d.\s]+$/.test(given.text('seconds'))
		? given.numberOr('seconds', 0)
		: given.quantity('seconds', 'time');
	const flow_mL_per_min = flowCaught_mL_per_min(given.quantity('caught', 'volume'), seconds);
	return {
		keys: { flow_mL_per_min },
		lines: [
			`Flow: ${format(flow_mL_per_min, 'flow', given.units)}. In a sheet: "flow: … ± 3%".`,
			'Air off, trigger pulled, into a graduate; paint thinned as it is sprayed.',
		],
	};
}

/** Share of the landing stream that meets the face weighed over; null where its size or fan is not given. */
function captureOf(given: Given): number | null {
	if (!given.has('size') || !given.has('fan')) return null;
	const laid = laidOut(laidFor(given).shape, { ...laidFor(given).setting, transfer: 1 });
	return balanceOf(laid, 1, 1).capture;
}

function used(given: Given): Worked {
	const share = landedShare({
		area_m2: given.quantity('area', 'area'),
		dry_um: given.quantity('dry', 'film'),
		solids: given.quantity('solids', 'share'),
		used_mL: given.quantity('used', 'volume'),
	});
	if (share > 1)
		throw new RangeError(
			'more film lies there than the paint used can give: weigh the cup, read the film again',
		);
	const capture = captureOf(given);
	const said = (value: number) => format(value, 'share', 'metric');
	return {
		keys: {
			transfer_x_capture: share,
			...(capture !== null && { transfer: share / capture, capture }),
		},
		lines: [
			`${said(share)} of the paint used lies on the face.`,
			capture === null
				? 'With its --size, --stroke and --fan the transfer alone is told.'
				: `${said(capture)} of the stream meets such a face: the transfer is ${said(share / capture)}.`,
		],
	};
}

function stripes(given: Given): Worked {
	const text = given.text('stripes');
	const read = text.split(',').map(one => parseQuantity(one.trim(), 'length'));
	const [one, middle, other, ...more] = read.map(each => (each.ok ? each.value : Number.NaN));
	if (!one || !middle || !other || more.length > 0)
		throw new RangeError(
			`--stripes "${text}", column 1: three lengths are wanted, as in "20 mm, 41 mm, 20 mm"`,
		);
	const beta = feather([one, middle, other]);
	return {
		keys: { beta },
		lines: [
			`Feather: ${beta.toFixed(1)}, good to a half.`,
			'Fan flat and flooded: across. Cap turned, fan upright: along.',
		],
	};
}

function work(given: Given): Worked {
	const asked = (['caught', 'used', 'stripes'] as const).filter(name => given.has(name));
	const [one, more] = asked;
	if (!one || more) throw new RangeError('say one of --caught, --used and --stripes: what was measured');
	return { caught, used, stripes }[one](given);
}

export const gun = workPart({
	name: 'gun',
	summary: 'what was measured of the gun: flow, transfer, feather',
	usage: [
		'work gun --caught VOLUME --seconds SECONDS',
		'work gun --used VOLUME --area AREA --dry FILM --solids SHARE [--size SIZE --stroke STROKE --fan LENGTH]',
		'work gun --stripes "LENGTH, LENGTH, LENGTH"',
	],
	options: {
		caught: { type: 'string', value: 'VOLUME', says: 'paint caught in a graduate, air off, trigger pulled' },
		seconds: { type: 'string', value: 'SECONDS', says: 'so long' },
		used: { type: 'string', value: 'VOLUME', says: 'paint that one face took' },
		area: { type: 'string', value: 'AREA', says: 'of the face' },
		dry: { type: 'string', value: 'FILM', says: 'dry film on it, by gauge' },
		solids: { type: 'string', value: 'SHARE', says: 'volume solids as sprayed' },
		stripes: { type: 'string', value: 'LENGTHS', says: 'of a flooded pattern: half way, middle, half way' },
		size: mapOptions.size,
		stroke: mapOptions.stroke,
		fan: mapOptions.fan,
		depth: mapOptions.depth,
		feather: mapOptions.feather,
		overlap: mapOptions.overlap,
	},
	examples: [
		'work gun --caught "103.5 ml" --seconds 30',
		'work gun --used "61.8 ml" --area "5.194 ft2" --dry "1.0 mil" --solids 40% --size "22 in x 34 in" --stroke "side to side" --fan "8 in" --depth "2 in"',
		'work gun --stripes "20 mm, 41 mm, 20 mm"',
	],
	work,
});
