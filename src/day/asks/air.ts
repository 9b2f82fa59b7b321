import { inert } from '../../job/inert.ts';
import { airVerdict, dewPoint_C } from '../../trade/air.ts';
import { fromUnit, inUnit, type Quantity } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import { sentence } from '../../words/say.ts';
import { laidOn, type Moment, materialOf, nextCoat, settingsOf, unitsOf } from '../moment.ts';
import { pending } from '../next.ts';
import { opens, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { reasonPrompt } from './override.ts';

/** The air near the work: read, and against the limits of what is sprayed today. */

const airAsked: {
	of: 'airC' | 'humidity' | 'surfaceC';
	kind: Quantity;
	say: string;
	range: [number, number];
}[] = [
	{ of: 'airC', kind: 'temperature', say: 'Air near the work: how warm?', range: [-10, 60] },
	{ of: 'humidity', kind: 'share', say: 'Air near the work: what humidity?', range: [0, 1] },
	{ of: 'surfaceC', kind: 'temperature', say: 'Surface of the parts: how warm?', range: [-10, 70] },
];

/** Limits of the materials still to be sprayed today, the narrowest of each. */
function limitsOf(moment: Moment) {
	const ids = new Set(pending(moment).map(({ face }) => nextCoat(moment, face).material));
	const materials = [...ids].map(id => materialOf(moment, id).limits);
	return {
		air_C: [
			Math.max(...materials.map(({ air_C }) => air_C[0])),
			Math.min(...materials.map(({ air_C }) => air_C[1])),
		] as [number, number],
		humidity_max: Math.min(...materials.map(({ humidity_max }) => humidity_max)),
		margin_C: Math.max(settingsOf(moment).margin_C, ...materials.map(({ margin_C }) => margin_C)),
	};
}

function airRead(moment: Moment, [airC = 0, humidity = 0, surfaceC = 0]: readonly number[]): DayEvent {
	const limits = limitsOf(moment);
	try {
		const { dewPointC, spray, reasons } = airVerdict({ airC, humidity, surfaceC }, limits, unitsOf(moment));
		return { type: 'air.read', airC, humidity, surfaceC, dewPointC, spray, reasons };
	} catch (error) {
		if (!(error instanceof RangeError)) throw error;
		return {
			type: 'air.read',
			airC,
			humidity,
			surfaceC,
			dewPointC: dewPoint_C(airC, Math.max(0.01, humidity)),
			spray: false,
			reasons: [error.message],
		};
	}
}

export function airPrompt(moment: Moment, numbers: readonly number[]): Prompt {
	const { of, kind, say, range } = airAsked[numbers.length] ??
		airAsked[0] ?? {
			of: 'airC' as const,
			kind: 'temperature' as const,
			say: '',
			range: [0, 0] as [number, number],
		};
	const { unit, symbol, step } = entryUnit(kind, unitsOf(moment));
	return {
		state: `air.${of}`,
		ask: 'number',
		say,
		number: {
			of,
			unit,
			min: Math.ceil(inUnit(range[0], kind, symbol)),
			max: Math.floor(inUnit(range[1], kind, symbol)),
			step,
			reply: value => {
				const all = [...numbers, fromUnit(value, kind, symbol)];
				return all.length < airAsked.length ? { ui: { numbers: all } } : { events: [airRead(moment, all)] };
			},
		},
	};
}

/** The air says no: read it again, or go on under a reason that marks every face. */
export function stuckPrompt(moment: Moment, menu: readonly string[]): Prompt {
	const { air } = moment.state.book;
	const faces = pending(moment).map(({ face }) => face);
	const over = (reason: string): DayEvent[] =>
		faces.map(face => ({
			type: 'override.given',
			rule: 'air',
			reason,
			face,
			coat: laidOn(moment, face) + 1,
		}));
	if (menu[0] === 'reason') return reasonPrompt('air', 'Air outside the limits: why go on?', menu, over);
	return {
		state: 'air.no',
		ask: 'choose',
		say: 'Air: outside the limits. Do not spray now.',
		lines: (air?.reasons ?? []).map(reason => sentence(inert(reason))),
		options: [
			opens('read-again', 'READ AGAIN', 'read-again'),
			opens('go-on', 'GO ON WITH A REASON', 'reason'),
		],
	};
}
