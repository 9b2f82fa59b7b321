import type { DayRecord } from '../../src/day/records.ts';
import { rehearsed } from '../day/rehearsed.ts';

/**
 * Records of one long day as a painter makes them: every few answers somebody comes in, so that the gun is checked
 * again and again, and batches die in the pot and are mixed anew.
 */
export function playedRecords(count: number): DayRecord[] {
	const day = rehearsed();
	for (let answers = 1; day.records().length < count; answers++) {
		if (day.line().ask === 'spraying' || answers % 17 === 0) day.send('hold', `wait ${answers % 90} s`);
		else {
			const next = day.painter.answer(day.line());
			if (next === null) throw new Error(`the day ended at ${day.records().length} records`);
			day.send(next);
		}
		if (day.line().ask === 'last-face') day.pick('none');
	}
	return day.records().slice(0, count);
}
