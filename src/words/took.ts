import { duration } from './say.ts';

/** From here on two times are told apart well enough in minutes, s. */
const long_s = 600;

/**
 * How long it was from START to FINISHED, walking and talk with it, and nothing else: `24 s for 6 s`, or
 * `24 s, usually 15 s`.
 * @param isUsual this shop's own days have shown how long it usually is, else it is the sheet's time
 */
export function tookSaid(took_s: number, planned_s: number, isUsual: boolean): string {
	const isLong = Math.max(took_s, planned_s) >= long_s;
	const said = (s: number) => (isLong ? duration(s) : `${Math.round(s)} s`);
	return `${said(took_s)}${isUsual ? ', usually' : ' for'} ${said(planned_s)}`;
}
