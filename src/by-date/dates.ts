/** When what holds for a month, a year or longer is asked again. Dates are local, as `2027-03-02`. */

/** What was answered of one thing. */
export type Dated = {
	/** When it was done; null: not known, or not yet. */
	last: string | null;
	/** When it ends to hold; null: it is not for this painter. */
	due: string | null;
	/** Not asked again before. */
	again: string;
};

/** What was answered, by the code of what was asked. */
export type Dates = Readonly<Record<string, Dated>>;

/** A number of months ago, or that there was none yet, or that none is wanted. */
export type DatedAnswer = number | 'not-yet' | 'not-mine';

/** What is overdue is asked again after a month; what is not for a painter, after a year. This project's own choice. */
const soon_months = 1;
const year_months = 12;

const two = (count: number): string => String(count).padStart(2, '0');

/** A date so many months on, or back; in a shorter month its last day. */
export function monthsFrom(date: string, months: number): string {
	const [year = 0, month = 1, day = 1] = date.split('-').map(Number);
	const at = year * 12 + (month - 1) + months;
	const [toYear, toMonth] = [Math.floor(at / 12), (at % 12) + 1];
	const lastDay = new Date(Date.UTC(toYear, toMonth, 0)).getUTCDate();
	return `${String(toYear).padStart(4, '0')}-${two(toMonth)}-${two(Math.min(day, lastDay))}`;
}

/** What an answer makes of a thing that holds for so many months. */
export function dated(answer: DatedAnswer, every_months: number, today: string): Dated {
	if (answer === 'not-mine') return { last: null, due: null, again: monthsFrom(today, year_months) };
	const soon = monthsFrom(today, soon_months);
	if (answer === 'not-yet') return { last: null, due: today, again: soon };
	const last = monthsFrom(today, -answer);
	const due = monthsFrom(last, every_months);
	return { last, due, again: due > today ? due : soon };
}

/** What is asked now: never answered, or its time has come again. */
export const isAskedNow = (known: Dated | undefined, today: string): boolean =>
	known === undefined || known.again <= today;

/** The one line of what is overdue; empty: nothing is. */
export function overdueLine(dates: Dates, today: string): string {
	const late = Object.entries(dates).filter(([, { due }]) => due !== null && due <= today);
	return late.length === 0 ? '' : `Overdue: ${late.map(([code]) => code.replaceAll('-', ' ')).join(', ')}.`;
}
