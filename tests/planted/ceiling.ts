import { type Cause, codes, formsOf, type Spot, spotKey } from './causes.ts';
import type { PlantedDay } from './day.ts';
import type { Effects } from './effects.ts';
import { extentsOf } from './extents.ts';
import { eye } from './habits.ts';
import { callShare } from './inspecting.ts';
import { airLikely, edgesLikely, filmLikely, saysLikely } from './records-weighed.ts';
import type { Answer } from './score.ts';
import { showing } from './showing.ts';

/**
 * The same day answered by Bayes with this room's own tables: what can be known of it. It is an estimate from below: one cause at a
 * time, extents by `extents.ts`, a second kind and calls before a pass left out.
 */

type Evidence = {
	day: PlantedDay;
	top: ReadonlyMap<string, number>;
	kinds: ReadonlyMap<string, Spot & { kind: string }>;
	cleared: ReadonlySet<string>;
};

function evidenceOf(day: PlantedDay): Evidence {
	const top = new Map<string, number>();
	for (const { face, coat } of day.passes) top.set(face, Math.max(coat, top.get(face) ?? 0));
	const cleared = day.records.flatMap(one => (one.type === 'face.judged' ? [one.face] : []));
	return { day, top, kinds: new Map(day.marks.map(mark => [mark.face, mark])), cleared: new Set(cleared) };
}

/** Coats of an extent on a face, the last that the face got, and its mark. */
type OnFace = { own: readonly number[]; last: number; mark: (Spot & { kind: string }) | undefined };

const onFaces = ({ top, kinds }: Evidence, extent: readonly Spot[]): OnFace[] =>
	[...top].map(([face, last]) => ({
		own: extent.filter(spot => spot.face === face).map(({ coat }) => coat),
		...{ last, mark: kinds.get(face) },
	}));

/** How likely what is marked on a face is, where a share of the passes shows; `named`: how often it is called so. */
function markGiven({ own, last, mark }: OnFace, share: number, named: number): number {
	const shows = (1 - (1 - share) ** own.length) * (1 - eye.misses);
	if (!mark) return (1 - shows) * (1 - eye.falseMarks);
	const isTop = mark.coat === last ? eye.namesTop : 0;
	const isOwn = own.some(coat => coat === mark.coat || coat + 1 === mark.coat);
	const placed = isTop + (isOwn ? (1 - eye.namesTop) / own.length : 0);
	return shows * named * placed + (1 - shows) * (eye.falseMarks / 5);
}

const shares = [showing.low, (showing.low + showing.high) / 2, showing.high - 0.02];
const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

/** One kind shows on most faces; now and then another of the same cause does. */
function marksLikely(evidence: Evidence, cause: Cause, extent: readonly Spot[], effects: Effects): number {
	const all = effects(cause);
	const sum = all.reduce((total, { weight }) => total + weight, 0);
	const faces = onFaces(evidence, extent);
	const byAny = faces.map(({ mark }) =>
		mark
			? all.reduce((total, { kind, weight }) => total + (weight / sum) * callShare(kind, mark.kind), 0)
			: 1,
	);
	const second = showing.secondKind / 2;
	const ofKind = (kind: string) => {
		const named = faces.map(
			({ mark }, nth) => (1 - second) * (mark ? callShare(kind, mark.kind) : 1) + second * (byAny[nth] ?? 0),
		);
		return mean(
			shares.map(share =>
				faces.reduce((likely, face, nth) => likely * markGiven(face, share, named[nth] ?? 0), 1),
			),
		);
	};
	return all.reduce((total, { kind, weight }) => total + (weight / sum) * ofKind(kind), 0);
}

/** Codes by what is left of them when all is weighed, likeliest first. */
export function ceilingOf(day: PlantedDay, effects: Effects): Answer {
	const evidence = evidenceOf(day);
	const wanted = (spot: Spot): number => {
		const opened = day.records[0];
		const sheet = opened?.type === 'day.opened' ? opened.sheet : undefined;
		const coat = sheet?.faces.find(({ id }) => id === spot.face)?.coats[spot.coat - 1];
		return (coat && sheet?.materials[coat.material]?.coats[coat.kind]?.dry_um) ?? 25;
	};
	const weights = codes.map(code => {
		const forms: readonly string[] = formsOf[code];
		const ofForms = forms.map(form => {
			const cause: Cause = { code, form };
			const shared = airLikely(day.records, cause) * edgesLikely(day.records, cause);
			const ofExtents = extentsOf(cause, day).map(({ extent, share }) => {
				const own = new Set(extent.map(spotKey));
				const marks = marksLikely(evidence, cause, extent, effects);
				return share * marks * filmLikely(day, cause, own, wanted) * saysLikely(day, cause, extent);
			});
			return (shared * ofExtents.reduce((sum, one) => sum + one, 0)) / forms.length;
		});
		return { code, weight: ofForms.reduce((sum, one) => sum + one, 0) };
	});
	return {
		codes: weights.toSorted((one, other) => other.weight - one.weight).map(({ code }) => code),
		told: false,
	};
}
