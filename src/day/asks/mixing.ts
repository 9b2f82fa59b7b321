import { batchInHand } from '../../../machines/day.ts';
import type { Component } from '../../job/job.ts';
import { cupReading } from '../../trade/cup.ts';
import { grams, levels, mixAmounts, rescaleForOver } from '../../trade/mix.ts';
import { fromUnit, inUnit, type Quantity } from '../../trade/quantity.ts';
import { entryUnit, format } from '../../trade/shown.ts';
import { inert, sentence } from '../../words/say.ts';
import { wantedFor } from '../allowed.ts';
import type { BatchBook } from '../book.ts';
import { contextOf, jobOf, type Moment, materialOf, nextCoat, settingsOf, unitsOf } from '../moment.ts';
import { paintShort_mL, restOfCoat } from '../next.ts';
import { type Option, opens, option, type Prompt, type Reply } from '../prompt.ts';
import type { DayEvent, EventOf } from '../records.ts';
import { canMarks } from './cans.ts';
import { letterOf } from './letters.ts';
import { reading } from './reading.ts';

/** Mixing: how much, which can is in the hand, which level is reached, and what a break in it means. */

/** Share mixed beyond what the faces want, for the gun, the strainer and the test patterns. Common practice, no source. */
const reserve = 0.1;

/** What the rest of the coat wants of a material, less what is mixed already, rounded up to 10 mL. */
export function amountToMix_mL(moment: Moment, face: string): number {
	const wanted = restOfCoat(moment, face).reduce((sum, id) => sum + wantedFor(moment, id).volume_mL, 0);
	return Math.max(50, Math.ceil((paintShort_mL(moment, face) + reserve * wanted) / 10) * 10);
}

export const nextLetter = ({ state }: Moment): string =>
	letterOf(state.book.lettersBefore + state.book.batches.size + 1);

const startBatch = (moment: Moment, face: string, make_mL: number): DayEvent => {
	const { material, kind } = nextCoat(moment, face);
	const { ratio, reducer_parts, coats } = materialOf(moment, material);
	return {
		type: 'batch.started',
		batch: nextLetter(moment),
		material,
		ratio: {
			base: ratio.base,
			hardener: ratio.hardener,
			reducer: coats[kind]?.reducer_parts ?? reducer_parts,
		},
		by: ratio.by,
		make_mL,
	};
};

/** A batch is wanted: how much, and begin. */
export function mixPrompt(moment: Moment, face: string, menu: readonly string[]): Prompt {
	const { material } = nextCoat(moment, face);
	const units = unitsOf(moment);
	const make_mL = amountToMix_mL(moment, face);
	const { unit, symbol, step } = entryUnit('volume', units);
	const name = inert(materialOf(moment, material).name);
	if (menu[0] === 'amount')
		return {
			state: 'mix.amount',
			ask: 'number',
			say: 'Batch: how much is to be mixed?',
			number: {
				of: 'volume',
				unit,
				min: round(inUnit(50, 'volume', symbol)),
				max: round(inUnit(20_000, 'volume', symbol)),
				step,
				reply: value => ({ events: [startBatch(moment, face, fromUnit(value, 'volume', symbol))] }),
			},
		};
	return {
		state: 'mix.begin',
		ask: 'choose',
		say: sentence(`${name}: mix ${format(make_mL, 'volume', units)}.`),
		lines: [`Tape the pot ${nextLetter(moment)}.`, 'Gloves on. Vapour and fire: as the data sheet says.'],
		options: [
			option('mix', 'MIX', startBatch(moment, face, make_mL)),
			opens('amount', 'ANOTHER AMOUNT', 'amount'),
		],
	};
}

const round = (value: number) => Number(value.toFixed(2));

/** Parts that the batch is made of, in the unit it is poured in. */
function wholeOf(moment: Moment, { ratio, by, make_mL, material }: BatchBook): Record<Component, number> {
	const { density_kg_per_L } = materialOf(moment, material);
	const amounts = mixAmounts({ ratio, make_mL, by, density_kg_per_L });
	if (by === 'weight' && density_kg_per_L) return grams(amounts, density_kg_per_L);
	return { base: amounts.base_mL, hardener: amounts.hardener_mL, reducer: amounts.reducer_mL };
}

const sum = (parts: Partial<Record<Component, number>>) =>
	Object.values(parts).reduce((total, part) => total + part, 0);

/** The level or weight that the pot should show once a component is in, going by what is in it already. */
export function wantedLevel(moment: Moment, batch: BatchBook, component: Component): number {
	const whole = wholeOf(moment, batch);
	const order: Component[] = ['base', 'hardener', 'reducer'];
	if (sum(batch.amounts) === 0) return levels(whole, [component])[0]?.level ?? 0;
	const { total, ratio } = rescaleForOver(batch.ratio, batch.amounts, sum(whole), order);
	const share = ratio[component] / sum(ratio);
	const missing = Math.max(0, share * total - (batch.amounts[component] ?? 0));
	return batch.level + missing;
}

const kindOf = (batch: BatchBook): Quantity => (batch.by === 'weight' ? 'mass' : 'volume');
const levelField = (batch: BatchBook, level: number) =>
	batch.by === 'weight' ? { mass_g: level } : { level_mL: level };

/** Wrong by less than the marks show is right. */
function compare(moment: Moment, level: number, wanted: number): 'short' | 'right' | 'over' {
	const slack = Math.max(settingsOf(moment).pourTolerance * wanted, 1);
	return level < wanted - slack ? 'short' : level > wanted + slack ? 'over' : 'right';
}

function numberOf(
	moment: Moment,
	batch: BatchBook,
	reply: (level: number) => Reply,
	least = 0,
): NonNullable<Prompt['number']> {
	const kind = kindOf(batch);
	const { unit, symbol, step } = entryUnit(kind, unitsOf(moment));
	return {
		of: batch.by === 'weight' ? 'mass_g' : 'level_mL',
		unit,
		min: Math.floor(inUnit(least, kind, symbol)),
		max: Math.ceil(inUnit(50_000, kind, symbol)),
		step,
		reply: value => reply(fromUnit(value, kind, symbol)),
	};
}

function canPrompt(moment: Moment, letter: string, batch: BatchBook, component: Component): Prompt {
	const { cans } = moment.state.book.opened;
	const right = cans.find(can => can.material === batch.material && can.component === component)?.mark ?? '';
	const own = cans.filter(can => can.material === batch.material).map(({ mark }) => mark);
	const marks = [...new Set([...own, ...cans.map(({ mark }) => mark), ...canMarks])].slice(0, 4).sort();
	const level = format(wantedLevel(moment, batch, component), kindOf(batch), unitsOf(moment));
	return {
		state: 'mix.can',
		ask: 'can',
		say: sentence(`${component}: take the can. Which mark is on it?`),
		lines: [`Then pour up to ${level}.`],
		options: marks.map(mark => ({
			code: mark,
			text: mark.toUpperCase(),
			reply: () => {
				const taken = reading(moment, 'can', mark, right, { batch: letter });
				return { events: [taken], ...(!taken.matched && { ui: { menu: ['wrong-can', mark] } }) };
			},
		})),
	};
}

function wrongCan(mark: string, component: Component): Prompt {
	return {
		state: 'mix.wrong-can',
		ask: 'do',
		say: sentence(`${mark}: wrong can. Stop. Nothing of it goes in.`),
		lines: [`The ${component} is due. Put the ${mark} can back.`],
		do: [{ code: 'put-back', to: mark }],
		options: [{ code: 'done', text: 'PUT BACK', reply: () => ({ ui: { menu: [] } }) }],
	};
}

function levelPrompt(moment: Moment, letter: string, batch: BatchBook, component: Component): Prompt {
	const wanted = wantedLevel(moment, batch, component);
	const { cans } = moment.state.book.opened;
	const can = cans.find(one => one.material === batch.material && one.component === component)?.mark ?? '';
	const shown = (level: number) => format(level, kindOf(batch), unitsOf(moment));
	const reached = (level: number): Reply => {
		const found = compare(moment, level, wanted);
		const poured: DayEvent = {
			type: 'batch.poured',
			batch: letter,
			component,
			can,
			...levelField(batch, level),
			...(batch.by === 'weight' ? { wanted_g: wanted } : { wanted_mL: wanted }),
			found,
		};
		const notices = {
			over: `Read ${shown(level)}. Wanted ${shown(wanted)}. Over: the rest is worked out again.`,
			short: `Read ${shown(level)}. Wanted ${shown(wanted)}. Pour on.`,
			right: null,
		};
		return { events: [poured], ui: { notice: notices[found] } };
	};
	return {
		state: `mix.level.${component}`,
		ask: 'number',
		say: sentence(`${component}: pour. Which level does the pot show?`),
		number: numberOf(moment, batch, reached, batch.level),
		options: [
			option('discard', 'DISCARD', { type: 'batch.discarded', batch: letter, why: 'level not known' }),
		],
	};
}

/** After a break: what does the pot show now, before anything is said of what comes next. */
function foundPrompt(moment: Moment, letter: string, batch: BatchBook): Prompt {
	const state = contextOf(moment).batches[letter];
	const step = state?.context.todo[0];
	const component: Component = step === 'hardener' || step === 'reducer' ? step : 'base';
	const canWasRead = state?.context.inHand === true;
	const slack = Math.max(settingsOf(moment).pourTolerance * batch.level, 1);
	const found = (level: number): EventOf<'batch.found'>['found'] => {
		if (Math.abs(level - batch.level) <= slack) return 'before';
		if (level < batch.level || !canWasRead) return 'unknown';
		return compare(moment, level, wantedLevel(moment, batch, component));
	};
	const record = (level: number | null): Reply => {
		const what = level === null ? 'unknown' : found(level);
		const onlyBase = what === 'unknown' && component === 'base' && canWasRead && !batch.hardened;
		const notice =
			what === 'unknown' && !onlyBase
				? `Batch ${letter}: contents unknown. Discard it; heat builds in it.`
				: null;
		return {
			events: [
				{
					type: 'batch.found',
					batch: letter,
					component,
					...(level === null ? {} : levelField(batch, level)),
					found: what,
				},
			],
			ui: { notice },
		};
	};
	return {
		state: 'mix.found',
		ask: 'number',
		say: 'Pot: look at it now. Which level does it show?',
		number: numberOf(moment, batch, record),
		options: [{ code: 'cannot-tell', text: 'CANNOT TELL', reply: () => record(null) }],
	};
}

/** Seconds in the flow cup, then the temperature of the paint. */
function cupPrompt(
	moment: Moment,
	letter: string,
	batch: BatchBook,
	numbers: readonly number[],
	menu: readonly string[],
): Prompt {
	const { cup } = materialOf(moment, batch.material);
	if (!cup) {
		return {
			state: 'mix.cup',
			ask: 'do',
			say: 'Flow cup: the data sheet gives no seconds.',
			options: [
				option('done', 'DONE', {
					type: 'cup.timed',
					batch: letter,
					cup: 'none',
					seconds: 0,
					tempC: 0,
					fits: true,
				}),
			],
		};
	}
	if (menu[0] === 'cup-off') {
		const [low, high] = cup.seconds;
		const over = (reason: string): DayEvent => ({
			type: 'override.given',
			rule: 'cup',
			reason,
			face: null,
			coat: null,
		});
		return {
			state: 'mix.cup.off',
			ask: 'choose',
			say: `Flow cup: ${batch.seconds} s. ${low} to ${high} s are wanted.`,
			lines: ['Reducer only as the data sheet allows. Warm it, stir it, time it again.'],
			options: [
				{ code: 'time-again', text: 'TIME AGAIN', reply: () => ({ ui: { menu: [] } }) },
				option('use-as-is', 'USE AS IT IS', over('used as it is')),
				option('discard', 'DISCARD', { type: 'batch.discarded', batch: letter, why: 'flow cup seconds off' }),
			],
			text: reason => ({ events: [over(reason)] }),
		};
	}
	const units = unitsOf(moment);
	if (numbers.length === 0)
		return {
			state: 'mix.cup.seconds',
			ask: 'number',
			say: `Flow cup ${inert(cup.kind)}: how many seconds?`,
			number: {
				of: 'seconds',
				unit: 's',
				min: 0,
				max: 300,
				step: 1,
				reply: value => ({ ui: { numbers: [value] } }),
			},
		};
	const { unit, symbol, step } = entryUnit('temperature', units);
	return {
		state: 'mix.cup.temperature',
		ask: 'number',
		say: 'Flow cup: how warm is the paint?',
		number: {
			of: 'tempC',
			unit,
			min: Math.floor(inUnit(-5, 'temperature', symbol)),
			max: Math.ceil(inUnit(60, 'temperature', symbol)),
			step,
			reply: value => {
				const seconds = numbers[0] ?? 0;
				const { fits } = cupReading(cup.seconds, seconds);
				const timed: DayEvent = {
					type: 'cup.timed',
					batch: letter,
					cup: cup.kind,
					seconds,
					tempC: fromUnit(value, 'temperature', symbol),
					fits,
				};
				return { events: [timed], ui: { menu: fits ? [] : ['cup-off'] } };
			},
		},
	};
}

/** The screen while a batch is mixed. */
export function mixingPrompt(moment: Moment, menu: readonly string[], numbers: readonly number[]): Prompt {
	const [letter, machine] = batchInHand(contextOf(moment)) ?? [];
	const batch = letter === undefined ? undefined : moment.state.book.batches.get(letter);
	if (letter === undefined || !machine || !batch) throw new Error('no batch is being mixed');
	const step = machine.context.todo[0];
	const component = step as Component;
	const mixing = moment.state.book.opened.lists.find(({ list }) => list === 'mixing');
	const worded = (code: string, standard: string) =>
		mixing?.items.find(item => item.code === code)?.say ?? standard;
	switch (machine.value) {
		case 'stir':
			return {
				state: 'mix.stir',
				ask: 'item',
				say: worded('stir', 'Base: stir it in its own can first.'),
				options: [option('done', 'STIRRED', { type: 'batch.stepped', batch: letter, step: 'stir' })],
			};
		case 'strain':
			return {
				state: 'mix.strain',
				ask: 'item',
				say: worded('strain', 'Batch: strain it into its taped pot.'),
				lines: [materialOf(moment, batch.material).strainer ?? ''],
				options: [option('done', 'STRAINED', { type: 'batch.stepped', batch: letter, step: 'strain' })],
			};
		case 'can':
			return menu[0] === 'wrong-can'
				? wrongCan(menu[1] ?? '', component)
				: canPrompt(moment, letter, batch, component);
		case 'level':
			return levelPrompt(moment, letter, batch, component);
		case 'adrift':
			return foundPrompt(moment, letter, batch);
		default:
			return cupPrompt(moment, letter, batch, numbers, menu);
	}
}

/** Fill the cup from a pot: as much as it takes. */
export function loadPrompt(moment: Moment, letter: string): Prompt {
	const { book } = moment.state;
	const batch = book.batches.get(letter);
	const room = jobOf(moment).gun.cup_mL - book.cup_mL;
	const volume_mL = Math.min(room, batch?.pot_mL ?? 0);
	const units = unitsOf(moment);
	const { gun } = jobOf(moment);
	const several = [...book.batches.values()].filter(({ pot_mL }) => pot_mL > 0).length > 1;
	const refill = contextOf(moment).cup.includes(letter);
	const loaded: Option[] =
		volume_mL > 0.5
			? [option('done', 'FILLED', { type: 'batch.loaded', batch: letter, volume_mL, refill })]
			: [option('done', 'EMPTIED', { type: 'cup.emptied', volume_mL: book.cup_mL, why: 'too little left' })];
	return {
		state: 'load',
		ask: 'do',
		say: `Cup: fill in ${format(volume_mL, 'volume', units)} from the ${several ? `pot taped ${letter}` : 'taped pot'}.`,
		lines: [
			`Gun: ${format(gun.pressure_kPa, 'pressure', units)} with the trigger pulled.`,
			'Tape the letter on the cup.',
		],
		do: [
			{
				code: 'fill-cup',
				to: round(inUnit(volume_mL, 'volume', entryUnit('volume', units).symbol)),
				unit: entryUnit('volume', units).unit,
			},
		],
		options: loaded,
	};
}

/** The cup must be emptied before anything else. */
export function emptyPrompt(moment: Moment, why: 'too-old' | 'other-material' | 'stood-too-long'): Prompt {
	const { cup } = contextOf(moment);
	const { cup_mL } = moment.state.book;
	const reasons = {
		'too-old': 'Cup: its batch is past its life. Empty, flush.',
		'other-material': 'Cup: other material is in it. Empty, flush.',
		'stood-too-long': 'Gun: paint stood too long in it. Empty, flush.',
	};
	const dead = why === 'too-old' ? cup : [];
	return {
		state: 'empty',
		ask: 'do',
		say: reasons[why],
		lines: [
			'Air off and line bled before the cap comes off.',
			'Waste builds heat: vented metal, outside, as the data sheet says.',
		],
		do: [{ code: 'empty-cup', to: 'empty' }],
		options: [
			option(
				'done',
				'EMPTY AND FLUSHED',
				{ type: 'cup.emptied', volume_mL: cup_mL, why },
				...dead.map((batch): DayEvent => ({ type: 'batch.discarded', batch, why: 'past its life' })),
			),
		],
	};
}
