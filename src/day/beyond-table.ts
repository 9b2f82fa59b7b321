import { beyondTable } from '../plan/windows.ts';
import { faceBook, faceOf, jobOf, type Moment } from './moment.ts';
import type { DayRecord } from './records.ts';

/** A surface beyond the sheet's recoat table is judged the careful way: that is said where its windows are told. */

/** On which side of the table the surface of a face lies, by which its windows were worked out; null: inside it. */
export function beyondOf(moment: Moment, id: string): 'above' | 'below' | null {
	const { windows } = faceBook(moment, id);
	return windows && beyondTable(jobOf(moment), faceOf(moment, id), windows.coat, windows.surfaceC);
}

/**
 * What is said beside the next question where a reading, or a day that begins, put windows beyond their table; null:
 * none is. Of a coat just laid its wait says it.
 * @param made the records of one key
 */
export function beyondSaid(moment: Moment, made: readonly DayRecord[]): string | null {
	if (made.some(({ type }) => type === 'face.ended')) return null;
	for (const record of made) {
		if (record.type !== 'window.set') continue;
		const side = beyondTable(jobOf(moment), faceOf(moment, record.face), record.coat, record.surfaceC);
		if (side) return `Surface ${side} the sheet's recoat table: the careful times hold.`;
	}
	return null;
}
