/** Breadth first through everything that can be reached, keeping one state of each kind only as long as it is new. */

/** Where an edge leads, and marks that it bears, a bit each. */
export type Next<State> = { state: State; marks: number };

export type Search<State, Move> = {
	start: State;
	moves(state: State): readonly Move[];
	/** Null where the move is refused. */
	step(state: State, move: Move): Next<State> | null;
	/** Two states of one key behave alike. */
	keyOf(state: State): string;
	/** Called once for each state, with its place in the graph; false ends the search. */
	visit?(state: State, index: number): boolean;
	/** Called for each move taken or refused; false ends the search. */
	observe?(from: State, move: Move, next: Next<State> | null, index: number): boolean;
};

/** Numbers in a buffer that grows. */
function growing() {
	let buffer = new Int32Array(1 << 16);
	let length = 0;
	return {
		push(value: number) {
			if (length === buffer.length) {
				const larger = new Int32Array(length * 2);
				larger.set(buffer);
				buffer = larger;
			}
			buffer[length++] = value;
		},
		all: () => buffer.subarray(0, length),
	};
}

export type Graph<Move> = {
	states: number;
	/** Moves taken; those that lead to one state from another count each. */
	transitions: number;
	refused: number;
	seconds: number;
	/** The search came to its end. */
	whole: boolean;
	from: Int32Array;
	to: Int32Array;
	marks: Int32Array;
	/** The moves of a shortest way from the start. */
	wayTo(index: number): Move[];
};

/** Every state that can be reached, and every edge between them. */
export function walk<State, Move>(search: Search<State, Move>): Graph<Move> {
	const began = process.cpuUsage();
	const seen = new Map<string, number>([[search.keyOf(search.start), 0]]);
	let queue: State[] = [search.start];
	const parent: number[] = [-1];
	const via: (Move | null)[] = [null];
	const edges = { from: growing(), to: growing(), marks: growing() };
	let index = -1;
	let transitions = 0;
	let refused = 0;
	let whole = true;

	/** The place of a state in the graph, new or not. */
	const place = (state: State, move: Move, later: State[]): number => {
		const key = search.keyOf(state);
		const known = seen.get(key);
		if (known !== undefined) return known;
		const added = seen.size;
		seen.set(key, added);
		parent.push(index);
		via.push(move);
		later.push(state);
		return added;
	};

	const expand = (state: State, later: State[]): boolean => {
		index++;
		if (search.visit?.(state, index) === false) return false;
		const drawn = new Set<number>();
		for (const move of search.moves(state)) {
			const next = search.step(state, move);
			if (search.observe?.(state, move, next, index) === false) return false;
			if (next === null) {
				refused++;
				continue;
			}
			transitions++;
			const to = place(next.state, move, later);
			const edge = to * 64 + next.marks;
			if (drawn.has(edge)) continue;
			drawn.add(edge);
			edges.from.push(index);
			edges.to.push(to);
			edges.marks.push(next.marks);
		}
		return true;
	};

	while (queue.length > 0 && whole) {
		const later: State[] = [];
		for (const state of queue) {
			whole = expand(state, later);
			if (!whole) break;
		}
		queue = later;
	}
	const spent = process.cpuUsage(began);
	const wayTo = (end: number): Move[] => {
		const moves: Move[] = [];
		for (let at = end; at > 0; at = parent[at] ?? -1) {
			const move = via[at];
			if (move) moves.unshift(move);
		}
		return moves;
	};
	return {
		states: seen.size,
		transitions,
		refused,
		seconds: (spent.user + spent.system) / 1e6,
		whole,
		from: edges.from.all(),
		to: edges.to.all(),
		marks: edges.marks.all(),
		wayTo,
	};
}

/** Which states have a way to one of the goals: states, or the starts of edges. */
export function canReach<Move>(
	{ states, from, to, marks }: Graph<Move>,
	goals: readonly number[],
	usable: (marks: number) => boolean = () => true,
): Uint8Array {
	const first = new Int32Array(states + 1);
	for (const end of to) first[end + 1] = (first[end + 1] ?? 0) + 1;
	for (let at = 0; at < states; at++) first[at + 1] = (first[at + 1] ?? 0) + (first[at] ?? 0);
	const into = new Int32Array(to.length);
	const filled = first.slice();
	for (let edge = 0; edge < to.length; edge++) {
		const end = to[edge] ?? 0;
		into[filled[end] ?? 0] = edge;
		filled[end] = (filled[end] ?? 0) + 1;
	}
	const reached = new Uint8Array(states);
	const open = [...goals];
	for (const goal of goals) reached[goal] = 1;
	for (let at = open.pop(); at !== undefined; at = open.pop()) {
		for (let place = first[at] ?? 0; place < (first[at + 1] ?? 0); place++) {
			const edge = into[place] ?? 0;
			const start = from[edge] ?? 0;
			if (reached[start] === 1 || !usable(marks[edge] ?? 0)) continue;
			reached[start] = 1;
			open.push(start);
		}
	}
	return reached;
}
