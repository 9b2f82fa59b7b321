import { inert } from '../../job/inert.ts';
import { fromUnit, inUnit, type Quantity } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import { sentence } from '../../words/say.ts';
import { airNow } from '../allowed.ts';
import { judgedAir } from '../judged-air.ts';
import { laidOn, type Moment, nextCoat, unitsOf } from '../moment.ts';
import { pending } from '../order.ts';
import { opens, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { askedAgain } from './doubted.ts';
import { reasonPrompt } from './override.ts';

/** The air near the work: read, and against the limits of what is sprayed today. */

type AirAsked = {
	of: 'airC' | 'humidity' | 'surfaceC';
	kind: Quantity;
	say: string;
	range: [number, number];
};

const airAsked: readonly [AirAsked, ...AirAsked[]] = [
	{ of: 'airC', kind: 'temperature', say: 'Air near the work: how warm?', range: [-10, 60] },
	{ of: 'humidity', kind: 'share', say: 'Air near the work: what humidity?', range: [0, 1] },
	{ of: 'surfaceC', kind: 'temperature', say: 'Surface of the parts: how warm?', range: [-10, 70] },
];

function airRead(moment: Moment, [airC = 0, humidity = 0, surfaceC = 0]: readonly number[]): DayEvent {
	const materials = pending(moment).map(({ face }) => nextCoat(moment, face).material);
	const air = { airC, humidity, surfaceC };
	const { dewPointC, spray, reasons } = judgedAir(moment, air, materials);
	return { type: 'air.read', ...air, dewPointC, spray, reasons };
}

/** Drier air is seldom met. This project's own choice. */
const driest = 0.1;
/** Parts are seldom so far from the air beside them, K. This project's own choice. */
const apart_K = 15;

/** Whether what was read can hardly be meant, beside what was read before it; in the units of a sheet. */
const isOdd: Record<AirAsked['of'], (read: number, before: readonly number[]) => boolean> = {
	airC: () => false,
	humidity: share => share < driest,
	surfaceC: (surfaceC, [airC = surfaceC]) => Math.abs(surfaceC - airC) > apart_K,
};

/** @param numbers those read before, in the units of a sheet */
export function airPrompt(moment: Moment, numbers: readonly number[] = []): Prompt {
	const { of, kind, say, range } = airAsked[numbers.length] ?? airAsked[0];
	const { unit, symbol, step } = entryUnit(kind, unitsOf(moment));
	const prompt: Prompt = {
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
				return all.length < airAsked.length
					? { next: () => airPrompt(moment, all) }
					: { events: [airRead(moment, all)] };
			},
		},
	};
	return askedAgain(prompt, value => isOdd[of](fromUnit(value, kind, symbol), numbers));
}

/** The air says no: read it again, or go on under a reason that marks every face. */
export function stuckPrompt(moment: Moment, id: string): Prompt {
	const { air } = moment.state.book;
	const faces = pending(moment)
		.map(({ face }) => face)
		.filter(face => airNow(moment, face) === 'out');
	const own = air ? judgedAir(moment, air, [nextCoat(moment, id).material]).reasons : [];
	const reasons = own.length > 0 ? own : (air?.reasons ?? []);
	const over = (reason: string): DayEvent[] =>
		faces.map(face => ({
			type: 'override.given',
			rule: 'air',
			reason,
			face,
			coat: laidOn(moment, face) + 1,
		}));
	return {
		state: 'air.no',
		ask: 'choose',
		say: 'Air: outside the limits. Do not spray now.',
		lines: reasons.map(reason => sentence(inert(reason))),
		options: [
			opens('read-again', 'READ AGAIN', () => airPrompt(moment)),
			opens('go-on', 'GO ON WITH A REASON', () =>
				reasonPrompt('air', 'Air outside the limits: why go on?', over, 'DO NOT SPRAY'),
			),
		],
	};
}
