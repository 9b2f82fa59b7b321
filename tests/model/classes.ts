/**
 * States of a small machine that no sequence of events can tell apart, found by splitting: first by what can be seen
 * of a state, then by where each event leads, until nothing splits any more (Moore's minimisation).
 */
export type Alone<State> = {
	start: State;
	/** Each event in turn; null where it is refused. */
	next(state: State, event: number): State | null;
	events: number;
	keyOf(state: State): string;
	/** All that others may see of a state. */
	seen(state: State): string;
};

/** More states than any chart of one face, its window moving freely, of a batch or of a check has: what comes to so many grows without end. */
export const most = 200_000;

/** A chart whose states have no end: nothing could be proved of it. */
export class WithoutEnd extends Error {}

/**
 * The class of each reachable key.
 * @throws WithoutEnd where the states have no end
 */
export function classesOf<State>({ start, next, events, keyOf, seen }: Alone<State>): Map<string, number> {
	const places = new Map<string, number>([[keyOf(start), 0]]);
	const states: State[] = [start];
	const leads: number[][] = [];
	for (let at = 0; at < states.length; at++) {
		if (at > most) throw new WithoutEnd(`more than ${most} states: ${keyOf(start)}`);
		const state = states[at] as State;
		leads.push(
			Array.from({ length: events }, (_, event) => {
				const to = next(state, event);
				if (to === null) return -1;
				const key = keyOf(to);
				const known = places.get(key);
				if (known !== undefined) return known;
				places.set(key, states.length);
				states.push(to);
				return states.length - 1;
			}),
		);
	}
	const number = (names: readonly string[]) => {
		const ids = new Map<string, number>();
		const numbers = names.map(name => {
			const id = ids.get(name) ?? ids.size;
			ids.set(name, id);
			return id;
		});
		return { numbers, count: ids.size };
	};
	let split = number(states.map(seen));
	for (let before = 0; before < split.count; ) {
		before = split.count;
		const { numbers } = split;
		split = number(
			leads.map((to, at) => `${numbers[at]}|${to.map(one => (one < 0 ? one : numbers[one])).join()}`),
		);
	}
	return new Map([...places].map(([key, at]) => [key, split.numbers[at] ?? 0]));
}
