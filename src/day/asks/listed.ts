import { materialsNext } from '../../../machines/day-context.ts';
import type { ListItem } from '../../job/checklist.ts';
import { inert } from '../../job/inert.ts';
import { sentence } from '../../words/say.ts';
import type { CheckBook } from '../book.ts';
import { contextOf, type Moment, materialOf, nextCoat } from '../moment.ts';
import { pending } from '../order.ts';
import { back, type Option, opens, option, type Prompt, type Reply } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { type Corner, corners } from '../view.ts';
import { tapeWords } from './cans.ts';
import { seedOf } from './gun-items.ts';
import { ownWords } from './override.ts';
import { reading } from './reading.ts';

/** Questions that the list files word. */

type ListAnswer = NonNullable<ListItem['answers']>[number];

/** An item of the list under way. */
const listed = ({ state: { book } }: Moment, code: string): ListItem | undefined =>
	book.opened.lists.find(({ list }) => list === book.check?.list)?.items.find(one => one.code === code);

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
	return named.length > 0 ? `Cartridge: ${[...new Set(named)].join(', ')}, by its sheet.` : null;
}

/**
 * With a filter mask on nobody breathes from a hose: the item of the supply behind it is answered with it.
 * @param gear the breathing gear read last
 */
function noSupply(moment: Moment, code: string, gear: string | undefined): DayEvent[] {
	const { check } = moment.state.book;
	const next = check?.items[check.items.indexOf(code) + 1];
	const answer = listed(moment, next ?? '')?.answers?.find(one => one.passes === 'unless-isocyanate');
	if (!check || gear !== 'filter-mask' || next !== 'supply' || !answer) return [];
	return [answered(check, next, answer.code, true)];
}

const answered = (check: CheckBook, item: string, answer: string, passed: boolean): DayEvent => ({
	...{ type: 'item.answered', check: check.no, list: check.list },
	...{ item, answer, passed },
});

/**
 * Where the answers of an item stand. They change places from list to list and from item to item, so that whoever
 * presses without reading does not pass; while one question stands, nothing moves.
 * @param ahead how many places on the answer stands that passes for some materials alone: never where the next item passes
 */
export function cornersOf(moment: Moment, answers: readonly { passes: string }[], ahead = 2): Corner[] {
	const turn = seedOf(moment) + (moment.state.book.check?.no ?? 0);
	const place = contextOf(moment).check?.context.at ?? 0;
	const step = 1 + (Math.floor(turn / 2) % 2);
	const turned = (on: number) => inTurn[((turn % 2) + (place + on) * step) % inTurn.length] ?? 'topRight';
	const passing = Math.max(
		0,
		answers.findIndex(({ passes }) => passes === 'yes'),
	);
	const other = answers.findIndex(({ passes }) => passes === 'unless-isocyanate');
	const rest = corners.filter(corner => corner !== turned(0) && (other < 0 || corner !== turned(ahead)));
	return answers.map((_, at) =>
		at === passing ? turned(0) : at === other ? turned(ahead) : (rest.shift() ?? 'bottomRight'),
	);
}

/** Why no filter mask will do: for a list, by everything that is sprayed next. */
function suppliedOnly(moment: Moment, face: string | null): string {
	const next = face === null ? materialsNext(contextOf(moment)) : [nextCoat(moment, face).material];
	return next.some(id => materialOf(moment, id).isocyanate)
		? 'Supplied air only for this material.'
		: 'Its sheet names no filter cartridge: supplied air only.';
}

/** Whether an answer closes its item in the check under way. */
const closesNow = (moment: Moment, { passes }: ListAnswer): boolean =>
	passes === 'yes' ||
	(passes === 'unless-isocyanate' && contextOf(moment).check?.context.isocyanate !== true);

type Answered = { events: DayEvent[] } & Pick<Extract<Reply, { events: DayEvent[] }>, 'notice' | 'next'>;

/** What an answer to an item of the list leads to. */
function replyTo(
	moment: Moment,
	check: CheckBook,
	item: ListItem,
	given: ListAnswer,
	gear?: string,
): Answered {
	const passed = closesNow(moment, given);
	const { code } = item;
	const own = answered(check, code, given.code, passed);
	if (code !== 'mask') {
		const supply = passed ? noSupply(moment, code, gear ?? moment.state.book.signs.mask) : [];
		return { events: [own, ...supply], ...(!passed && { next: () => openItem(moment, code) }) };
	}
	const isocyanate = contextOf(moment).check?.context.isocyanate === true;
	const wanted = isocyanate ? 'supplied-air' : ['supplied-air', 'filter-mask'];
	const notice = isocyanate
		? suppliedOnly(moment, check.face)
		: 'Breathing gear is wanted: supplied air or a filter mask.';
	return {
		events: [
			reading(moment, 'breathing', given.code, wanted),
			own,
			...(passed ? noSupply(moment, code, given.code) : []),
		],
		...(!passed && check.list !== 'gun-check' && { notice: () => notice }),
		...(passed && given.code === 'filter-mask' && { notice: () => cartridgeLine(moment, check.face) }),
	};
}

/** A question of the list file, for the items that the shop words itself. */
export function itemPrompt(moment: Moment, code: string): Prompt | null {
	const { check } = moment.state.book;
	const item = listed(moment, code);
	if (!check || !item?.answers || item.say === null) return null;
	const isBeforeSupply = check.items[check.items.indexOf(code) + 1] === 'supply';
	const places = cornersOf(moment, item.answers, isBeforeSupply ? 1 : 2);
	const marks = check.list === 'before-spraying' && code === 'cans' ? marksOfToday(moment) : [];
	const single: Prompt = {
		state: `${check.list === 'gun-check' ? 'gunCheck' : `list.${check.list}`}.${code}`,
		ask: code === 'mask' ? 'breathing' : 'item',
		say: item.say,
		lines: marks.length > 1 || !item.why ? marks : [...marks, item.why],
		options: item.answers.map((given, index) => ({
			...{ code: given.code, text: given.text, at: places[index] ?? 'bottomRight' },
			...replyTo(moment, check, item, given),
		})),
	};
	return pairPrompt(moment, check, item, single) ?? single;
}

/** Most ways in which both items of a pair pass: two corners are left for the one or the other that does not. */
const mostPassing = 2;

/**
 * Two looks at one place by one key: corners that say both answers, and for each item one that does not pass, which asks
 * each by itself. Of several signs of the second item the one stands there that was read last.
 * @param single the first of the two by itself
 * @returns null where no item is asked together with it, or the other does not follow on it
 */
function pairPrompt(moment: Moment, check: CheckBook, item: ListItem, single: Prompt): Prompt | null {
	const { signs } = moment.state.book;
	const other = listed(moment, item.pair ?? '');
	const isNext = other && check.items[check.items.indexOf(item.code) + 1] === other.code;
	if (!isNext || !other.answers || !other.say || check.attempts > 0) return null;
	const passing = (one: ListItem) => (one.answers ?? []).filter(({ passes }) => passes !== 'no');
	const firsts = passing(item);
	const sign = passing(other).find(({ code }) => code === signs[other.code]) ?? passing(other)[0];
	const seconds = firsts.length * passing(other).length > mostPassing && sign ? [sign] : passing(other);
	const shown = ({ text, short = text }: ListAnswer) => short;
	const both = firsts.flatMap(one =>
		seconds.map(two => {
			const first = replyTo(moment, check, item, one);
			const second = replyTo(moment, check, other, two, one.code);
			return {
				...{ code: `${one.code}+${two.code}`, text: `${shown(one)}, ${shown(two)}`, passes: one.passes },
				...(closesNow(moment, one) ? { ...first, events: [...first.events, ...second.events] } : first),
			};
		}),
	);
	const apart = [item, other].flatMap(({ answers }) => {
		const open = answers?.find(({ passes }) => passes === 'no');
		return open ? [{ ...opens(open.code, shown(open), () => single), passes: open.passes }] : [];
	});
	const answers = [...both, ...apart];
	if (answers.length > corners.length) return null;
	const places = cornersOf(moment, answers, 1);
	return {
		...single,
		ask: 'pair',
		/** No room is left for the reasons in the smallest window: each stands where its item is asked by itself. */
		lines: [other.say],
		options: answers.map(({ passes: _, ...one }, index) => ({ ...one, at: places[index] ?? 'bottomRight' })),
	};
}

/** An item answered as open: it is done after all, or passed over with a reason that is logged. */
function openItem(moment: Moment, code: string): Prompt {
	const item = listed(moment, code);
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
