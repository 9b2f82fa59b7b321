import {
	coatOfDay,
	daysIn,
	explain,
	faceOf,
	type Ground,
	grouped,
	planOf,
	sumOf,
	uneasesOf,
} from './ground.ts';
import { ends, sorts, unprepared } from './numbers.ts';
import { early, film, handled, late, missed, type OfPass, prepared, twice, under } from './pass-softs.ts';
import type { Cause } from './prior.ts';
import { meanOf, type Soft, together } from './soft.ts';
import type { Change, Pass } from './timeline.ts';
import type { Explanation } from './weigh.ts';

/** One sort of extent: passes with how likely each is against the others of its sort. */
type Sort = { share: number; extents: { passes: readonly Pass[]; weight: number; extent?: string }[] };

const one = (pass: Pass) => ({ passes: [pass], weight: 1 });
const all = (groups: readonly Pass[][], extent?: (passes: readonly Pass[]) => string) =>
	groups.map(passes => ({ passes, weight: 1, ...(extent && { extent: extent(passes) }) }));

const partOf = ({ timeline }: Ground, pass: Pass): string =>
	faceOf(timeline, pass.face)?.part ?? pass.face.split('/')[0] ?? pass.face;
const coatSaid = (passes: readonly Pass[]) => `all of coat ${passes[0]?.coat}`;
const coats = (passes: readonly Pass[]) => all(grouped(passes, coatOfDay), coatSaid);
const parts = (ground: Ground, passes: readonly Pass[]) =>
	all(
		grouped(passes, pass => `${coatOfDay(pass)} ${partOf(ground, pass)}`),
		([first]) => (first ? `${partOf(ground, first)}, coat ${first.coat}` : ''),
	);

/** From each pass of a group to its end, by what lies before it. */
const onward = (groups: readonly Pass[][], weight: (pass: Pass) => number) =>
	groups.flatMap(group => group.map((pass, at) => ({ passes: group.slice(at), weight: weight(pass) })));

/** Explanations of a cause from its sorts of extent; a sort that there is none of leaves its share to the others. */
function laidOut(
	ground: Ground,
	cause: Cause,
	given: readonly Sort[],
	odds: (passes: readonly Pass[]) => { odds: number; softs: () => readonly Soft[] },
): Explanation[] {
	const there = given.filter(({ extents }) => extents.length > 0);
	const whole = sumOf(there.map(({ share }) => share));
	const days = new Set(ground.days);
	return there.flatMap(({ share, extents }) => {
		const weights = sumOf(extents.map(({ weight }) => weight));
		return extents
			.filter(({ passes }) => passes.some(({ day }) => days.has(day)))
			.flatMap(({ passes, weight, extent }) =>
				explain(ground, cause, passes, {
					share: ((share / whole) * weight) / weights,
					...odds(passes),
					...(extent !== undefined && { extent }),
				}),
			);
	});
}

/** What each pass says of its own, once for all extents. */
function own(ground: Ground, of: OfPass) {
	const kept = new Map<Pass, Soft[]>();
	return (pass: Pass): Soft[] => {
		const known = kept.get(pass) ?? of(ground, pass);
		kept.set(pass, known);
		return known;
	};
}

const isFluid = ({ record }: Change): boolean => record.type === 'gun.set' && record.fluid !== null;

/** What lies before each pass. */
function uneases({ timeline }: Ground, touches?: (change: Change) => boolean): (pass: Pass) => number {
	const kept = new Map<Pass, number>();
	for (const { passes, changes } of timeline.days)
		for (const [nth, unease] of uneasesOf(passes, changes, touches).entries()) {
			const pass = passes[nth];
			if (pass) kept.set(pass, unease);
		}
	return pass => kept.get(pass) ?? 1;
}

/** All that was read of different passes inside one extent. */
const joined = (of: (pass: Pass) => Soft[]) => (passes: readonly Pass[]) => {
	const softs = passes.flatMap(of);
	return { odds: together(softs), softs: () => softs };
};

/** The mean over passes: a record names one of them. */
const averaged = (of: (pass: Pass) => Soft[]) => (passes: readonly Pass[]) => ({
	odds: meanOf(passes.map(pass => together(of(pass)))),
	softs: () => [...new Map(passes.flatMap(of).map(soft => [soft.says(), soft])).values()],
});

const days = (ground: Ground): Pass[][] => ground.timeline.days.map(({ passes }) => passes);
const half = (extents: Sort['extents']) => {
	const sum = sumOf(extents.map(({ weight }) => weight));
	return extents.map(extent => ({ ...extent, weight: extent.weight / (2 * sum) }));
};

function filmExtents(ground: Ground, cause: Cause): Explanation[] {
	const { passes } = ground.timeline;
	const before = uneases(ground, isFluid);
	const byCoat = grouped(passes, coatOfDay);
	const rests = byCoat.flatMap(group => onward([group.slice(1)], before));
	const sort = [
		{ share: sorts.film.pass, extents: passes.map(pass => ({ passes: [pass], weight: before(pass) })) },
		{ share: sorts.film.coat, extents: [...half(coats(passes)), ...half(rests)] },
	];
	const way = cause.code === 'film-too-heavy' ? 'heavy' : 'light';
	return laidOut(ground, cause, sort, joined(own(ground, film(way))));
}

function countExtents(ground: Ground, cause: Cause, of: OfPass): Explanation[] {
	const before = uneases(ground);
	const extents = ground.timeline.passes.map(pass => ({ passes: [pass], weight: before(pass) }));
	return laidOut(ground, cause, [{ share: 1, extents }], joined(own(ground, of)));
}

function recoatExtents(ground: Ground, cause: Cause, of: OfPass): Explanation[] {
	const softs = own(ground, of);
	const over = ground.timeline.passes.filter(pass => under(ground.timeline, pass) !== undefined);
	const named = over.filter(pass => softs(pass).some(({ isRecord }) => isRecord));
	const sort = [
		{ share: sorts.recoat.named, extents: named.map(one) },
		{ share: sorts.recoat.coat, extents: coats(over) },
		{ share: sorts.recoat.part, extents: parts(ground, over) },
	];
	return laidOut(ground, cause, sort, averaged(softs));
}

function surfaceExtents(ground: Ground, cause: Cause): Explanation[] {
	const { timeline } = ground;
	const { passes } = timeline;
	const weighed = (extents: Sort['extents']) =>
		extents.map(extent => ({
			...extent,
			weight: extent.passes.some(pass => planOf(timeline, pass)?.prep.length) ? 1 : unprepared,
		}));
	const first = passes.filter(({ coat }) => coat === 1);
	const sort = [
		{ share: sorts.surface.part, extents: weighed(parts(ground, passes)) },
		{ share: sorts.surface.face, extents: weighed(passes.map(one)) },
		{
			share: sorts.surface.first,
			extents: first.length > 0 ? [{ passes: first, weight: 1, extent: 'all of coat 1' }] : [],
		},
	];
	return laidOut(ground, cause, sort, averaged(own(ground, prepared)));
}

function distanceExtents(ground: Ground, cause: Cause): Explanation[] {
	const { timeline } = ground;
	const { passes } = timeline;
	const tilted = passes.filter(({ face }) => {
		const found = faceOf(timeline, face);
		return found !== undefined && (found.tilt !== 0 || found.attitude === 'underside');
	});
	const sort = [
		{ share: sorts.distance.pass, extents: passes.map(one) },
		{ share: sorts.distance.coat, extents: coats(passes) },
		{ share: sorts.distance.onward, extents: onward(days(ground), uneases(ground)) },
		{
			share: sorts.distance.tilted,
			extents: all(
				grouped(tilted, ({ day }) => `${day}`),
				() => 'tilted faces and undersides',
			),
		},
	];
	return laidOut(ground, cause, sort, () => ({ odds: 1, softs: () => [] }));
}

function airLineExtents(ground: Ground, cause: Cause): Explanation[] {
	const before = uneases(ground);
	const intervals = daysIn(ground).flatMap(({ passes }) =>
		passes.flatMap((pass, from) =>
			passes.slice(from).map((_, more) => ({
				passes: passes.slice(from, from + more + 1),
				weight: before(pass) * ends.unnoticed * (1 - ends.unnoticed) ** more,
			})),
		),
	);
	const sort = [
		{ share: sorts['air line'].onward, extents: onward(days(ground), before) },
		{ share: sorts['air line'].interval, extents: intervals },
	];
	return laidOut(ground, cause, sort, () => ({ odds: 1, softs: () => [] }));
}

/** A cause of the shop's own that no record bears on: any day as a whole, or any face in a coat. */
function unrecorded(ground: Ground, cause: Cause): Explanation[] {
	const sort = [
		{ share: sorts.film.pass, extents: ground.timeline.passes.map(one) },
		{ share: sorts.film.coat, extents: all(days(ground).filter(({ length }) => length > 0)) },
	];
	return laidOut(ground, cause, sort, () => ({ odds: 1, softs: () => [] }));
}

/** Causes of a pass, a coat or a part of it, each with its extents. */
export function passExtents(ground: Ground, cause: Cause): Explanation[] {
	switch (cause.code) {
		case 'film-too-heavy':
		case 'film-too-light':
			return filmExtents(ground, cause);
		case 'too-many-coats':
			return countExtents(ground, cause, twice);
		case 'face-missed':
			return countExtents(ground, cause, missed);
		case 'coat-too-early':
			return recoatExtents(ground, cause, early);
		case 'window-missed':
			return recoatExtents(ground, cause, late);
		case 'surface':
			return surfaceExtents(ground, cause);
		case 'gun-too-near':
		case 'gun-too-far':
			return distanceExtents(ground, cause);
		case 'air-line':
			return airLineExtents(ground, cause);
		case 'handling': {
			const extents = ground.timeline.passes.map(one);
			return laidOut(ground, cause, [{ share: 1, extents }], joined(own(ground, handled)));
		}
		default:
			return unrecorded(ground, cause);
	}
}
