import { materialsNext } from '../../../machines/day-context.ts';
import { inert } from '../../job/inert.ts';
import { sentence } from '../../words/say.ts';
import { contextOf, type Moment, materialOf, nextCoat } from '../moment.ts';
import { pending } from '../order.ts';
import { back, type Option, option, type Prompt, type Reply } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { type Corner, corners } from '../view.ts';
import { tapeWords } from './cans.ts';
import { seedOf } from './gun-items.ts';
import { ownWords } from './override.ts';
import { reading } from './reading.ts';

/** Questions that the list files word. */

/** Which mark goes on which can, of every material that is sprayed today. */
const marksOfToday = (moment: Moment): string[] => [
	...new Set(pending(moment).map(({ face }) => tapeWords(moment, nextCoat(moment, face).material))),
];

/** Corners of the answer that passes, from item to item: never one twice in a row, at first never that of BACK or DONE. */
const inTurn: readonly Corner[] = ['topRight', 'bottomRight', 'topLeft'];

/** The cartridges that the sheet names for what is sprayed next, said once a filter mask was read. */
function cartridgeLine(moment: Moment, face: string | null): string | null {
	const faces = face ? [face] : pending(moment).map(one => one.face);
	const named = faces.flatMap(id => {
		const gear = materialOf(moment, nextCoat(moment, id).material).breathing?.spraying;
		return gear?.gear === 'filter-mask' ? [inert(gear.cartridge)] : [];
	});
	return named.length > 0 ? `Cartridge: ${[...new Set(named)].join(', ')}, as its sheet names it.` : null;
}

/** With a filter mask on nobody breathes from a hose: the item of the supply behind it is answered with it. */
function noSupply(moment: Moment, code: string): DayEvent[] {
	const { check, opened } = moment.state.book;
	const next = check?.items[check.items.indexOf(code) + 1];
	const list = opened.lists.find(one => one.list === check?.list);
	const own = list?.items
		.find(item => item.code === next)
		?.answers?.find(one => one.passes === 'unless-isocyanate');
	if (!check || next !== 'supply' || !own) return [];
	return [
		{
			type: 'item.answered',
			check: check.no,
			list: check.list,
			item: next,
			answer: own.code,
			passed: true,
		},
	];
}

/**
 * Where the answers of an item stand. They change places from list to list and from item to item, so that whoever
 * presses without reading does not pass; while one question stands, nothing moves.
 */
export function cornersOf(moment: Moment, answers: readonly { passes: string }[]): Corner[] {
	const turn = seedOf(moment) + (moment.state.book.check?.no ?? 0);
	const place = contextOf(moment).check?.context.at ?? 0;
	const step = 1 + (Math.floor(turn / 2) % 2);
	const right = inTurn[((turn % 2) + place * step) % inTurn.length] ?? 'topRight';
	const rest = corners.filter(corner => corner !== right);
	const passing = answers.findIndex(({ passes }) => passes === 'yes');
	return rest.toSpliced(Math.max(0, passing), 0, right);
}

/** Why no filter mask will do: for a list, by everything that is sprayed next. */
function suppliedOnly(moment: Moment, face: string | null): string {
	const next = face === null ? materialsNext(contextOf(moment)) : [nextCoat(moment, face).material];
	return next.some(id => materialOf(moment, id).isocyanate)
		? 'Supplied air only for this material.'
		: 'Its sheet names no filter cartridge: supplied air only.';
}

/** A question of the list file, for the items that the shop words itself. */
export function itemPrompt(moment: Moment, code: string): Prompt | null {
	const { book } = moment.state;
	const { check } = book;
	const list = book.opened.lists.find(({ list: name }) => name === check?.list);
	const item = list?.items.find(one => one.code === code);
	if (!check || !item?.answers || item.say === null) return null;
	const isocyanate = contextOf(moment).check?.context.isocyanate === true;
	const answer = (given: string, passed: boolean): Reply => {
		const answered: DayEvent = {
			type: 'item.answered',
			check: check.no,
			list: check.list,
			item: code,
			answer: given,
			passed,
		};
		if (code !== 'mask')
			return { events: [answered], ...(!passed && { next: () => openItem(moment, code) }) };
		const wanted = isocyanate ? 'supplied-air' : ['supplied-air', 'filter-mask'];
		const notice = isocyanate
			? suppliedOnly(moment, check.face)
			: 'Breathing gear is wanted: supplied air or a filter mask.';
		return {
			events: [
				reading(moment, 'breathing', given, wanted),
				answered,
				...(passed && given === 'filter-mask' ? noSupply(moment, code) : []),
			],
			...(!passed && check.list !== 'gun-check' && { notice: () => notice }),
			...(passed && given === 'filter-mask' && { notice: () => cartridgeLine(moment, check.face) }),
		};
	};
	const places = cornersOf(moment, item.answers);
	const marks = check.list === 'before-spraying' && code === 'cans' ? marksOfToday(moment) : [];
	return {
		state: `${check.list === 'gun-check' ? 'gunCheck' : `list.${check.list}`}.${code}`,
		ask: code === 'mask' ? 'breathing' : 'item',
		say: item.say,
		lines: marks.length > 1 || !item.why ? marks : [...marks, item.why],
		options: item.answers.map(({ code: given, text, passes }, index) => ({
			code: given,
			text,
			at: places[index] ?? 'bottomRight',
			...answer(given, passes === 'yes' || (passes === 'unless-isocyanate' && !isocyanate)),
		})),
	};
}

/** An item answered as open: it is done after all, or passed over with a reason that is logged. */
function openItem(moment: Moment, code: string): Prompt {
	const { book } = moment.state;
	const item = book.opened.lists
		.find(({ list }) => list === book.check?.list)
		?.items.find(one => one.code === code);
	const over = (reason: string): DayEvent[] => [
		{ type: 'override.given', rule: code, reason, face: null, coat: null },
	];
	const say = sentence(`${code.replaceAll('-', ' ')}: not done. The list stays here.`);
	const reasons: Option[] = item?.overridable
		? [
				option('not-needed', 'NOT NEEDED HERE', ...over('not needed here')),
				option('checked-otherwise', 'SEEN TO OTHERWISE', ...over('seen to otherwise')),
				ownWords(code, say, over, 'ASK AGAIN'),
			]
		: [];
	return {
		state: `list.open.${code}`,
		ask: 'choose',
		say,
		lines: ['Put it right, then have it asked again.'],
		options: [back('ask-again', 'ASK AGAIN'), ...reasons],
		...(item?.overridable && { text: over }),
	};
}
