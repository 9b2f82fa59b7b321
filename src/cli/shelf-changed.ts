import { createHash } from 'node:crypto';
import { loadDay } from '../day/file/days.ts';
import { shelfFolder } from '../day/file/folder.ts';
import { DayFileError } from '../day/file/trouble.ts';
import { inert } from '../job/inert.ts';
import { loadJob } from '../job/load.ts';
import { type Changed, changedOnShelf } from '../job/shelf-changes.ts';
import type { OneQuestion } from '../screen/one-question.ts';
import { about } from '../words/spoken.ts';
import type { Sheet } from './sheet.ts';

/** A job goes on while the shelf says otherwise than it did as its last day began: which holds is asked once. */

/** Which holds: what the job went on with, or what stands on the shelf now. */
export type Holds = 'keep' | 'new';

export class ShelfChangedError extends DayFileError {
	readonly changed: readonly Changed[];
	constructor(sheet: string, changed: readonly Changed[]) {
		const what = changed.map(({ name, keys }) => `${inert(name)} (${keys.join(', ')})`).join('; ');
		super('shelf', `${sheet}: the shelf changed since the last day: ${what}: say at a terminal which holds`);
		this.changed = changed;
	}
}

export const shelfQuestion = ({ changed }: ShelfChangedError): OneQuestion => {
	const [first, ...more] = changed;
	const which = more.length === 0 ? (first?.name ?? '') : `${first?.name} and ${more.length} more`;
	return {
		state: 'shelf.changed',
		say: about(which, 'changed on the shelf. Which holds?'),
		lines: changed.map(({ name, keys }) => `${inert(name)}: ${keys.join(', ')}.`),
		answers: [
			{ code: 'keep', text: 'KEEP' },
			{ code: 'new', text: 'USE THE NEW' },
			{ code: 'leave', text: 'LEAVE' },
		],
	};
};

/** What of the shelf was turned down, so that it is not asked about again until it changes again. */
const sumOf = (changed: readonly Changed[]): string =>
	createHash('sha256')
		.update(JSON.stringify(changed.map(({ name, now }) => [name, now])))
		.digest('hex');

/**
 * A sheet with what holds of the shelf for the next day of its job.
 * @param newest file of the last day of the job
 * @param told which holds, where that was answered
 * @throws ShelfChangedError where nobody has said
 */
export async function heldOn(
	sheet: Sheet,
	newest: string | undefined,
	told: Holds | null,
): Promise<Sheet & { turnedDown?: string }> {
	if (newest === undefined || sheet.ofShelf.materials.length + sheet.ofShelf.guns.length === 0) return sheet;
	const [opened] = loadDay(newest);
	if (opened?.type !== 'day.opened') return sheet;
	const changed = changedOnShelf(opened.sheet, sheet.job, sheet.ofShelf);
	if (changed.length === 0 || told === 'new') return sheet;
	const turnedDown = sumOf(changed);
	if (told === null && opened.turnedDown !== turnedDown) throw new ShelfChangedError(sheet.path, changed);
	const kept = await loadJob(sheet.path, shelfFolder(), opened.sheet);
	return kept.ok ? { ...sheet, job: kept.job, turnedDown } : sheet;
}
