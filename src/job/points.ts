import { lasts_h, ruleAt } from '../trade/process-clock.ts';
import type { TimeAt } from '../trade/time.ts';
import type { Source } from './document.ts';
import type { FlashEntry } from './flash-keys.ts';
import type { FlashPoints, Material } from './job.ts';
import type { MaterialEntry } from './sheet.ts';

/** Times of a sheet that are lists of points: each process has a clock of its own by them. */

/** A temperate shop: where one time is wanted of a list, it is the one nearest to it, °C. */
const temperate_C = 21;

const nearestOf = (points: readonly TimeAt[]): TimeAt =>
	points.reduce((one, other) =>
		Math.abs(other.at_C - temperate_C) < Math.abs(one.at_C - temperate_C) ? other : one,
	);

const isList = <Time>(read: Time | TimeAt[]): read is TimeAt[] => Array.isArray(read);

/** The one time of a pot life, or of its points the one nearest to a temperate shop. */
export const lifeOf = (read: TimeAt | TimeAt[]): TimeAt => (isList(read) ? nearestOf(read) : read);

/** Minutes that a batch stands, or of its points the time nearest to a temperate shop. */
export const standingOf_min = (read: number | TimeAt[]): number =>
	isList(read) ? nearestOf(read).hours * 60 : read / 60;

/** What is wrong with a list of points; undefined: nothing. */
function wrongWith(points: readonly TimeAt[]): string | undefined {
	const rising = points.toSorted((one, other) => one.at_C - other.at_C);
	for (const [nth, { at_C, hours }] of rising.entries()) {
		const cooler = rising[nth - 1];
		if (!cooler) continue;
		if (cooler.at_C === at_C) return 'two times at one temperature; take one out';
		if (hours > cooler.hours) return 'a time grows longer with warmth; swap or mend them';
	}
	return undefined;
}

/** … with the place where it is said. */
function checked(source: Source, points: TimeAt[], at: number, name: string): TimeAt[] | undefined {
	const wrong = wrongWith(points);
	if (wrong) source.fail(at, `${name}: ${wrong}`);
	return wrong ? undefined : points;
}

type Flash = {
	from: number | TimeAt[] | undefined;
	to: number | TimeAt[] | undefined;
	at_C: number | undefined;
	hasAt: boolean;
};

/** What is wrong with how a flash is written, and at which key; undefined: nothing. */
function mixedUp({ from, to, hasAt }: Flash): { key: 'to' | 'at'; says: string } | undefined {
	const isListed = isList(from);
	if (isListed && hasAt)
		return { key: 'at', says: 'at: the list names its temperatures already; take "at" out' };
	if (from !== undefined && to !== undefined && isList(to) !== isListed)
		return {
			key: 'to',
			says: 'from, to: write both as one time, or both as a list of times at temperatures',
		};
	if (!isListed && !isList(to) && !hasAt) return { key: 'at', says: 'at is missing: write "at: …"' };
	return undefined;
}

const writtenIn = ({ values: { from, to, at }, has }: FlashEntry): Flash => ({
	from,
	to,
	at_C: at,
	hasAt: has('at'),
});

/**
 * Least and most wait of a flash at one temperature, s: as written, or at the point nearest to a temperate shop.
 * @returns undefined where it could not be read, or is mixed up
 */
export function flashTimesOf(
	entry: FlashEntry,
): { from_s: number; to_s: number | null; at_C: number } | undefined {
	const flash = writtenIn(entry);
	const { from, to, at_C = temperate_C } = flash;
	if (from === undefined || mixedUp(flash)) return undefined;
	if (!isList(from)) return { from_s: from, to_s: isList(to) ? null : (to ?? null), at_C };
	if (wrongWith(from) || (isList(to) && wrongWith(to))) return undefined;
	const least = nearestOf(from);
	return {
		from_s: least.hours * 3600,
		to_s: isList(to) ? lasts_h({ kind: 'end', points: to }, least.at_C) * 3600 : null,
		at_C: least.at_C,
	};
}

/** A temperature that both lists reach at which the most comes before the least. */
const crossedAt = (from: TimeAt[], to: TimeAt[]): number | undefined =>
	[...from, ...to]
		.map(({ at_C }) => at_C)
		.find(at_C => {
			const clocks = [
				{ kind: 'beginning', points: from },
				{ kind: 'end', points: to },
			] as const;
			const [least_h = 0, most_h = 0] = clocks.map(clock => lasts_h(clock, at_C));
			return clocks.every(clock => ruleAt(clock, at_C) === 'points') && most_h < least_h;
		});

/**
 * The points of a flash; one time at a temperature is one point. What is wrong with them is said.
 * @returns undefined where they cannot be used
 */
export function flashPointsOf(source: Source, entry: FlashEntry): FlashPoints | undefined {
	const flash = writtenIn(entry);
	const wrong = mixedUp(flash);
	if (wrong) {
		source.fail(entry.place(wrong.key), `${entry.name}, ${wrong.says}`);
		return undefined;
	}
	if (flash.from === undefined) return undefined;
	const { at_C = temperate_C } = flash;
	const pointsOf = (read: number | TimeAt[]) => (isList(read) ? read : [{ at_C, hours: read / 3600 }]);
	const from = checked(source, pointsOf(flash.from), entry.place('from'), `${entry.name}, from`);
	const to =
		flash.to === undefined
			? null
			: checked(source, pointsOf(flash.to), entry.place('to'), `${entry.name}, to`);
	if (!from || to === undefined) return undefined;
	if (to && crossedAt(from, to) !== undefined) {
		source.fail(entry.place('to'), `${entry.name}: ends (to) before it begins (from); swap them`);
		return undefined;
	}
	return { from, to };
}

/** The clocks that a material lists points for, with the factor that it writes; undefined: none. What is wrong with them is said. */
export function clocksOf(
	source: Source,
	entry: MaterialEntry,
	coats: Material['coats'],
): NonNullable<Material['clocks']> | undefined {
	const { flash, 'pot life': life, standing: stands, 'time factor': factorPer10C } = entry.values;
	const listOf = (key: 'pot life' | 'standing', read: number | TimeAt | TimeAt[] = []) =>
		isList(read) && read.length > 0
			? checked(source, read, entry.place(key), `${entry.name}, ${key}`)
			: undefined;
	const potLife = listOf('pot life', life);
	const standing = listOf('standing', stands);
	const points = flash && flashPointsOf(source, flash);
	const listed = points && isList(flash?.values.from) ? points : undefined;
	const ofKind = Object.values(coats).some(coat => coat.flash);
	if (!potLife && !standing && !listed && !ofKind && !factorPer10C) return undefined;
	return {
		...(potLife && { potLife }),
		...(standing && { standing }),
		...(listed && { flash: listed }),
		...(factorPer10C && { factorPer10C }),
	};
}
