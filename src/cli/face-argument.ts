import type { DayRecord } from '../day/records.ts';
import { inert } from '../job/inert.ts';
import { nearest } from '../trade/nearest.ts';
import type { Args } from './command.ts';

/**
 * The face named by `--face`.
 * @throws RangeError where it is missing or not on the job sheet, with the nearest that is
 */
export function faceAsked(args: Args, day: readonly DayRecord[]): string {
	const asked = args.options.face;
	if (typeof asked !== 'string') throw new RangeError('--face is missing: name it as "part/face"');
	const opened = day[0];
	const faces = opened?.type === 'day.opened' ? opened.sheet.faces.map(({ id }) => id) : [];
	if (faces.includes(asked)) return asked;
	const like = nearest(asked, faces);
	throw new RangeError(
		`--face "${inert(asked)}" is not on the job sheet: the nearest is "${inert(like ?? '')}"`,
	);
}

/**
 * The coat named by `--coat`.
 * @throws RangeError where it is missing or no whole number from 1
 */
export function coatAsked(args: Args): number {
	const asked = args.options.coat;
	if (typeof asked !== 'string' || !/^[1-9]\d{0,2}$/.test(asked))
		throw new RangeError('--coat: say which coat, counted on the face from 1');
	return Number(asked);
}
