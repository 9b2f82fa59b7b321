import { type DatedAnswer, dated, isAskedNow } from '../by-date/dates.ts';
import { datesFile, readDates, writeDates } from '../by-date/kept.ts';
import { type ByDateItem, byDateList } from '../by-date/list.ts';
import { dataFolder } from '../day/file/folder.ts';
import { plainName, saySystemError } from '../day/file/trouble.ts';
import { isoAt } from '../day/instant.ts';
import { localDate } from '../day/local-zone.ts';
import type { Settings } from '../day/settings.ts';
import { type OneQuestion, oneQuestion } from '../screen/one-question.ts';
import type { Io } from './command.ts';
import { show } from './show.ts';

/** What holds for a month or a year is asked by date, before a day is opened; nothing of it stops the day. */

const notYet = { code: 'not-yet', text: 'NOT YET' };
const notMine = { code: 'not-mine', text: 'NOT FOR ME' };
const later = { code: 'later', text: 'LATER' };

/** @param caution said with the first question */
export const byDateQuestion = ({ code, say, why }: ByDateItem, caution: string | null): OneQuestion => ({
	state: `by-date.${code}`,
	say,
	lines: [...(caution === null ? [] : [caution]), why, 'Kept where only you can read it.'],
	answers: [notYet, notMine, later],
	number: { of: 'months', unit: 'months', min: 0, max: 240 },
});

const answerOf = (given: string | number): DatedAnswer | null => {
	if (typeof given === 'number') return given;
	return given === 'not-yet' || given === 'not-mine' ? given : null;
};

/**
 * Asks what is due, one after the other; LATER ends it until the next day.
 * @returns whether the day is gone on with; false: the question was left
 */
export async function askByDate(settings: Settings, io: Io): Promise<boolean> {
	const folder = dataFolder();
	const today = localDate(Date.now());
	const { caution, items } = byDateList();
	const asked = items.filter(({ code }) => isAskedNow(readDates(folder)[code], today));
	for (const [index, item] of asked.entries()) {
		const question = byDateQuestion(item, index === 0 ? caution : null);
		const { session, answered } = oneQuestion(question, () => isoAt(Date.now()));
		await show({ session, settings }, io);
		const given = answered();
		if (given === null) return false;
		const answer = answerOf(given);
		if (answer === null) return true;
		try {
			writeDates(folder, { ...readDates(folder), [item.code]: dated(answer, item.every_months, today) });
		} catch (error) {
			io.stderr.write(`${plainName(datesFile(folder))}: it was not written; ${saySystemError(error)}\n`);
		}
	}
	return true;
}
