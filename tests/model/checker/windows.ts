import { airsThatCount } from './air-counts.ts';
import { type Laid, lastLaid, prepSince } from './coats.ts';
import { type Day, elapsed, plannedCoat } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, type NoteOf } from './notes.ts';
import { isLeftOut, overrideOf } from './overrides.ts';
import { spansOver } from './recoat.ts';
import { carefulOver, isBySeveral } from './several.ts';

type Start = NoteOf<'face.started'>;
/** A face about to get a coat over one that lies on it. */
type Over = { day: Day; start: Start; laid: Laid; prep: string[] };

const hour_ms = 3_600_000;
/** Instants in the file are rounded to a millisecond; a second is no one's window. */
const slack_ms = 1000;

/** Whether a face in this window may be sprayed, given what was done to it since its last coat. */
function permits(window: string, prep: string[]): boolean {
	if (window === 'spray') return true;
	return window === 'sand'
		? prep.includes('sand')
		: window === 'scuff' && ['scuff', 'sand'].some(s => prep.includes(s));
}

/** Surface temperatures read for a coat so far. */
function surfacesSince(day: Day, laid: Laid, start: Start): number[] {
	const counted = airsThatCount(day.notes.slice(0, start.n));
	const read = counted.filter(({ n }) => n > laid.n).map(({ surfaceC }) => surfaceC);
	return laid.surfaceC === null ? read : [laid.surfaceC, ...read];
}

/** By the sheet's own table and the highest surface temperature read, or by the clocks of a table of several rows. */
function bySheet({ day, start, laid, prep }: Over): string[] {
	const planned = plannedCoat(day, start.face, start.coat);
	const over = day.sheet.materials[planned?.material ?? laid.material ?? ''];
	const under = plannedCoat(day, start.face, laid.coat);
	const wetOnWet = (planned?.stage ?? under?.stage) === under?.stage;
	const surfaces = surfacesSince(day, laid, start);
	if (!over || surfaces.length === 0) return [];
	const surfaceC = Math.max(...surfaces);
	const coat = { kind: under?.kind, coldestC: Math.min(...surfaces) };
	const spans = spansOver(over, laid.material ?? '', surfaceC, wetOnWet, coat);
	if (!spans) return [];
	const { least, most } = elapsed(laid.at, start);
	const spanned = spans.filter(
		({ from_h, until_h }) =>
			least + slack_ms >= from_h * hour_ms && (until_h === null || most - slack_ms <= until_h * hour_ms),
	);
	const careful = isBySeveral(over, laid.material ?? '')
		? carefulOver(day, { face: start.face, laid, over }, start)
		: null;
	const now = [...spanned.map(({ does }) => does), ...(careful === null ? [] : [careful])];
	if (now.some(does => permits(does, prep))) return [];
	const found = [...new Set(now)].join(' or ') || 'wait';
	return [
		`the sheet says ${found} ${(least / 60_000).toFixed(1)} min after coat ${laid.coat} at ${surfaceC} °C`,
	];
}

type Windows = { does: string; from: string; until: string | null }[];

/** By the windows that the day wrote down when the coat was finished. */
function byRecord({ day, start, laid, prep }: Over): string[] {
	const between = day.notes.slice(laid.n, start.n);
	const set = allOf(between, 'window.set').findLast(
		note => note.face === start.face && note.coat === laid.coat,
	);
	if (!set) return laid.n === 0 ? [] : [`no windows were set for coat ${laid.coat}`];
	const { least, most } = elapsed(laid.at, start);
	const now = (set.windows as Windows).filter(
		({ from, until }) =>
			Date.parse(from) - slack_ms <= laid.at.t + least &&
			(until === null || laid.at.t + most <= Date.parse(until) + slack_ms),
	);
	return [
		...(now.some(({ does }) => permits(does, prep))
			? []
			: [`line ${set.line} does not let coat ${laid.coat} be sprayed over`]),
		...(now.some(({ does }) => does === start.window)
			? []
			: [`line ${set.line} does not say ${start.window}`]),
	];
}

/** Wet on wet the touch on the tape tab comes first, and is one that the data sheet allows. */
function byTouch({ day, start, laid, prep }: Over): string[] {
	if (start.from === 'part') return [];
	const planned = plannedCoat(day, start.face, start.coat);
	const under = plannedCoat(day, start.face, laid.coat);
	if (!planned || planned.stage !== under?.stage || prep.some(step => step === 'sand' || step === 'scuff'))
		return [];
	const touch = allOf(day.notes.slice(laid.n, start.n), 'reading.taken').findLast(
		({ feature, face, faces }) =>
			feature === 'touch' &&
			(Array.isArray(faces) ? faces.includes(start.face) : face === start.face || face === null),
	);
	if (!touch) return [`no touch test since coat ${laid.coat}`];
	const allowed = day.sheet.materials[planned.material]?.flash.touch ?? [];
	return allowed.includes(String(touch.value))
		? []
		: [`the tape tab was ${touch.value} at line ${touch.line}`];
}

function overOf(day: Day, start: Start): Over | null {
	const laid = lastLaid(day, start.face, start.n);
	const isInWetEdge = start.from === 'part' && (start.facts as { wet?: boolean } | undefined)?.wet === true;
	return laid && !isInWetEdge ? { day, start, laid, prep: prepSince(day, start.face, laid, start.n) } : null;
}

/** No coat over another unless its windows allow it, by the sheet and by the file's own word (property 3). */
export function windowsOpen(day: Day): Finding[] {
	return allOf(day.notes, 'face.started').flatMap(start => {
		const over = overOf(day, start);
		if (!over) return [];
		const isPassedOver = overrideOf(day, start, 'window') || isLeftOut(day, start, start.window);
		const timing = isPassedOver ? [] : [...bySheet(over), ...byRecord(over)];
		const touch = overrideOf(day, start, 'window', 'touch') ? [] : byTouch(over);
		return [...timing, ...touch].map(says =>
			finding(3, start, `${start.face} gets coat ${start.coat}: ${says}`),
		);
	});
}

/** The wait that the sheet asks for between two coats is over (property 3). */
export function waited(day: Day): Finding[] {
	return allOf(day.notes, 'face.started').flatMap(start => {
		const planned = plannedCoat(day, start.face, start.coat);
		const laid = lastLaid(day, start.face, start.n);
		if (!planned || !laid || start.from === 'part' || laid.coat === start.coat) return [];
		const isOver =
			overrideOf(day, start, 'window') ||
			elapsed(laid.at, start).least + slack_ms >= planned.wait_h * hour_ms;
		const says = `${start.face} gets coat ${start.coat}: the sheet's wait of ${planned.wait_h} h is not over`;
		return isOver ? [] : [finding(3, start, says)];
	});
}
