import { type Answer, type Choice, type Corner, corners, type View } from '../day/view.ts';
import { sentence } from '../words/say.ts';
import { nothingElse } from './nothing-else.ts';
import type { Session } from './session-port.ts';

/** A job sheet to choose, and the day of that job that was left open, if any. */
export type SheetToPick = { path: string; name: string; openDay: string | null };
/** A day left open, with when it began, as words. */
export type DayToPick = { path: string; name: string; began: string };

/** A job with work to come and no day open: its newest day, and what is due next and when, as words. */
export type JobToPick = { name: string; day: string; due: string };

export type Picked =
	| { what: 'go-on'; day: string }
	| { what: 'carry-on'; day: string }
	| { what: 'spray'; sheet: string }
	| { what: 'rehearse'; sheet: string };

type Offer = { choice: Choice; line?: string; take: () => void };
type Question = { state: string; say: string; lines: string[]; offers: Offer[] };

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
};
type Deeds = { pick(what: Picked): void; choose(sheet: SheetToPick): void; back(): void };

/** Which day, or which sheet? */
function whichDay({ sheets, days, jobs }: ToPick, read: string, overdue: string, deeds: Deeds): Question {
	const goesOn = jobs.length > 0 ? 'Job to go on with: choose it, or a sheet.' : 'Job sheet: choose one.';
	return {
		state: 'pick.day',
		say: days.length > 0 ? 'A day is open: carry it on, or choose a sheet.' : goesOn,
		lines: [
			overdue,
			read,
			...days.map(({ name, began }) => `Open: ${name}, begun ${began}.`),
			...jobs.map(({ name, due }) => `${name}, ${due}.`),
			'Each answer has its keys beside it: strike one of them.',
		]
			.filter(Boolean)
			.slice(0, 3),
		offers: [
			...days.map(({ path, name }) => ({
				choice: corner(`carry on ${name}`, path),
				take: () => deeds.pick({ what: 'carry-on', day: path }),
			})),
			...jobs.map(({ day, name }) => ({
				choice: corner(`go on with ${name}`, day),
				take: () => deeds.pick({ what: 'go-on', day }),
			})),
			...sheets.map(sheet => ({
				choice: corner(sheet.name, sheet.path),
				take: () => deeds.choose(sheet),
			})),
		],
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
): { session: Session; picked(): Picked | null } {
	let picked: Picked | null = null;
	let chosen: SheetToPick | null = null;
	let page = 0;
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
		chosen === null ? whichDay({ sheets, days, jobs }, read(), overdue, deeds) : inEarnest(chosen, deeds);
	const shown = ({ offers }: Question) => placed(onPage(offers, page, turn));
	const answer = (given: Answer) => {
		if (!('key' in given)) return { accepted: false };
		if (given.key === 'hold') deeds.back();
		else shown(question()).get(given.key)?.take();
		return { accepted: true };
	};
	const view = (): View => {
		const asked = question();
		const choices = [...shown(asked)].map(([at, { choice }]) => [at, choice] as const);
		const { state, say, lines } = asked;
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
		onChange: () => () => {},
		break() {},
		close() {},
		over: () => picked !== null,
	};
	return { picked: () => picked, session };
}
