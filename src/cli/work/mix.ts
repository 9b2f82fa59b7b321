import { paintForFace_mL } from '../../trade/film.ts';
import { roundToMarks } from '../../trade/marks.ts';
import {
	type Amounts,
	amountOf,
	extras,
	grams,
	levels,
	levels_mL,
	mixAmounts,
	type Ratio,
	reducerParts,
	reducerShareOfMix,
} from '../../trade/mix.ts';
import { inUnit, unitWritten } from '../../trade/quantity.ts';
import { readRatio, type WrittenRatio } from '../../trade/ratio.ts';
import { format, formatIn, unitFor } from '../../trade/shown.ts';
import { type Given, type Worked, workPart } from './part.ts';

/** `2:1:1` or `8:2:2:1 accelerator` as parts; `what` is said where it is neither. */
function partsOf(given: Given, name: string, what?: string): WrittenRatio {
	const text = given.text(name);
	const read = readRatio(text);
	if (!('wanted' in read)) return read;
	throw new RangeError(`--${name} "${text}", column ${read.column}: ${what ?? read.wanted}`);
}

function ratioOf(given: Given): Ratio {
	const parts = partsOf(given, 'ratio');
	if (!given.has('reduce')) return { ...parts, reducer: parts.reducer ?? 0 };
	if (parts.reducer !== null)
		throw new RangeError('--reduce and a third part in --ratio both say how much reducer: leave one out');
	return { ...parts, reducer: reducerParts(given.quantity('reduce', 'share'), parts) };
}

function densitiesOf(given: Given, ratio: Ratio): Ratio | null {
	if (!given.has('density')) return null;
	const what = 'kg/L of base:hardener:reducer, as in "1.3:1.0:0.87", what goes beside them by name';
	const { reducer, ...others } = partsOf(given, 'density', what);
	const lacks = [
		...(reducer === null && ratio.reducer > 0 ? ['reducer'] : []),
		...extras.filter(extra => ratio[extra] && others[extra] === undefined),
	];
	if (lacks.length > 0) throw new RangeError(`--density lacks the ${lacks.join(', ')}: ${what}`);
	return { ...others, reducer: reducer ?? 1 };
}

/** The amount asked for, or what a face takes of the reduced mix. */
function amountToMake(given: Given, ratio: Ratio): number {
	if (given.has('make') || !given.has('area')) return given.quantity('make', 'volume');
	return paintForFace_mL({
		area_m2: given.quantity('area', 'area'),
		dry_um: given.quantity('dry', 'film'),
		solids: given.quantity('solids', 'share'),
		transfer: given.quantity('transfer', 'share'),
		reducerShareOfMix: reducerShareOfMix(ratio),
	});
}

/** How amounts in one cup are said: in the unit of its marks, and as finely, else in that of the smallest pour. */
function saysOf(amounts: Amounts, given: Given): (value_mL: number) => string {
	if (!given.has('mark')) {
		const pours = levels_mL(amounts).map(({ component }) => amountOf(amounts, component));
		const unit = unitFor(pours, 'volume', given.units);
		return value => formatIn(value, 'volume', unit);
	}
	const mark_mL = given.quantity('mark', 'volume');
	const unit = unitWritten(given.text('mark'), 'volume');
	const [, decimals = ''] = String(inUnit(mark_mL, 'volume', unit)).split('.');
	return value => formatIn(value, 'volume', unit, decimals.length);
}

/** A mix of which a part is off by so much is none. This project's own choice. */
const absurd = 0.25;

function marked(
	amounts: Amounts,
	given: Given,
	show: (value_mL: number) => string,
): { keys: Record<string, unknown>; line: string } {
	const {
		levels: rounded,
		hardenerError,
		reducerError,
		extraErrors,
	} = roundToMarks(amounts, given.quantity('mark', 'volume'));
	const errors = Object.entries({ reducer: reducerError, ...extraErrors });
	if (![hardenerError, ...errors.map(([, error]) => error)].every(error => Math.abs(error) < absurd))
		throw new RangeError(
			`--mark "${given.text('mark')}": too coarse for this batch, a part would be off by a quarter or more: make more, or weigh it`,
		);
	const said = rounded.map(({ component, level }) => `${component} to ${show(level)}`);
	const off = (error: number) => `${error > 0 ? '+' : ''}${format(error, 'share', 'metric')}`;
	return {
		keys: {
			marks_mL: Object.fromEntries(rounded.map(({ component, level }) => [component, level])),
			hardener_error: hardenerError,
			...Object.fromEntries(errors.map(([part, error]) => [`${part}_error`, error])),
		},
		line: `On the marks: ${said.join(', ')}. Hardener is off by ${off(hardenerError)}, ${errors.map(([part, error]) => `${part} by ${off(error)}`).join(', ')}.`,
	};
}

/** The reducer as a data sheet has it, whatever the parts of the ratio are. */
function reducerSaid({ base_mL, hardener_mL, reducer_mL }: Amounts): string[] {
	const share = format(reducer_mL / (base_mL + hardener_mL), 'share', 'metric');
	return reducer_mL > 0 ? [`Reducer: ${share} of base and hardener, by volume.`] : [];
}

function weighed(amounts: Amounts, densities: Ratio): { keys: Record<string, unknown>; line: string } {
	const mass = grams(amounts, densities);
	const said = levels(mass).map(
		({ component, level }) => `${component} to ${format(level, 'mass', 'metric')}`,
	);
	return {
		keys: Object.fromEntries(Object.entries(mass).map(([component, grams]) => [`${component}_g`, grams])),
		line: `On the scale, one onto the other: ${said.join(', ')}.`,
	};
}

function work(given: Given): Worked {
	const ratio = ratioOf(given);
	const by = given.has('by') ? given.text('by') : 'volume';
	if (by !== 'volume' && by !== 'weight')
		throw new RangeError(`--by "${by}", column 1: "volume" or "weight" is wanted`);
	const density = densitiesOf(given, ratio);
	const amounts = mixAmounts({ ratio, make_mL: amountToMake(given, ratio), by, density_kg_per_L: density });
	const show = saysOf(amounts, given);
	const poured = levels_mL(amounts);
	const each = poured.map(({ component }) => `${component} ${show(amountOf(amounts, component))}`);
	const onto = poured.map(({ component, level }) => `${component} to ${show(level)}`);
	const extras = [
		...(density ? [weighed(amounts, density)] : []),
		...(given.has('mark') ? [marked(amounts, given, show)] : []),
	];
	return {
		keys: {
			...amounts,
			levels_mL: Object.fromEntries(poured.map(({ component, level }) => [component, level])),
			...Object.assign({}, ...extras.map(extra => extra.keys)),
		},
		lines: [
			`For ${show(amounts.total_mL)}: ${each.join(', ')}.`,
			`In the cup, one onto the other: ${onto.join(', ')}.`,
			...reducerSaid(amounts),
			...extras.map(extra => extra.line),
		],
	};
}

export const mix = workPart({
	name: 'mix',
	summary: 'how much of each can makes a batch, and the levels in the cup',
	usage: [
		'work mix --ratio 2:1:1 --make AMOUNT',
		'work mix --ratio 1:1 --reduce 15% --area AREA --dry FILM --solids SHARE --transfer SHARE',
	],
	options: {
		ratio: {
			type: 'string',
			value: 'B:H[:R]',
			says: 'parts of base, hardener and reducer; behind them others by name, as in 8:2:2:1 accelerator',
		},
		reduce: { type: 'string', value: 'SHARE', says: 'reducer as a share of base and hardener' },
		make: { type: 'string', value: 'VOLUME', says: 'the whole batch, reducer and all' },
		by: { type: 'string', value: 'volume|weight', says: 'what the parts of the ratio are' },
		density: { type: 'string', value: 'B:H[:R]', says: 'kg/L of each can; gives the weights too' },
		mark: { type: 'string', value: 'VOLUME', says: 'round levels to the marks of the cup' },
		area: { type: 'string', value: 'AREA', says: 'instead of --make: what is to be covered' },
		dry: { type: 'string', value: 'FILM', says: 'with --area: dry film of one coat' },
		solids: { type: 'string', value: 'SHARE', says: 'with --area: volume solids before reducing' },
		transfer: { type: 'string', value: 'SHARE', says: 'with --area: share that lands on the work' },
	},
	examples: [
		'work mix --ratio 2:1:1 --make "16 fl oz"',
		'work mix --ratio 1:1 --reduce 15% --make "1 L" --mark "25 mL"',
		'work mix --ratio "8:2:2:1 accelerator" --make "650 mL"',
	],
	work,
});
