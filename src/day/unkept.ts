import { DayFileError, type FarWords } from './file/trouble.ts';
import type { DayEvent, DayRecord } from './records.ts';
import type { View } from './view.ts';

/** Records on their way to the disk, and what waits where the disk does not take them. */
export type Keeping = {
	/**
	 * Puts the records of one key on the disk, behind all that waits.
	 * @returns false where it does not take them: they are not kept, and do not wait
	 */
	keep(records: readonly DayRecord[]): boolean;
	/** Has records wait that hold in the day already: they go to the disk before any others. */
	defer(records: readonly DayRecord[]): void;
	/** Tries again. Returns what has come to the disk. */
	retry(): DayRecord[];
	waits(): boolean;
	/** What is wrong with the disk; null once it has taken everything. */
	trouble(): DayFileError | null;
};

/** @param append puts the records of one key on the disk, or throws a DayFileError */
export function openKeeping(append: (records: readonly DayRecord[]) => void): Keeping {
	let waiting: (readonly DayRecord[])[] = [];
	let trouble: DayFileError | null = null;
	const put = (records: readonly DayRecord[]): boolean => {
		try {
			append(records);
			trouble = null;
			return true;
		} catch (error) {
			if (!(error instanceof DayFileError)) throw error;
			trouble = error;
			return false;
		}
	};
	const retry = (): DayRecord[] => {
		const kept: DayRecord[] = [];
		for (let next = waiting[0]; next && put(next); next = waiting[0]) {
			waiting = waiting.slice(1);
			kept.push(...next);
		}
		return kept;
	};
	return {
		keep: records => records.length === 0 || (waiting.length === 0 && put(records)),
		defer: records => void waiting.push(records),
		retry,
		waits: () => waiting.length > 0,
		trouble: () => trouble,
	};
}

/**
 * What only takes leave away, or only tells, holds at once, on the disk or not: a program that ends before it is there
 * finds the day in hold all the same.
 */
const needsNoDisk: readonly DayEvent['type'][] = ['break.began', 'face.late', 'trigger.on', 'trigger.off'];

export const holdsAtOnce = ([first]: readonly DayEvent[]): boolean =>
	first !== undefined && needsNoDisk.includes(first.type);

const mostLines = 3;

/**
 * A screen with what is wrong with the disk: in place of a hold's own words, beside any other question. Nothing of it
 * while a face is sprayed, nor while the breathing air is lost.
 */
export function toldOn(view: View, { say, lines }: FarWords): View {
	if (view.ask === 'spraying' || view.state.startsWith('hold.air')) return view;
	if (view.ask === 'hold') return { ...view, say, lines };
	return { ...view, lines: [say, ...view.lines].slice(0, mostLines) };
}
