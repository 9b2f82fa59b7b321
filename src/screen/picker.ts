import { type Answer, type Choice, type Corner, corners, type View } from '../day/view.ts';
import { sentence } from '../words/say.ts';
import { nothingElse } from './nothing-else.ts';
import type { Session } from './session-port.ts';

/** A job sheet to choose, and the day of that job that was left open, if any. */
export type SheetToPick = { path: string; name: string; openDay: string | null };
/** A day left open, with when it began, as words. */
export type DayToPick = { path: string; name: string; began: string };

/** A job with work to come and no day open: its newest day, and what is due next and when, as words; `isLate`: a recoat window was missed. */
export type JobToPick = { name: string; day: string; due: string; isLate: boolean };

/** A sheet that cannot be used, by its file and why. */
type WrongSheet = { file: string; why: string };

export type Picked =
	| { what: 'new' }
	| { what: 'mend'; sheet: string }
	| { what: 'go-on'; day: string }
	| { what: 'carry-on'; day: string }
	| { what: 'spray'; sheet: string }
	| { what: 'rehearse'; sheet: string };

export type Picker = {
	session: Session;
	picked(): Picked | null;
	/** Says so of a sheet that was found wrong while the picker is up; chosen, its errors are shown. */
	cannotBeUsed(path: string, sheet: WrongSheet): void;
};

type Offer = { choice: Choice; line?: string; take: () => void };
/** `hint` stands under the lines of the offers on the page. */
type Question = { state: string; say: string; lines: string[]; offers: Offer[]; hint?: string };

const corner = (choice: Choice['text'], code: string): Choice => ({ code, text: choice.toUpperCase() });

/** Up to four offers take the corners; more of them turn pages with the last one. */
function onPage(offers: Offer[], page: number, turn: () => void): Offer[] {
	if (offers.length <= corners.length) return offers;
	const first = (page * 3) % (Math.ceil(offers.length / 3) * 3);
	const shown = offers.slice(first, first + 3);
	const more: Offer = { choice: { code: 'more', text: 'MORE' }, take: turn };
	return [...shown, more];
}

/** The corners of a page: its last offer stands in the last corner where it turns the page. */
function placed(offers: Offer[]): Map<Corner, Offer> {
	const last = offers.at(-1);
	const turns = last?.choice.code === 'more';
	const map = new Map<Corner, Offer>();
	for (const [index, offer] of (turns ? offers.slice(0, -1) : offers).entries()) {
		const at = corners[index];
		if (at) map.set(at, offer);
	}
	if (turns && last) map.set('bottomRight', last);
	return map;
}

type ToPick = {
	sheets: readonly SheetToPick[];
	days: readonly DayToPick[];
	jobs: readonly JobToPick[];
	/** Why a sheet cannot be used, by its path. */
	wrong: ReadonlyMap<string, WrongSheet>;
};
type Deeds = { pick(what: Picked): void; choose(sheet: SheetToPick): void; back(): void };

/** What there is to choose, the most urgent first: a day left open, a job to go on with, a sheet, a new job. */
function offersOf({ sheets, days, jobs, wrong }: ToPick, deeds: Deeds): Offer[] {
	return [
		...days.map(({ path, name, began }) => ({
			choice: corner(`carry on ${name}`, path),
			line: `Open: ${name}, begun ${began}.`,
			take: () => deeds.pick({ what: 'carry-on', day: path }),
		})),
		...jobs.map(({ day, name, due, isLate }) => ({
			choice: corner(`${isLate ? 'late: ' : ''}go on with ${name}`, day),
			line: `${name}, ${due}.`,
			take: () => deeds.pick({ what: 'go-on', day }),
		})),
		...sheets.map((sheet): Offer => {
			const { file, why } = wrong.get(sheet.path) ?? {};
			if (file === undefined)
				return { choice: corner(sheet.name, sheet.path), take: () => deeds.choose(sheet) };
			return {
				choice: corner(file, sheet.path),
				line: `${file}: ${why}.`,
				take: () => deeds.pick({ what: 'mend', sheet: sheet.path }),
			};
		}),
		{ choice: corner('new', 'new'), take: () => deeds.pick({ what: 'new' }) },
	];
}

function sayOf({ sheets, days, jobs }: ToPick): string {
	if (days.length > 0) return 'A day is open: carry it on, or choose a sheet.';
	if (jobs.length > 0) return 'Job to go on with: choose it, or a sheet.';
	return sheets.length > 0 ? 'Job sheet: choose one.' : 'No job sheet here: NEW asks for one.';
}

/** Which day, or which sheet? */
function whichDay(
	toPick: ToPick,
	{ read, overdue }: { read: string; overdue: string },
	deeds: Deeds,
): Question {
	return {
		state: 'pick.day',
		say: sayOf(toPick),
		lines: [overdue, read],
		offers: offersOf(toPick, deeds),
		hint: 'Each answer has its keys beside it: press one.',
	};
}

/** A sheet is chosen: in earnest, or to rehearse? */
function inEarnest({ path, name, openDay }: SheetToPick, deeds: Deeds): Question {
	const spray: Picked =
		openDay === null ? { what: 'spray', sheet: path } : { what: 'carry-on', day: openDay };
	return {
		state: 'pick.how',
		say: `${sentence(name)}: spray it, or rehearse it?`,
		lines: [
			openDay === null ? 'To spray begins a day.' : 'Its open day is carried on.',
			'To rehearse writes nothing.',
		],
		offers: [
			{ choice: corner(openDay === null ? 'spray' : 'carry on', 'spray'), take: () => deeds.pick(spray) },
			{ choice: corner('rehearse', 'rehearse'), take: () => deeds.pick({ what: 'rehearse', sheet: path }) },
			{ choice: corner('back', 'back'), take: deeds.back },
		],
	};
}

/**
 * The screen on which a day is chosen: one left open is carried on, a job sheet is sprayed or rehearsed. A sheet
 * whose job has a day open is carried on too, never begun a second time.
 *
 * @param now the instant shown on the views, ISO 8601
 * @param read from how far the words of a day can be read in the window as it is
 * @param overdue what is asked by date and overdue, in one line; empty: nothing is
 * @param jobs that have work to come and no day open, soonest due first
 * @returns a session for the same screen as the day's own, and what was picked in it
 */
export function openPicker(
	sheets: readonly SheetToPick[],
	days: readonly DayToPick[],
	now: () => string,
	read: () => string = () => '',
	overdue = '',
	jobs: readonly JobToPick[] = [],
): Picker {
	let picked: Picked | null = null;
	let chosen: SheetToPick | null = null;
	let page = 0;
	let changed = () => {};
	const wrong = new Map<string, WrongSheet>();
	const deeds: Deeds = {
		pick(what) {
			picked = what;
		},
		choose(sheet) {
			chosen = sheet;
			page = 0;
		},
		back() {
			chosen = null;
			page = 0;
		},
	};
	const turn = () => {
		page++;
	};
	const question = () =>
		chosen === null
			? whichDay({ sheets, days, jobs, wrong }, { read: read(), overdue }, deeds)
			: inEarnest(chosen, deeds);
	const shown = ({ offers }: Question) => placed(onPage(offers, page, turn));
	const answer = (given: Answer) => {
		if (!('key' in given)) return { accepted: false };
		if (given.key === 'hold') deeds.back();
		else shown(question()).get(given.key)?.take();
		return { accepted: true };
	};
	const view = (): View => {
		const asked = question();
		const offers = [...shown(asked)];
		const choices = offers.map(([at, { choice }]) => [at, choice] as const);
		const { state, say } = asked;
		const own = offers.flatMap(([, { line }]) => line ?? []);
		const lines = [...asked.lines, ...own, asked.hint ?? ''].filter(Boolean).slice(0, 3);
		return {
			...nothingElse(),
			at: now(),
			state,
			ask: 'choose',
			say,
			lines,
			corners: Object.fromEntries(choices),
		};
	};
	const session: Session = {
		tick() {},
		view,
		answer,
		onChange(tell) {
			changed = tell;
			return () => {
				changed = () => {};
			};
		},
		break() {},
		close() {},
		over: () => picked !== null,
	};
	const cannotBeUsed = (path: string, sheet: WrongSheet) => {
		wrong.set(path, sheet);
		changed();
	};
	return { picked: () => picked, session, cannotBeUsed };
}
