import { isPour } from '../../../machines/batch.ts';
import type { Component } from '../../job/job.ts';
import type { BatchBook } from '../book.ts';
import { contextOf, type Moment } from '../moment.ts';
import { amountsAt } from '../pours.ts';
import { back, type Option, opens, option, type Prompt, type Reply } from '../prompt.ts';
import type { DayEvent, EventOf } from '../records.ts';
import { canMarks, markFor, reducerNow } from './cans.ts';
import { bondedPour } from './cautions.ts';
import { discardPrompt } from './discarding.ts';
import { askedAgain } from './doubted.ts';
import { seedOf } from './gun-items.ts';
import {
	asRead,
	compare,
	isSlip,
	levelField,
	levelTold,
	linesOf,
	littlePart,
	numberOf,
	pourSlack,
	slackOf,
	toMark,
	wantedLevel,
} from './pot-levels.ts';
import { reading } from './reading.ts';
import { rimPrompt } from './rim.ts';
import { whyAsked, worded } from './worded.ts';

/** Each pour: the can in the hand, then the level reached; after a break the level found. */

export function canPrompt(moment: Moment, letter: string, batch: BatchBook, component: Component): Prompt {
	const { cans } = moment.state.book.opened;
	const right = markFor(moment, batch.material, component);
	const own = cans.filter(can => can.material === batch.material).map(({ mark }) => mark);
	const others = [...new Set([...own, ...cans.map(({ mark }) => mark), ...canMarks])].filter(
		mark => mark !== right,
	);
	// Of five cans one is not asked after, another from batch to batch: the right one is not told by what is left out.
	const left = own.length > 4 ? (seedOf(moment) + moment.state.book.batches.size) % 4 : 3;
	const marks = [right, ...others.filter((_, nth) => nth !== left)].slice(0, 4).sort();
	const which = component === 'reducer' ? reducerNow(moment, batch.material) : null;
	return {
		state: 'mix.can',
		ask: 'can',
		say: worded(moment, 'mixing', 'can', 'can', { component }),
		lines: [
			...(which ? [`By the surface as read: the ${which} one.`] : []),
			...whyAsked(moment, 'mixing', 'can'),
		],
		options: marks.map((mark): Option => {
			const taken = reading(moment, 'can', mark, right, { batch: letter });
			return {
				...option(mark, mark.toUpperCase(), taken),
				...(!taken.matched && { next: () => wrongCan(moment, mark, right) }),
			};
		}),
	};
}

/** The mark of another can: both marks are shown, the can goes back, then a fresh reading. */
function wrongCan(moment: Moment, mark: string, right: string): Prompt {
	return {
		state: 'mix.wrong-can',
		ask: 'do',
		say: worded(moment, 'mixing', 'can', 'wrong', { mark }),
		lines: [`Read ${mark.toUpperCase()}. Wanted ${right.toUpperCase()}.`, `Put the ${mark} can back.`],
		do: [{ code: 'put-back', to: mark }],
		options: [back('done', 'PUT BACK')],
	};
}

const littleWords = 'It is little for these marks: at eye height, drop by drop.';
const coarseWords = 'These marks give no less: the rest is worked out again.';

/** How far to pour stands on the screen while it is poured; it is gone when the level is read. */
export function pourPrompt(moment: Moment, letter: string, batch: BatchBook, component: Component): Prompt {
	const told = levelTold(moment, batch, component);
	const level = toMark(moment, batch, told);
	const isGiven = compare(moment, batch, component, told) === 'right';
	const isLittle = littlePart(moment, batch)?.component === component;
	return {
		state: 'mix.pour',
		ask: 'do',
		say: worded(moment, 'mixing', 'level', 'pour', { component, amount: `${level.to} ${level.unit}` }),
		lines: [...(isGiven ? (isLittle ? [littleWords] : []) : [coarseWords]), bondedPour],
		do: [{ code: 'pour', ...level }],
		options: [opens('done', 'POURED', () => levelPrompt(moment, letter, batch, component))],
	};
}

function levelPrompt(moment: Moment, letter: string, batch: BatchBook, component: Component): Prompt {
	const wanted = wantedLevel(moment, batch, component);
	const can = markFor(moment, batch.material, component);
	const { to, unit } = toMark(moment, batch, levelTold(moment, batch, component));
	const reached = (level: number): Reply => {
		const found = compare(moment, batch, component, level);
		const poured: DayEvent = {
			type: 'batch.poured',
			batch: letter,
			component,
			can,
			...levelField(batch, level),
			...(batch.by === 'weight' ? { wanted_g: wanted } : { wanted_mL: wanted }),
			found,
		};
		const read = asRead(moment, batch, level);
		const wantedWords = `Wanted ${to} ${unit}.`;
		const notices = {
			over:
				read === to
					? coarseWords
					: `Read ${read} ${unit}. ${wantedWords} Over: the rest is worked out again.`,
			short: `Read ${read} ${unit}. ${wantedWords} Pour on.`,
			right: null,
		};
		const after = { events: [poured], notice: () => notices[found] };
		const amounts = amountsAt(batch, component, level);
		const rim =
			found === 'over'
				? rimPrompt(
						moment,
						letter,
						batch,
						amounts,
						`Read ${read} ${unit}. ${wantedWords}`,
						after,
						prompt.state,
					)
				: null;
		return rim ? { next: () => rim } : after;
	};
	const prompt: Prompt = {
		state: `mix.level.${component}`,
		ask: 'number',
		say: worded(moment, 'mixing', 'level', batch.by === 'weight' ? 'weight' : 'level', { component }),
		lines: whyAsked(moment, 'mixing', 'level'),
		number: numberOf(moment, batch, reached, batch.level),
		options: [opens('discard', 'DISCARD', () => discardPrompt(letter, 'level not known'))],
	};
	const number = askedAgain(prompt, value => isSlip(moment, batch, value, wanted));
	const turn = seedOf(moment) + moment.state.book.batches.size + Object.keys(batch.amounts).length;
	const marks = batch.by === 'volume' ? linesOf(moment, batch, component, turn % 2 === 0) : null;
	const { reply } = numberOf(moment, batch, reached, batch.level);
	if (marks === null) return number;
	return {
		...number,
		ask: 'level',
		// In their order: in the corner of POURED stands the lowest, which lets nothing pass; struck twice, it says so.
		options: [
			...marks.map((mark): Option => ({ code: String(mark), text: `${mark} ${unit}`, ...reply(mark) })),
			opens('between', 'BETWEEN', () => number),
		],
	};
}

/** After a break: what does the pot show now, before anything is said of what comes next. */
export function foundPrompt(moment: Moment, letter: string, batch: BatchBook): Prompt {
	const machine = contextOf(moment).batches[letter]?.context;
	const step = machine?.todo[0];
	const pours = isPour(step);
	const component = pours ? step : (machine?.poured.at(-1) ?? 'base');
	const slack = slackOf(moment, batch);
	const inHand = pours && machine?.inHand === true;
	const wanted = inHand ? wantedLevel(moment, batch, component) : batch.level;
	const most = inHand ? pourSlack(moment, batch, component, wanted) : slack;
	const found = (level: number): EventOf<'batch.found'>['found'] => {
		// Strainer and flow cup take some of what is mixed: less than before is no riddle there.
		if (level <= batch.level + most && (!pours || level >= batch.level - slack)) return 'before';
		if (level < batch.level || machine?.inHand !== true) return 'unknown';
		return compare(moment, batch, component, level);
	};
	const record = (level: number | null): EventOf<'batch.found'> => ({
		type: 'batch.found',
		batch: letter,
		component,
		...(level === null ? {} : levelField(batch, level)),
		found: level === null ? 'unknown' : found(level),
	});
	const prompt: Prompt = {
		state: 'mix.found',
		ask: 'number',
		say: worded(moment, 'mixing', 'level', batch.by === 'weight' ? 'found-weight' : 'found'),
		lines: whyAsked(moment, 'mixing', 'level'),
		number: numberOf(moment, batch, level => {
			const read = record(level);
			const amounts = amountsAt(batch, component, level);
			const words = `Read ${asRead(moment, batch, level)} ${toMark(moment, batch, level).unit}.`;
			const rim =
				read.found === 'over'
					? rimPrompt(moment, letter, batch, amounts, words, { events: [read] }, prompt.state)
					: null;
			return rim ? { next: () => rim } : { events: [read] };
		}),
		options: [option('cannot-tell', 'CANNOT TELL', record(null))],
	};
	return askedAgain(prompt, value => isSlip(moment, batch, value, batch.level, wanted));
}
