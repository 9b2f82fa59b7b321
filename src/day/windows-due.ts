import { isDeepStrictEqual } from 'node:util';
import type { Face, Job } from '../job/job.ts';
import { flashClocks, flashOf } from '../job/process-clocks.ts';
import { beyondTable, isClocked } from '../plan/windows.ts';
import { type ClockRule, ruleAt } from '../trade/process-clock.ts';
import type { Held } from '../trade/recoat-clocks.ts';
import { windowsOf } from './allowed.ts';
import type { LaidCoat } from './book.ts';
import { isoAt } from './instant.ts';
import { faceBook, jobOf, type Moment } from './moment.ts';
import { flashEdges, surfaceHeld } from './process.ts';
import type { EventOf } from './records.ts';
import { rulingSurface_C } from './ruling-surface.ts';

/** The recoat windows of the coats that lie, as what was read of their surfaces has them. */

type Spells = EventOf<'window.set'>['windows'];
type Lain = { face: Face; last: LaidCoat; surfaceC: number };

/** What the surface was read at, where the edges of a table over it are clocks. */
const heldOn = ({ state }: Moment, { face, last, surfaceC }: Lain): Held | undefined =>
	isClocked(state.book.opened.sheet, face, last.coat) ? surfaceHeld(state.book, last, surfaceC) : undefined;

/** The coldest and the warmest that it can have had. */
function boundsOf({ coldest, warmest, highest_C }: Held): [number, number] {
	const temps_C = (of: Held['coldest']) => of.flatMap(({ from_C, to_C }) => [from_C, to_C]);
	return [Math.min(...temps_C(coldest)), Math.max(...temps_C(warmest), highest_C)];
}

/** What a coat allows, by the readings so far. */
function spellsOf(moment: Moment, lain: Lain): Spells {
	const { face, last, surfaceC } = lain;
	const { book } = moment.state;
	const coat = face.coats[last.coat - 1];
	const flash = coat && flashEdges(book, coat, last);
	const held = heldOn(moment, lain);
	const at = (hours: number) => isoAt(Math.round(last.ended.wall + hours * 3_600_000));
	return windowsOf(jobOf(moment), face, last.coat, surfaceC, flash, held).map(
		({ does, from_h, until_h }) => ({
			does,
			from: at(from_h),
			until: until_h === null ? null : at(until_h),
		}),
	);
}

/** The sheet with no factor by which a time is carried on past what it is given for. */
const uncarried = ({ materials, ...job }: Job): Job => ({
	...job,
	materials: Object.fromEntries(
		Object.entries(materials).map(([id, material]) => [
			id,
			{ ...material, factorPer10C: 1, clocks: { ...material.clocks, factorPer10C: 1 } },
		]),
	),
});

/**
 * By which rule windows were worked out; undefined: a wait without an end rests on none. *Rule of thumb*: one of their edges
 * would lie elsewhere, were no time carried on by a factor.
 */
function ruleOf(moment: Moment, lain: Lain, spells: Spells): ClockRule | undefined {
	const { face, last, surfaceC } = lain;
	const { state } = moment;
	const sheet = jobOf(moment);
	if (spells.every(({ does, until }) => does === 'wait' && until === null)) return undefined;
	const opened = { ...state.book.opened, sheet: uncarried(sheet) };
	const plain = { ...moment, state: { ...state, book: { ...state.book, opened } } };
	if (!isDeepStrictEqual(spells, spellsOf(plain, lain))) return 'rule of thumb';
	const [under, over] = [face.coats[last.coat - 1], face.coats[last.coat]];
	const material = under && sheet.materials[under.material];
	const flash = material && under.stage === over?.stage ? flashOf(material, under.kind) : undefined;
	const isOff = beyondTable(sheet, face, last.coat, surfaceC) !== null;
	return isOff || (flash && ruleAt(flash.least, surfaceC) !== 'points') ? 'nearest point' : 'points';
}

/** Windows of every coat whose surface temperature, end or flash is new: before any reading, what earlier days read rules. */
export const windowsDue = (moment: Moment): EventOf<'window.set'>[] =>
	jobOf(moment).faces.flatMap((face): EventOf<'window.set'>[] => {
		const { laid, windows } = faceBook(moment, face.id);
		const last = laid.at(-1);
		if (!last) return [];
		const lain = { face, last, surfaceC: rulingSurface_C(moment, last, last.ended) };
		const { surfaceC } = lain;
		const coat = face.coats[last.coat - 1];
		const material = coat && jobOf(moment).materials[coat.material];
		const isSame = windows?.coat === last.coat && windows.surfaceC === surfaceC;
		const isByReadings =
			isClocked(jobOf(moment), face, last.coat) || (material && flashClocks(material, coat.kind));
		if (isSame && !isByReadings) return [];
		const spells = spellsOf(moment, lain);
		if (isSame && windows && isDeepStrictEqual(windows.windows, spells)) return [];
		const rule = ruleOf(moment, lain, spells);
		const held = heldOn(moment, lain);
		const told = { face: face.id, coat: last.coat, surfaceC, windows: spells };
		return [
			{ type: 'window.set', ...told, ...(held && { bounds_C: boundsOf(held) }), ...(rule && { rule }) },
		];
	});
