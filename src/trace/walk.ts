import type { Sights } from './marks.ts';
import { benchLooks, faceLook, seen, walkEnds } from './numbers.ts';
import type { Weighed } from './weigh.ts';

/** One look: at a face, or at the bench (`face` null); what to do, how long it takes, and why. */
export type Look = { face: string | null; coat: number | null; do: string; minutes: number; why: string };

/** How surely a look shows something under each explanation: `shows[nth]`. */
export type Trial = { shows: readonly number[]; minutes: number };

const entropy = (p: number): number =>
	p <= 0 || p >= 1 ? 0 : -p * Math.log2(p) - (1 - p) * Math.log2(1 - p);

/** What a look is expected to tell, bit. */
export function gain_bit(weights: readonly number[], { shows }: Trial): number {
	let q = 0;
	let left = 0;
	for (const [nth, weight] of weights.entries()) {
		q += weight * (shows[nth] ?? 0);
		left += weight * entropy(shows[nth] ?? 0);
	}
	return entropy(q) - left;
}

/** Weights after a look that showed something, or nothing. */
export function after(weights: readonly number[], { shows }: Trial, isSeen: boolean): number[] {
	const each = weights.map((weight, nth) => weight * (isSeen ? (shows[nth] ?? 0) : 1 - (shows[nth] ?? 0)));
	const sum = each.reduce((all, one) => all + one, 0);
	return each.map(one => one / sum);
}

/** Explanations so light tell nothing of what to look at. */
const light = 1e-4;

export type Able = (until: (typeof benchLooks)[number]['while']) => boolean;

type Tried = Look & { gain: number };

/** Faces whose softness is felt, not seen. */
const felt: ReadonlySet<string> = new Set(['stays-soft']);

export const faceDo = (kind: string): string =>
	felt.has(kind) ? 'press a gloved thumbnail into a back edge' : 'look along it with a lamp';

function faceLooks(weighed: readonly Weighed[], sights: Sights, kind: string, from: string): Tried[] {
	const weights = weighed.map(({ weight }) => weight);
	return sights.scene.faces.flatMap(({ id, coats, marks, cleared }, at): Tried[] => {
		const top = coats.at(-1);
		if (!top || marks.length > 0 || (cleared && cleared.coat >= top.coat)) return [];
		const shows = weighed.map(({ cause, reach }) => {
			const mask = reach[at] ?? 0;
			if (mask === 0) return faceLook.ifNot;
			return Math.max(faceLook.ifNot, seen * sights.shownAt(cause, at, mask));
		});
		const own = felt.has(kind) ? faceLook.press_min : faceLook.lamp_min;
		const minutes = own + (partOf(id) === from ? 0 : walkEnds.otherPart_min);
		const gain = gain_bit(weights, { shows, minutes });
		return [{ face: id, coat: top.coat, do: faceDo(kind), minutes, why: 'how far it reached', gain }];
	});
}

const partOf = (face: string): string => face.split('/')[0] ?? face;

function bench(weighed: readonly Weighed[], isAble: Able): Tried[] {
	const weights = weighed.map(({ weight }) => weight);
	return benchLooks
		.filter(look => isAble(look.while))
		.map(look => {
			const shows = weighed.map(({ cause }) => (look.on.includes(cause.code) ? look.is : look.isNot));
			const gain = gain_bit(weights, { shows, minutes: look.minutes });
			return { face: null, coat: null, do: look.do, minutes: look.minutes, why: 'which cause it was', gain };
		});
}

/**
 * All looks worth making, by what each is expected to tell in a minute; none where the lead is clear.
 * @param weighed heaviest first
 * @param kind of fault asked about, and the face it was seen on
 * @param isAble whether something at the bench can still be looked at
 */
export function walkOf(
	weighed: readonly Weighed[],
	sights: Sights,
	{ kind, face }: { kind: string; face: string },
	isAble: Able,
): Look[] {
	if ((weighed[0]?.weight ?? 0) >= walkEnds.lead) return [];
	const heavy = weighed.filter(({ weight }) => weight >= light);
	return [...faceLooks(heavy, sights, kind, partOf(face)), ...bench(heavy, isAble)]
		.filter(({ gain }) => gain >= walkEnds.gain_bit)
		.sort((a, b) => b.gain / b.minutes - a.gain / a.minutes)
		.map(({ gain: _, ...look }) => look);
}
