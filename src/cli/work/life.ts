import { lasts_h, type ProcessClock, ruleAt, ruleOfThumb } from '../../trade/process-clock.ts';
import { format } from '../../trade/shown.ts';
import { byPoints } from './life-points.ts';
import { type Given, type Worked, workPart } from './part.ts';

/** By one time, never more than that, and a factor where it is warmer; beside it as careful as a day goes by it. */
function byFactor(given: Given): Worked {
	const point = { at_C: given.quantity('at', 'temperature'), hours: given.quantity('life', 'time') / 3600 };
	const now_C = given.quantity('now', 'temperature');
	const factor = given.numberOr('factor', 2);
	const end: ProcessClock = { kind: 'end', points: [point] };
	const hours = lasts_h({ ...end, factorPer10C: factor }, now_C);
	const careful_h = lasts_h(end, now_C);
	const isCarried = ruleAt(end, now_C) === 'rule of thumb';
	const temp = (value: number) => format(value, 'temperature', given.units);
	const time = (value: number) => format(value * 3600, 'time', given.units);
	return {
		keys: { life_min: hours * 60, careful_min: careful_h * 60 },
		lines: [
			`At ${temp(now_C)} it lasts about ${time(hours)}, ${isCarried ? `by a factor of ${factor} per 10 °C from ${temp(point.at_C)}` : 'as its data sheet says'}.`,
			'Never more than its data sheet says: no cold makes it last longer.',
			`A day goes by ${time(careful_h)}, a third for each 10 °C warmer, unless its sheet writes a "time factor".`,
			'A large or warm batch goes sooner; the data sheet rules.',
		],
	};
}

function work(given: Given): Worked {
	if (!given.has('points')) {
		for (const name of ['kind', 'readings'])
			if (given.has(name)) throw new RangeError(`--${name} needs --points`);
		return byFactor(given);
	}
	for (const name of ['life', 'at'])
		if (given.has(name)) throw new RangeError(`--points and --${name}: leave one out`);
	return byPoints(given);
}

export const life = workPart({
	name: 'life',
	summary: 'pot life, or another time of a data sheet, at another temperature',
	usage: [
		'work life --life TIME --at TEMP --now TEMP [--factor NUMBER]',
		'work life --points LIST --now TEMP [--kind end|beginning] [--readings LIST] [--factor NUMBER]',
	],
	options: {
		life: { type: 'string', value: 'TIME', says: "the data sheet's pot life" },
		at: { type: 'string', value: 'TEMP', says: 'the temperature it is given for' },
		points: { type: 'string', value: 'LIST', says: 'times at temperatures, as the data sheet has them' },
		now: { type: 'string', value: 'TEMP', says: 'the temperature of the mix, or of the surface' },
		kind: {
			type: 'string',
			value: 'end|beginning',
			says: 'what must not have passed, or what must have come; end if left out',
		},
		readings: { type: 'string', value: 'LIST', says: 'temperatures held, one after the other' },
		factor: {
			type: 'string',
			value: 'NUMBER',
			says: `per 10 °C, 1 to 4; left out 2, or outside points ${ruleOfThumb.beginning} for a beginning and ${ruleOfThumb.end} for an end`,
		},
	},
	examples: [
		'work life --life "2 h" --at "70 °F" --now "88 °F"',
		'work life --points "48 h at 7 °C, 24 h at 20 °C, 8 h at 30 °C" --now "25 °C" --readings "20 °C for 6 h, 30 °C for 2 h"',
	],
	work,
});
