import { format } from '../../trade/shown.ts';
import { potLife_h } from '../../trade/time.ts';
import { type Given, type Worked, workPart } from './part.ts';

function work(given: Given): Worked {
	const at_C = given.quantity('at', 'temperature');
	const now_C = given.quantity('now', 'temperature');
	const factor = given.numberOr('factor', 2);
	const hours = potLife_h({ at_C, hours: given.quantity('life', 'time') / 3600 }, now_C, factor);
	const temp = (value: number) => format(value, 'temperature', given.units);
	const life = format(hours * 3600, 'time', given.units);
	return {
		keys: { life_min: hours * 60 },
		lines: [
			`At ${temp(now_C)} it lasts about ${life}, by a factor of ${factor} per 10 °C from ${temp(at_C)}.`,
			'A large or warm batch goes sooner; the data sheet rules.',
		],
	};
}

export const life = workPart({
	name: 'life',
	summary: 'pot life at another temperature',
	usage: ['work life --life TIME --at TEMP --now TEMP [--factor NUMBER]'],
	options: {
		life: { type: 'string', value: 'TIME', says: "the data sheet's pot life" },
		at: { type: 'string', value: 'TEMP', says: 'the temperature it is given for' },
		now: { type: 'string', value: 'TEMP', says: 'the temperature of the mix' },
		factor: { type: 'string', value: 'NUMBER', says: 'per 10 °C, 1 to 4; 2 if left out' },
	},
	examples: ['work life --life "2 h" --at "70 °F" --now "88 °F"'],
	work,
});
