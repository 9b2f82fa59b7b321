import type { UnitSystem } from '../trade/shown.ts';
import type { Args, Io } from './command.ts';

/**
 * The units an answer is said in: `--units`, else the setting, else metric.
 * @throws RangeError for any other word
 */
export function unitsAsked(args: Args, io: Io): UnitSystem {
	const asked = args.options.units ?? io.units ?? 'metric';
	if (asked === 'us' || asked === 'metric') return asked;
	throw new RangeError(`--units "${String(asked)}" is unknown: say us or metric`);
}
