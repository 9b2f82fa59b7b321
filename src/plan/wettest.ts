import { after, least, nothing, shapeOf, staysPut, type Table, tableOf, worse } from './between.ts';
import type { Word } from './blocks.ts';

/**
 * The order of parts, the same in every coat, that needs the fewest turns when each part is finished before the
 * next is begun.
 *
 * For each part and coat only the table of turns between the states before and after it matters, and a row of
 * parts is the product of their tables, coat by coat. A row is built up one part at a time; all rows of a length
 * stand side by side. Of two rows with the same parts the one that never costs more, whatever follows in any coat,
 * makes the other needless. Parts with the same tables are alike, so only how many of each sort are laid counts.
 * That is exact; beyond `widest` rows of one length the dearest are dropped, and `exact` says so. Among the best
 * the row nearest the wanted order is taken.
 */

/** A group of parts with its words for each coat (none where the coat leaves it out). */
export type Member = { words: readonly (readonly Word[])[]; before: readonly number[]; rank: number };

export type Row = { order: number[]; exact: boolean };

/** `used` counts the members taken of each sort, in bit fields; `lex` is the row's place in the wanted order. */
type State = {
	coats: readonly Table[];
	cost: number;
	used: bigint;
	size: number;
	last: Placed | null;
	lex: number;
	rank: number;
};
type Placed = { members: readonly number[]; before: Placed | null };
type Sort = {
	members: number[];
	tables: readonly Table[];
	together: boolean;
	shift: bigint;
	mask: bigint;
};

/**
 * @param start gun state before the first part, where known
 * @param first the member that must come first, where the sheet says which stands farthest from the extractor
 */
export function orderMembers(members: readonly Member[], start: number | null, first: number | null): Row {
	const side = 1 + Math.max(start ?? 0, ...members.flatMap(member => member.words.flat(2)));
	const sorts = sortsOf(members, first, side);
	const widest = Math.ceil(
		members.length <= 10 ? 4000 / side : 160_000 / (members.length * sorts.length * side),
	);
	const blank = (members[0]?.words ?? []).map(() => nothing(side));
	let states: State[] = [{ coats: blank, cost: 0, used: 0n, size: 0, last: null, lex: 0, rank: 0 }];
	let exact = true;
	while (states.some(state => state.size < members.length)) {
		const next = states.flatMap(state =>
			state.size < members.length ? followers(members, sorts, state, first) : [state],
		);
		states = needed(next).sort(byOrder);
		for (const [lex, state] of states.entries()) {
			state.lex = lex;
			state.rank = 0;
		}
		if (states.length > widest) {
			exact = false;
			states = states.sort((one, other) => one.cost - other.cost || one.lex - other.lex).slice(0, widest);
		}
	}
	const whole = states.map(state => ({ ...state, cost: wholeCost(state, start) }));
	const best = whole.reduce((one, other) => (better(other, one) ? other : one));
	return { order: placed(best.last), exact };
}

const byOrder = (one: State, other: State) => one.lex - other.lex || one.rank - other.rank;
const better = (one: State, other: State) =>
	one.cost < other.cost || (one.cost === other.cost && byOrder(one, other) < 0);
const placed = (last: Placed | null): number[] => (last ? [...placed(last.before), ...last.members] : []);

/** Turns of a whole stage: its coats one after another. */
function wholeCost({ coats, cost }: State, start: number | null): number {
	const [one, ...others] = coats;
	if (!one) return cost;
	const { turns, side } = others.reduce(after, one);
	return Math.min(...(start === null ? turns : turns.slice(start * side, (start + 1) * side)));
}

/** Of the rows with the same members, those that no other makes needless. */
function needed(states: readonly State[]): State[] {
	const byUsed = new Map<bigint, State[]>();
	for (const state of [...states].sort((one, other) => one.cost - other.cost || byOrder(one, other))) {
		const rivals = byUsed.get(state.used) ?? [];
		const needless = rivals.some(rival => {
			const more = worseBy(rival, state);
			return more < 0 || (more === 0 && byOrder(rival, state) <= 0);
		});
		if (needless) continue;
		rivals.push(state);
		byUsed.set(state.used, rivals);
	}
	return [...byUsed.values()].flat();
}

function worseBy(one: State, other: State): number {
	let more = 0;
	for (const [coat, table] of one.coats.entries()) more += worse(table, other.coats[coat] ?? table);
	return more;
}

/** Members that may stand for one another. Past a dozen parts, those that leave the gun alone are laid together. */
function sortsOf(members: readonly Member[], first: number | null, side: number): Sort[] {
	const waitedFor = new Set(members.flatMap(member => member.before));
	const byMark = new Map<string, Pick<Sort, 'members' | 'tables' | 'together'>>();
	for (const [at, member] of members.entries()) {
		const alone = member.before.length > 0 || waitedFor.has(at) || at === first;
		const tables = member.words.map(words => tableOf(words, side));
		const mark = alone ? `${at}` : tables.map(shapeOf).join('|');
		const together = !alone && members.length > 12 && tables.every(staysPut);
		const sort = byMark.get(mark) ?? { members: [], tables, together };
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

const usedOf = (sort: Sort, used: bigint): number => Number((used >> sort.shift) & sort.mask);

function followers(
	members: readonly Member[],
	sorts: readonly Sort[],
	state: State,
	first: number | null,
): State[] {
	const isLaid = (at: number) =>
		sorts.some(sort => {
			const place = sort.members.indexOf(at);
			return place !== -1 && place < usedOf(sort, state.used);
		});
	return sorts.flatMap(sort => {
		const at = sort.members[usedOf(sort, state.used)];
		const member = at === undefined ? undefined : members[at];
		if (at === undefined || !member || (state.size === 0 && first !== null && at !== first)) return [];
		if (!member.before.every(isLaid)) return [];
		const taken = sort.together ? sort.members : [at];
		const coats = state.coats.map((table, coat) => after(table, sort.tables[coat] ?? table));
		return {
			coats,
			cost: coats.reduce((sum, table) => sum + least(table), 0),
			used: state.used + (BigInt(taken.length) << sort.shift),
			size: state.size + taken.length,
			last: { members: taken, before: state.last },
			lex: state.lex,
			rank: member.rank,
		};
	});
}
