import type { DayRecord } from '../day/records.ts';
import type { UnitSystem } from '../trade/shown.ts';
import type { Args, Io } from './command.ts';

/** The units that a day was sprayed in: those of its settings, else of its sheet. */
function unitsOfDay([opened]: readonly DayRecord[]): UnitSystem {
	if (opened?.type !== 'day.opened') return 'metric';
	return opened.settings.units === 'sheet' ? opened.sheet.units : opened.settings.units;
}

/**
 * The units an answer about a day is said in: `--units`, else the day's own.
 * @throws RangeError for any other word
 */
export function unitsAsked(args: Args, io: Io, day: readonly DayRecord[]): UnitSystem {
	const asked = args.options.units ?? io.units ?? unitsOfDay(day);
	if (asked === 'us' || asked === 'metric') return asked;
	throw new RangeError(`--units "${String(asked)}" is unknown: say us or metric`);
}
