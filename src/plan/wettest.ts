import type { Word } from './blocks.ts';
import { layer, none, type Way } from './lay.ts';

/**
 * The order of parts, the same in every coat, that needs the fewest turns when each part is finished before the
 * next is begun.
 *
 * For each part and coat only its words matter. A row of parts is built up one at a time; what its rest costs
 * depends on which parts are left, the gun state at the end of each coat so far, and the state each coat began in
 * (for the change across the coat boundary). Parts with the same words in every coat are alike, so only how many
 * of each sort are left counts. Of the ways to lay the next part only those with the fewest turns are followed,
 * because another end state saves one turn at most; the first part of a coat is tried with all. All such states
 * of one length stand side by side; the cheapest way to each is kept, then the one nearest the wanted order.
 * That is exact; beyond `widest` states of one length the dearest are dropped, and `exact` says so.
 */

/** A group of parts with its words for each coat (none where the coat leaves it out). */
export type Member = { words: readonly (readonly Word[])[]; before: readonly number[]; rank: number };

/** `used` counts the members taken of each sort, in bit fields; `lex` is the state's place in the wanted order. */
type State = Way & {
	used: bigint;
	size: number;
	last: Placed | null;
	lex: number;
	rank: number;
};
type Placed = { members: readonly number[]; before: Placed | null };
type Sort = { members: number[]; together: boolean; shift: bigint; mask: bigint };

export type Row = {
	order: number[];
	turns: number;
	exact: boolean;
};

/**
 * @param first the member that must come first, where the sheet says which stands farthest from the extractor
 * @returns the members in order
 */
export function orderMembers(members: readonly Member[], start: number | null, first: number | null): Row {
	const sorts = sortsOf(members, first);
	const widest = members.length <= 10 ? 600 : Math.ceil(20_000 / (members.length * sorts.length));
	const mostWays = members.length <= 10 ? 256 : 16;
	const lay = layer(mostWays);
	const blank = (members[0]?.words ?? []).map(() => none);
	let states: State[] = [
		{ ends: blank, firsts: blank, turns: 0, used: 0n, size: 0, last: null, lex: 0, rank: 0, short: false },
	];
	let exact = true;
	while (states.some(state => state.size < members.length)) {
		const next = states.flatMap(state =>
			state.size < members.length ? followers(members, sorts, state, first, lay) : [state],
		);
		if (next.some(state => state.short)) exact = false;
		states = cheapest(next).sort(byOrder);
		for (const [lex, state] of states.entries()) {
			state.lex = lex;
			state.rank = 0;
		}
		if (states.length > widest) {
			exact = false;
			states = states.sort((one, other) => one.turns - other.turns || one.lex - other.lex).slice(0, widest);
		}
	}
	const whole = states.map(state => ({ ...state, turns: state.turns + boundaries(state, start) }));
	const best = whole.reduce((one, other) => (better(other, one) ? other : one));
	return { order: placed(best.last), turns: best.turns, exact };
}

/**
 * Of the states with the same members laid, those that no other makes needless: from another state, each coat that
 * ends or began otherwise costs one turn at most.
 */
function cheapest(states: readonly State[]): State[] {
	const byUsed = new Map<bigint, State[]>();
	for (const state of [...states].sort((one, other) => one.turns - other.turns || byOrder(one, other))) {
		const rivals = byUsed.get(state.used) ?? [];
		const needless = rivals.some(rival => {
			const apart = rival.turns + differ(rival.ends, state.ends) + differ(rival.firsts, state.firsts);
			return apart < state.turns || (apart === state.turns && byOrder(rival, state) <= 0);
		});
		if (needless) continue;
		rivals.push(state);
		byUsed.set(state.used, rivals);
	}
	return [...byUsed.values()].flat();
}

const differ = (one: readonly number[], other: readonly number[]): number =>
	one.reduce((sum, state, at) => sum + (state === other[at] ? 0 : 1), 0);

const byOrder = (one: State, other: State) => one.lex - other.lex || one.rank - other.rank;
const better = (one: State, other: State) =>
	one.turns < other.turns || (one.turns === other.turns && byOrder(one, other) < 0);
const placed = (last: Placed | null): number[] => (last ? [...placed(last.before), ...last.members] : []);

/** Changes of state from the gun as it is to the first coat, and from each coat to the next. */
function boundaries(state: State, start: number | null): number {
	let at = start ?? none;
	let turns = 0;
	for (const [coat, first] of state.firsts.entries()) {
		if (first === none) continue;
		if (at !== none && at !== first) turns += 1;
		at = state.ends[coat] ?? none;
	}
	return turns;
}

/** Members that may stand for one another. Past a dozen parts, those that never turn the gun are laid together. */
function sortsOf(members: readonly Member[], first: number | null): Sort[] {
	const waitedFor = new Set(members.flatMap(member => member.before));
	const byMark = new Map<string, { members: number[]; together: boolean }>();
	for (const [at, member] of members.entries()) {
		const alone = member.before.length > 0 || waitedFor.has(at) || at === first;
		const words = member.words.map(coat => coat.map(endsOf(coat)).sort().join(' ')).join('|');
		const mark = alone ? `${at}` : `:${words}`;
		const still = member.words.every(
			coat => coat.length === 0 || (coat.length === 1 && coat[0]?.length === 1),
		);
		const sort = byMark.get(mark) ?? { members: [], together: !alone && still && members.length > 12 };
		sort.members.push(at);
		byMark.set(mark, sort);
	}
	let shift = 0n;
	return [...byMark.values()].map(sort => {
		const bits = BigInt(sort.members.length.toString(2).length);
		const field = { shift, mask: (1n << bits) - 1n };
		shift += bits;
		sort.members.sort((one, other) => (members[one]?.rank ?? 0) - (members[other]?.rank ?? 0));
		return { ...sort, ...field };
	});
}

const endsOf = (coat: readonly Word[]) => {
	const shortest = Math.min(...coat.map(word => word.length));
	return (word: Word) => `${word[0]}-${word.at(-1)}+${word.length - shortest}`;
};

const usedOf = (sort: Sort, used: bigint): number => Number((used >> sort.shift) & sort.mask);

function followers(
	members: readonly Member[],
	sorts: readonly Sort[],
	state: State,
	first: number | null,
	lay: ReturnType<typeof layer>,
): State[] {
	const isLaid = (at: number) =>
		sorts.some(
			sort => sort.members.indexOf(at) !== -1 && sort.members.indexOf(at) < usedOf(sort, state.used),
		);
	return sorts.flatMap(sort => {
		const at = sort.members[usedOf(sort, state.used)];
		const member = at === undefined ? undefined : members[at];
		if (at === undefined || !member || (state.size === 0 && first !== null && at !== first)) return [];
		if (!member.before.every(isLaid)) return [];
		const taken = sort.together ? sort.members : [at];
		const rest = {
			used: state.used + (BigInt(taken.length) << sort.shift),
			size: state.size + taken.length,
			last: { members: taken, before: state.last },
			lex: state.lex,
			rank: member.rank,
		};
		return lay(member.words, state).map(way => ({ ...way, ...rest }));
	});
}
