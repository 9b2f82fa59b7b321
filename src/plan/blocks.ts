/**
 * The fewest stops at the gun for a set of faces some of which go before others.
 *
 * Name each gun state by a number. A row of faces, read as gun states with repeats struck out, is a word; its
 * length less one is the number of turns. For a given word it never pays to hold a face back: doing, in each
 * block, every face whose turn it can be leaves a smaller rest, and whatever finishes a rest finishes any part
 * of it. So the question is only which word is the shortest that empties the sheet, and the search goes over
 * words, not over orders. A face's block depends on its own state and on the blocks of the faces before it, so
 * faces with the same state and the same kinds of faces before them are one.
 *
 * The words are searched by length, all rests of a length side by side, keeping for each first state only rests
 * that contain no other. A rest is dropped when even a lower bound on what it still needs (for each state, the
 * most separate runs of it along any chain; each run needs a block of its own) overshoots the best length known
 * by more than one. One longer than the shortest is kept because a word that fits at both its ends may save two.
 * With two states there is one word for each start, and the search is the peeling itself. With more the problem
 * is hard in the worst case; beyond `widest` rests of one length the least promising are dropped, and
 * `exact` says so, with the least that a dropped one would have needed as the bound.
 */

/** Faces as numbers: the gun state of each, and the faces that go before it. */
export type Sheet = { states: readonly number[]; before: readonly (readonly number[])[] };

/** A word that empties the sheet. */
export type Word = readonly number[];

export type Words = {
	/** The shortest word for each pair of first and last state, up to one longer than the shortest of all. */
	words: Word[];
	exact: boolean;
	/** No word is shorter than this. */
	atLeast: number;
};

/**
 * Faces that always fall in one block. `before` are those sprayed earlier; `runs` is for each state the most
 * separate runs of it along any chain from here on, this one included.
 */
type Kind = { state: number; chain: readonly number[]; before: Int32Array; runs: number[] };
/** What is left, a bit for each kind, and the word that left it. */
type Rest = { left: Int32Array; word: number[]; needs: number; size: number };
type Kinds = { kinds: readonly Kind[]; states: readonly number[]; byRuns: readonly (readonly number[])[] };

/** The shortest words that empty a sheet. `before` must be free of circles. */
export function shortestWords(sheet: Sheet): Words {
	if (sheet.states.length === 0) return { words: [], exact: true, atLeast: 0 };
	const all = kindsOf(sheet);
	const whole = wholeOf(all);
	const found = new Map<string, Word>();
	const widest = Math.ceil(20_000 / all.states.length ** 2);
	let dropped = Number.POSITIVE_INFINITY;
	let rests = grow(all, whole);
	let best = Math.min(...rests.map(rest => quick(all, rest)));
	for (let length = 1; length <= best + 1 && rests.length > 0; length += 1) {
		const done = rests.filter(rest => rest.size === 0);
		if (done.length > 0) best = Math.min(best, length);
		for (const { word } of done) {
			const ends = `${word[0]} ${word.at(-1)}`;
			if (!found.has(ends)) found.set(ends, word);
		}
		const open = smallest(rests.filter(rest => rest.size > 0).sort(byPromise), widest);
		if (open.length > widest) dropped = Math.min(dropped, length + (open[widest]?.needs ?? 0));
		rests = open
			.slice(0, widest)
			.flatMap(rest => grow(all, rest))
			.filter(rest => length + 1 + rest.needs <= best + 1);
	}
	return { words: [...found.values()], exact: dropped > best + 1, atLeast: Math.min(best, dropped) };
}

const byPromise = (one: Rest, other: Rest) => one.needs - other.needs || one.size - other.size;

/** The kinds in an order in which none comes before what it waits for. */
function kindsOf(sheet: Sheet): Kinds {
	const found: { state: number; chain: number[] }[] = [];
	const byMark = new Map<string, number>();
	const kindOfFace = new Map<number, number>();
	const place = (face: number): number => {
		const known = kindOfFace.get(face);
		if (known !== undefined) return known;
		const chain = [...new Set((sheet.before[face] ?? []).map(place))].sort((a, b) => a - b);
		const state = sheet.states[face] ?? 0;
		const mark = `${state}:${chain.join(',')}`;
		const kind = byMark.get(mark) ?? found.length;
		if (kind === found.length) {
			byMark.set(mark, kind);
			found.push({ state, chain });
		}
		kindOfFace.set(face, kind);
		return kind;
	};
	for (const face of sheet.states.keys()) place(face);
	const states = [...new Set(found.map(kind => kind.state))];
	const size = (found.length + 31) >> 5;
	const kinds = found.map((kind): Kind => ({ ...kind, before: mask(kind.chain, size), runs: [] }));
	countRuns(kinds, states);
	const byRuns = states.map((_, at) =>
		[...kinds.keys()].sort((one, other) => (kinds[other]?.runs[at] ?? 0) - (kinds[one]?.runs[at] ?? 0)),
	);
	return { kinds, states, byRuns };
}

function mask(bits: Iterable<number>, size: number): Int32Array {
	const words = new Int32Array(size);
	for (const bit of bits) words[bit >> 5] = (words[bit >> 5] ?? 0) | (1 << (bit & 31));
	return words;
}

const has = (left: Int32Array, bit: number): boolean => ((left[bit >> 5] ?? 0) & (1 << (bit & 31))) !== 0;

function apart(one: Int32Array, other: Int32Array): boolean {
	for (let at = 0; at < one.length; at += 1) if (((one[at] ?? 0) & (other[at] ?? 0)) !== 0) return false;
	return true;
}

function within(small: Int32Array, large: Int32Array): boolean {
	for (let at = 0; at < small.length; at += 1) if (((small[at] ?? 0) & ~(large[at] ?? 0)) !== 0) return false;
	return true;
}

function countRuns(kinds: readonly Kind[], states: readonly number[]): void {
	for (const kind of kinds) kind.runs = states.map(state => (kind.state === state ? 1 : 0));
	for (const kind of [...kinds].reverse())
		for (const before of kind.chain) {
			const earlier = kinds[before];
			if (!earlier) continue;
			for (const [at, state] of states.entries()) {
				const more = earlier.state === state && kind.state !== state ? 1 : 0;
				earlier.runs[at] = Math.max(earlier.runs[at] ?? 0, (kind.runs[at] ?? 0) + more);
			}
		}
}

/** A lower bound on the blocks still needed: for each state the most runs along any chain of what is left. */
function needsOf({ kinds, byRuns }: Kinds, left: Int32Array): number {
	let sum = 0;
	for (const [at, order] of byRuns.entries()) {
		const most = order.find(kind => has(left, kind));
		sum += most === undefined ? 0 : (kinds[most]?.runs[at] ?? 0);
	}
	return sum;
}

function wholeOf(all: Kinds): Rest {
	const size = all.kinds.length;
	const left = mask(all.kinds.keys(), (size + 31) >> 5);
	return { left, word: [], needs: needsOf(all, left), size };
}

/** What a block of each state leaves, for those states that have anything to spray. */
function grow(all: Kinds, rest: Rest): Rest[] {
	return all.states.flatMap(state => {
		const left = rest.left.slice();
		let size = rest.size;
		for (const [at, kind] of all.kinds.entries())
			if (kind.state === state && has(left, at) && apart(left, kind.before)) {
				left[at >> 5] = (left[at >> 5] ?? 0) & ~(1 << (at & 31));
				size -= 1;
			}
		return size === rest.size ? [] : [{ left, size, word: [...rest.word, state], needs: needsOf(all, left) }];
	});
}

/**
 * Of the rests with one first state, those that contain no other, until there are more than `widest`. The list
 * comes in, and goes out, with the more promising first.
 */
function smallest(rests: readonly Rest[], widest: number): Rest[] {
	const kept = new Map<number | undefined, Rest[]>();
	let size = 0;
	for (const rest of rests) {
		const rivals = kept.get(rest.word[0]) ?? [];
		if (rivals.some(rival => within(rival.left, rest.left))) continue;
		rivals.push(rest);
		kept.set(rest.word[0], rivals);
		size += 1;
		if (size > widest) break;
	}
	return [...kept.values()].flat().sort(byPromise);
}

/** Length of the word found by always taking the state that leaves the least to do: an upper bound. */
function quick(all: Kinds, from: Rest): number {
	let rest = from;
	while (rest.size > 0) {
		const [best, ...others] = grow(all, rest);
		if (!best) return Number.POSITIVE_INFINITY;
		rest = others.reduce((one, other) => (byPromise(other, one) < 0 ? other : one), best);
	}
	return rest.word.length;
}
