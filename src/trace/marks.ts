import type { FaultData } from './faults.ts';
import { covered, flat, halfSeen, leading, seen, severities, stray, strayOften, through } from './numbers.ts';
import type { Cause } from './prior.ts';

/** A fault marked on a coat of a face. */
export type Mark = { kind: string; coat: number; at: number; isAsked: boolean };

/** One face as it was seen: its coats with when each ended, what was marked, and up to which coat it was found sound. */
export type FaceSeen = {
	id: string;
	isFlat: boolean;
	coats: readonly { coat: number; ended: number }[];
	marks: readonly Mark[];
	cleared: { coat: number; at: number } | null;
};

/** All faces of a job as they were seen, and when it is asked. */
export type Scene = { faces: readonly FaceSeen[]; asked: number; faults: FaultData['faults'] };

/** Coats of each face of a scene that an extent reached, as bits: coat 1 is bit 0. */
export type Reach = number[];

const bit = (coat: number): number => 1 << Math.min(coat - 1, 30);

/** Adds a coat of a face. */
export function reachCoat(reach: Reach, at: number, coat: number): void {
	reach[at] = (reach[at] ?? 0) | bit(coat);
}

export function reachOf(faces: number, spots: Iterable<{ at: number; coat: number }>): Reach {
	const reach: Reach = Array(faces).fill(0);
	for (const { at, coat } of spots) reachCoat(reach, at, coat);
	return reach;
}

const has = (mask: number, coat: number): boolean => (mask & bit(coat)) !== 0;

/** Whether an extent's coats on a face can have put a mark there. */
export const reachesMark = (mask: number, { coat }: Pick<Mark, 'coat'>): boolean =>
	(mask & ((bit(coat) << 1) - 1)) !== 0;

/** Share of a kind that shows so long after the coat. */
function showing(fault: FaultData['faults'][string] | undefined, after_min: number): number {
	if (!fault) return 1;
	const { from_min: from, to_min: to } = fault.shows;
	if (after_min < from) return 0;
	if (from <= 0 || to <= from) return 1;
	return Math.min(1, 0.5 + (0.5 * Math.log(after_min / from)) / Math.log(to / from));
}

/** How much of a fault in coat q is seen as a mark on the coat m. */
function seenThrough(scene: Scene, face: FaceSeen, mark: Mark, q: number): number {
	const fault = scene.faults[mark.kind];
	const laid = face.coats.find(one => one.coat === q);
	const isEarly = laid !== undefined && fault && mark.at < laid.ended + fault.shows.from_min * 60_000;
	const early = isEarly ? through.early : 1;
	if (q === mark.coat) return early;
	const last = face.coats.at(-1);
	const when = last && mark.at >= last.ended ? 'done' : 'before';
	const by = covered.has(mark.kind) ? through.covered[when] : through.other[when];
	return early * (fault?.reach === 'under' ? through.under : by);
}

/** On a flat face a kind becomes another, or is what it is: which, and how much of it. */
const onFace = (kind: string, { isFlat }: FaceSeen): { becomes: string; share: number } =>
	(isFlat && flat[kind]) || { becomes: kind, share: 1 };

/** For each draw: how surely each mark of a face was missed, and how much of anything shows at a look. */
type OnFace = { misses: Float64Array[]; clears: Float64Array; shows: Float64Array };

const strayOf = ({ kind, isAsked }: Mark): number =>
	(strayOften.has(kind) ? stray.often : stray.any) * (isAsked ? stray.asked : 1);

type Kept = {
	/** Kinds that the cause does, and the share of each. */
	effects: [kind: string, share: number][];
	/** Of each draw: a severity and the kind that leads. */
	chances: Float64Array;
	/** By face and coats. */
	faces: Map<number, Float64Array>;
	shown: Map<number, number>;
	looks: Map<number, OnFace>;
	/** The last extent asked about, and what its draws came to: the next one is like it. */
	last: { reach: Reach; only: ReadonlySet<number> | undefined; found: Float64Array } | null;
};

/**
 * What was marked, cleared and not looked at, as chances under a cause with an extent. What a cause does on a face is
 * worked out once for the same coats of it.
 */
export class Sights {
	readonly scene: Scene;
	readonly #kept = new Map<Cause, Kept>();
	/** Faces with marks: every extent must answer for them. */
	readonly marked: number[];

	constructor(scene: Scene) {
		this.scene = scene;
		this.marked = scene.faces.flatMap(({ marks }, at) => (marks.length > 0 ? [at] : []));
	}

	#of(cause: Cause): Kept {
		const known = this.#kept.get(cause);
		if (known) return known;
		const effects = [...cause.effect];
		// A cause that explains nothing is one draw that does nothing.
		const chances = Float64Array.from(
			effects.length > 0
				? effects.flatMap(([, share]) => severities.map(() => share / severities.length))
				: [1],
		);
		const fresh: Kept = {
			effects,
			chances,
			faces: new Map(),
			shown: new Map(),
			looks: new Map(),
			last: null,
		};
		this.#kept.set(cause, fresh);
		return fresh;
	}

	/** e of each draw, of whatever share of each kind is asked about. */
	#does(cause: Cause, asked: (kind: string) => number): Float64Array {
		const { effects, chances } = this.#of(cause);
		const each = effects.map(([kind]) => asked(kind));
		const all = effects.reduce((sum, [, share], nth) => sum + share * (each[nth] ?? 0), 0);
		const does = new Float64Array(chances.length);
		for (let draw = 0; draw < effects.length * severities.length; draw++) {
			const led = each[Math.floor(draw / severities.length)] ?? 0;
			does[draw] = (severities[draw % severities.length] ?? 0) * (leading * led + (1 - leading) * all);
		}
		return does;
	}

	/** Share that something shows on some coats of a face at an instant, by draw: T. */
	#shows(cause: Cause, face: FaceSeen, mask: number, at: number): Float64Array {
		const mine = face.coats.filter(({ coat }) => has(mask, coat));
		const count = Math.min(2, mine.length);
		if (count === 0) return new Float64Array(this.#of(cause).chances.length);
		const after_min = (at - (mine.at(-1)?.ended ?? at)) / 60_000;
		const does = this.#does(cause, kind => {
			const { becomes, share } = onFace(kind, face);
			return share * showing(this.scene.faults[becomes], after_min);
		});
		return does.map(e => 1 - (1 - e) ** count);
	}

	/** Whether a cause does any of the kinds that are marked. */
	doesAny(cause: Cause): boolean {
		return this.marked.some(at => {
			const face = this.scene.faces[at];
			return face?.marks.some(({ kind }) =>
				this.#of(cause).effects.some(([does]) => onFace(does, face).becomes === kind),
			);
		});
	}

	/** What a cause does on a face that it reached with some coats, by draw. */
	#on(cause: Cause, face: FaceSeen, mask: number): OnFace {
		const misses = face.marks.map(mark => {
			const ways = face.coats
				.filter(({ coat }) => coat <= mark.coat && has(mask, coat))
				.map(({ coat }) => seen * seenThrough(this.scene, face, mark, coat));
			const does = this.#does(cause, kind => {
				const { becomes, share } = onFace(kind, face);
				return becomes === mark.kind ? share : 0;
			});
			return does.map(e => ways.reduce((miss, way) => miss * (1 - way * e), 1));
		});
		const { cleared } = face;
		let below = 0;
		for (const { coat } of face.coats) if (cleared && coat <= cleared.coat) below |= bit(coat) & mask;
		return {
			misses,
			clears: this.#shows(cause, face, below, cleared?.at ?? 0),
			shows: this.#shows(cause, face, mask & ~below, this.scene.asked),
		};
	}

	/** The same, kept: pairs ask for it many times. */
	#at(cause: Cause, at: number, face: FaceSeen, mask: number): OnFace {
		const { looks } = this.#of(cause);
		const key = at * 0x8000_0000 + mask;
		const known = looks.get(key) ?? this.#on(cause, face, mask);
		looks.set(key, known);
		return known;
	}

	/** The chance of all that was seen of a face, by draw. */
	#factor(cause: Cause, at: number, mask: number): Float64Array {
		const { faces, chances } = this.#of(cause);
		const key = at * 0x8000_0000 + mask;
		const known = faces.get(key);
		if (known) return known;
		const face = this.scene.faces[at];
		const fresh = new Float64Array(chances.length).fill(1);
		faces.set(key, fresh);
		if (!face) return fresh;
		const { misses, clears, shows } = this.#on(cause, face, mask);
		for (let draw = 0; draw < fresh.length; draw++) {
			let factor = 1;
			for (const [nth, mark] of face.marks.entries())
				factor *= 1 - (misses[nth]?.[draw] ?? 1) + strayOf(mark);
			if (face.marks.length === 0)
				factor = (1 - seen * (clears[draw] ?? 0)) * (1 - halfSeen * (shows[draw] ?? 0));
			fresh[draw] = factor;
		}
		return fresh;
	}

	/**
	 * F: the chance of everything marked, cleared and not looked at, under a cause that reached some coats. From one extent
	 * to the next only the faces that differ are counted anew.
	 * @param only faces to answer for; left out: all
	 */
	F(cause: Cause, reach: Reach, only?: ReadonlySet<number>): number {
		const kept = this.#of(cause);
		const { last, chances } = kept;
		const isNew = last === null || last.only !== only;
		const found = isNew ? Float64Array.from(chances) : last.found;
		for (let at = 0; at < reach.length; at++) {
			const [mask, before] = [reach[at] ?? 0, isNew ? 0 : (last.reach[at] ?? 0)];
			if ((!isNew && mask === before) || (only && !only.has(at))) continue;
			if (isNew && mask === 0 && this.scene.faces[at]?.marks.length === 0) continue;
			const factor = this.#factor(cause, at, mask);
			const old = isNew ? null : this.#factor(cause, at, before);
			for (let draw = 0; draw < found.length; draw++)
				found[draw] = ((found[draw] ?? 0) * (factor[draw] ?? 1)) / (old?.[draw] ?? 1);
		}
		kept.last = { reach, only, found };
		let sum = 0;
		for (const one of found) sum += one;
		return sum;
	}

	/** The same under two causes at once: each has its own draws, what both miss is missed. */
	both(one: { cause: Cause; reach: Reach }, other: { cause: Cause; reach: Reach }): number {
		const [mine, theirs] = [this.#of(one.cause).chances, this.#of(other.cause).chances];
		const found = new Float64Array(mine.length * theirs.length);
		for (let nth = 0; nth < found.length; nth++)
			found[nth] = (mine[Math.floor(nth / theirs.length)] ?? 0) * (theirs[nth % theirs.length] ?? 0);
		for (const [at, face] of this.scene.faces.entries()) {
			const [mask, beside] = [one.reach[at] ?? 0, other.reach[at] ?? 0];
			if (mask === 0 && beside === 0 && face.marks.length === 0) continue;
			const a = this.#at(one.cause, at, face, mask);
			const b = this.#at(other.cause, at, face, beside);
			const either = (x = 0, y = 0) => 1 - (1 - x) * (1 - y);
			for (let nth = 0; nth < found.length; nth++) {
				const [i, j] = [Math.floor(nth / theirs.length), nth % theirs.length];
				let factor = 1;
				for (const [at, mark] of face.marks.entries())
					factor *= 1 - (a.misses[at]?.[i] ?? 1) * (b.misses[at]?.[j] ?? 1) + strayOf(mark);
				if (face.marks.length === 0)
					factor =
						(1 - seen * either(a.clears[i], b.clears[j])) * (1 - halfSeen * either(a.shows[i], b.shows[j]));
				found[nth] = (found[nth] ?? 0) * factor;
			}
		}
		return found.reduce((sum, f) => sum + f, 0);
	}

	/** How surely a look at a face shows anything, under a cause that reached it: the mean of its draws. */
	shownAt(cause: Cause, at: number, mask: number): number {
		const face = this.scene.faces[at];
		const { chances, shown } = this.#of(cause);
		const key = at * 0x8000_0000 + mask;
		const known = shown.get(key);
		if (known !== undefined || !face) return known ?? 0;
		const shows = this.#shows(cause, face, mask, this.scene.asked);
		const mean = shows.reduce((sum, t, draw) => sum + t * (chances[draw] ?? 0), 0);
		shown.set(key, mean);
		return mean;
	}
}
