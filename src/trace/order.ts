export type Spot = { face: string; coat: number };

const same = (a: Spot, b: Spot) => a.face === b.face && a.coat === b.coat;

/** Middles first: the order in which halving looks at the places of a row from `low` to `high`, both included. */
function halving(low: number, high: number): number[] {
	const order: number[] = [];
	let level: [number, number][] = [[low, high]];
	while (level.length > 0) {
		const next: [number, number][] = [];
		for (const [from, to] of level) {
			if (from > to) continue;
			const middle = Math.floor((from + to) / 2);
			order.push(middle);
			next.push([from, middle - 1], [middle + 1, to]);
		}
		level = next;
	}
	return order;
}

/** All places of a row by their distance from one of them. */
function nearest(count: number, from: number): number[] {
	return Array.from({ length: count }, (_, at) => at)
		.filter(at => at !== from)
		.sort((a, b) => Math.abs(a - from) - Math.abs(b - from) || a - b);
}

/**
 * Which faces to look at, in order.
 * @param exposed in the order sprayed
 * @param bad the face known to be bad
 * @param stays the fault, once in, stays in until it is put right: then halving finds its two ends
 */
export function inspectionOrder(exposed: readonly Spot[], bad: Spot, stays: boolean): Spot[] {
	const at = exposed.findIndex(spot => same(spot, bad));
	if (at < 0) return [...exposed];
	const places = stays
		? [...halving(0, at - 1), ...halving(at + 1, exposed.length - 1)]
		: nearest(exposed.length, at);
	return places.map(place => exposed[place]).filter(spot => spot !== undefined);
}

export type Look = Spot & { bad: boolean };

/**
 * What is left to look at after some answers. Where the fault stays in, everything between two bad faces is bad
 * and everything beyond a good one is good, so only the two stretches between bad and good stay open.
 */
export function narrowed(
	exposed: readonly Spot[],
	bad: Spot,
	stays: boolean,
	looks: readonly Look[],
): { exposed: Spot[]; inspect: Spot[] } {
	const looked = (spot: Spot) => looks.find(look => same(look, spot));
	const at = exposed.findIndex(spot => same(spot, bad));
	if (!stays || at < 0) {
		const left = exposed.filter(spot => looked(spot)?.bad !== false);
		return {
			exposed: left,
			inspect: inspectionOrder(exposed, bad, false).filter(spot => looked(spot) === undefined),
		};
	}
	const good = (place: number) => looked(exposed[place] ?? bad)?.bad === false;
	const wrong = (place: number) => place === at || looked(exposed[place] ?? bad)?.bad === true;
	let low = at;
	while (low > 0 && !good(low - 1)) low--;
	let high = at;
	while (high < exposed.length - 1 && !good(high + 1)) high++;
	const places = Array.from({ length: high - low + 1 }, (_, nth) => low + nth);
	const first = places.find(wrong) ?? at;
	const last = places.findLast(wrong) ?? at;
	const open = [...halving(low, first - 1), ...halving(last + 1, high)];
	const spot = (place: number) => exposed[place];
	return {
		exposed: places.map(spot).filter(one => one !== undefined),
		inspect: open.map(spot).filter(one => one !== undefined),
	};
}
