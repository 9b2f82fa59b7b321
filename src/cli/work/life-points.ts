import { timeAt } from '../../job/values.ts';
import {
	type ClockKind,
	type ClockRule,
	held,
	lasts_h,
	type ProcessClock,
	ruleAt,
	ruleOfThumb,
	usedUp,
} from '../../trade/process-clock.ts';
import { parseQuantity, type Quantity } from '../../trade/quantity.ts';
import { format } from '../../trade/shown.ts';
import type { TimeAt } from '../../trade/time.ts';
import type { Given, Worked } from './part.ts';

const listed = (text: string): string[] => text.split(',').map(one => one.trim());

function pointsOf(given: Given): TimeAt[] {
	return listed(given.text('points')).map(text => {
		const read = timeAt.safeParse(text);
		if (read.success) return read.data;
		throw new RangeError(`--points "${text}": ${read.error.issues[0]?.message}`);
	});
}

function kindOf(given: Given): ClockKind {
	const word = given.has('kind') ? given.text('kind') : 'end';
	if (word === 'end' || word === 'beginning') return word;
	throw new RangeError(`--kind "${word}" is unknown: end or beginning`);
}

/** One half of a spell, in the base unit of its kind. */
function half(text: string, spell: string, kind: Quantity): number {
	const read = parseQuantity(text, kind);
	if (read.ok) return read.value;
	throw new RangeError(`--readings "${spell}": ${read.message}`);
}

const spellsOf = (given: Given): { hours: number; C: number }[] =>
	listed(given.text('readings')).map(spell => {
		const [temp = '', time, ...more] = spell.split(/\s+for\s+/);
		if (time === undefined || more.length > 0)
			throw new RangeError(
				`--readings "${spell}": a temperature for a time is wanted, as in "20 °C for 6 h"`,
			);
		return { C: half(temp, spell, 'temperature'), hours: half(time, spell, 'time') / 3600 };
	});

const ways: Record<ClockRule, string> = {
	points: 'by the points of the data sheet',
	'nearest point': 'by the nearest point: no further is it carried that way',
	'rule of thumb': 'by a rule of thumb past the points',
};

/** A time by the points of a data sheet, and the share of it that some readings have used up. */
export function byPoints(given: Given): Worked {
	const kind = kindOf(given);
	const clock: ProcessClock = {
		kind,
		points: pointsOf(given),
		factorPer10C: given.numberOr('factor', ruleOfThumb[kind]),
	};
	const now_C = given.quantity('now', 'temperature');
	const hours = lasts_h(clock, now_C);
	const rule = ruleAt(clock, now_C);
	const spells = given.has('readings') ? spellsOf(given) : null;
	const used = spells && usedUp(clock, held(spells));
	const lasts = format(hours * 3600, 'time', given.units);
	return {
		keys: { life_min: hours * 60, rule, ...(used !== null && { used }) },
		lines: [
			`At ${format(now_C, 'temperature', given.units)} it takes about ${lasts}, ${ways[rule]}.`,
			...(used === null
				? []
				: [
						`Of it ${format(used, 'share', 'metric')} ${used < 1 ? 'is used up' : 'is used up: it is over'}.`,
					]),
			'A large or warm batch goes sooner; the data sheet rules.',
		],
		...(used !== null && used >= 1 && { status: 1 }),
	};
}
