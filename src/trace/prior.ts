import type { FaultData } from './faults.ts';
import { listed, noneOfThese, priorRestsOn } from './numbers.ts';

/** A cause with its form: what it is before any record, and what it does. */
export type Cause = {
	code: string;
	form: string | null;
	prior: number;
	/** Chance of each kind of fault, of all that it does. */
	effect: ReadonlyMap<string, number>;
};

/** What this shop has seen: marks by kind, and causes confirmed, by code. */
export type Shop = { marks: Readonly<Record<string, number>>; confirmed: Readonly<Record<string, number>> };
const newShop: Shop = { marks: {}, confirmed: {} };

/**
 * Weights of the places of a list of n: the middle of all weightings that keep its order (rank-order centroid, Barron
 * & Barrett 1996, from memory).
 */
export const placeWeights = (n: number): number[] =>
	Array.from({ length: n }, (_, place) => {
		let sum = 0;
		for (let at = place; at < n; at++) sum += 1 / (at + 1);
		return sum / n;
	});

export const causeKey = ({ code, form }: Pick<Cause, 'code' | 'form'>): string =>
	form === null ? code : `${code} ${form}`;

type Named = Pick<Cause, 'code' | 'form'>;

/** P(cause | kind): the mean of its lists, each by its order, and a little for each that any of them names. */
function sharesOf(kind: FaultData['faults'][string]): Map<string, { named: Named; share: number }> {
	const lists = new Map<string, Map<string, Named>>();
	const shares = new Map<string, { named: Named; share: number }>();
	for (const { cause, form = null, list = '' } of kind.causes) {
		const named = { code: cause, form };
		const known = lists.get(list) ?? new Map<string, Named>();
		if (!known.has(causeKey(named))) known.set(causeKey(named), named);
		lists.set(list, known);
		shares.set(causeKey(named), { named, share: 0 });
	}
	for (const list of lists.values()) {
		const weights = kind.flat ? [] : placeWeights(list.size);
		for (const [place, key] of [...list.keys()].entries()) {
			const one = shares.get(key);
			if (one) one.share += (weights[place] ?? 1 / list.size) / lists.size;
		}
	}
	for (const one of shares.values()) one.share = listed * one.share + (1 - listed) / shares.size;
	return shares;
}

const made = new WeakMap<FaultData, readonly Cause[]>();

/**
 * Every cause and form with its prior and its effects, from the one table of faults: what it does and how likely it is
 * cannot contradict each other.
 * @param shop what this shop has marked and confirmed; left out: nothing yet
 */
export function causesIn(data: FaultData, shop: Shop = newShop): readonly Cause[] {
	const known = shop === newShop ? made.get(data) : undefined;
	if (known) return known;
	const kinds = Object.entries(data.faults).filter(([, { trace }]) => trace);
	const marks = kinds.reduce((sum, [kind]) => sum + (shop.marks[kind] ?? 0), 0);
	const joint = new Map<string, { named: Named; kinds: Map<string, number>; prior: number }>();
	for (const [kind, fault] of kinds) {
		const chance = (1 + (shop.marks[kind] ?? 0)) / (kinds.length + marks);
		for (const [key, { named, share }] of sharesOf(fault)) {
			const one = joint.get(key) ?? { named, kinds: new Map<string, number>(), prior: 0 };
			one.kinds.set(kind, share * chance);
			one.prior += share * chance;
			joint.set(key, one);
		}
	}
	const confirmed = Object.values(shop.confirmed).reduce((sum, count) => sum + count, 0);
	const byCode = new Map<string, number>();
	for (const { named, prior } of joint.values())
		byCode.set(named.code, (byCode.get(named.code) ?? 0) + prior);
	const causes = [...joint.values()].map(({ named, kinds: effects, prior }): Cause => {
		const times = ((shop.confirmed[named.code] ?? 0) * prior) / (byCode.get(named.code) ?? 1);
		const moved = (priorRestsOn * prior + times) / (priorRestsOn + confirmed);
		const effect = new Map([...effects].map(([kind, both]) => [kind, both / prior]));
		return { ...named, prior: moved, effect };
	});
	if (shop === newShop) made.set(data, causes);
	return causes;
}

/** None of the causes in the table: it explains no mark. */
export const none: Cause = { code: 'none-of-these', form: null, prior: noneOfThese, effect: new Map() };
