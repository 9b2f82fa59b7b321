import type { DayRecord, EventOf } from '../../src/day/records.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import { inUnit } from '../../src/trade/quantity.ts';
import type { Numbered } from './evidence.ts';

/** Whether a screen gives away what is about to be read (10). */

export type Watched = {
	says: (property: Numbered, text: string) => void;
	/** Screens since the last instruction was done, or since the check began. */
	since: Line[];
	/** What was instructed in the check under way. */
	instructed: string[];
	readings: number;
	screens: number;
};

export const watchOf = (says: Watched['says']): Watched => ({
	says,
	since: [],
	instructed: [],
	readings: 0,
	screens: 0,
});

/** The feature that an instruction sets. */
const setBy: Record<string, string> = { 'set-horns': 'horns', 'set-fan': 'pattern-height' };

/** Everything a screen tells but the answers that may be chosen, the time, and the limits of a number. */
const toldBy = ({ say, lines, do: instructions, unit, cup, gun, open, reason }: Line): string =>
	[say, ...lines, JSON.stringify([instructions, unit, cup, gun, open, reason])].join(' | ');

const kinds: Record<string, 'pressure' | 'length'> = { gauge: 'pressure', 'pattern-height': 'length' };

/** A wanted value in every way that it could be shown. */
function spelt(feature: string, wanted: string | number): RegExp[] {
	const whole = (text: string) =>
		new RegExp(`(?<![\\w-]|\\d\\.)${text.replace(/[+.]/g, '\\$&')}(?![\\w-]|\\.\\d)`, 'i');
	const kind = kinds[feature];
	if (kind === undefined || typeof wanted !== 'number') {
		/** A letter alone may be a word; shown it stands behind one of these. */
		if (feature === 'batch') return [new RegExp(`(batch|taped|cup|letter) ${wanted}\\b`, 'i')];
		return [whole(String(wanted))];
	}
	const symbols = kind === 'pressure' ? (['kPa', 'bar', 'psi'] as const) : (['mm', 'in'] as const);
	return symbols.flatMap(symbol => {
		const value = inUnit(wanted, kind, symbol);
		/** A single digit may count minutes: shown as a reading it has its unit. */
		return [0, 1].map(digits => {
			const text = value.toFixed(digits);
			return whole(text.length > 1 ? text : `${text} ?${symbol}`);
		});
	});
}

type Reading = EventOf<'reading.taken'>;

function judge(watch: Watched, shown: Line, { feature, wanted }: Reading): void {
	watch.readings++;
	const values = Array.isArray(wanted) ? [] : wanted === null ? [] : [wanted];
	for (const value of values)
		for (const screen of watch.since) {
			const told = toldBy(screen);
			const shows = spelt(feature, value).some(one => one.test(told));
			if (shows) watch.says(10, `${feature} wants ${value}, and ${screen.state} says: ${told}`);
		}
	const offered = Object.values(shown.corners).filter(({ code }) => code !== 'more');
	const isNumber = shown.min !== undefined;
	if (!isNumber && offered.length < 3) watch.says(10, `${feature} has ${offered.length} answers`);
	if (isNumber && Object.keys(shown).some(key => /value|entry|default/i.test(key)))
		watch.says(10, `${feature} starts from a number`);
	if (watch.instructed.some(code => setBy[code] === feature))
		watch.says(10, `${feature} is read, and was instructed`);
}

/** A line, the screen it was given at, and what it made. */
export function hiddenIn(
	watch: Watched,
	shown: Line,
	line: string,
	made: readonly DayRecord[],
	next: Line,
): void {
	watch.since.push(shown);
	watch.screens++;
	if (line === 'hold' || /^(kill|hangup|sleep|clock)/.test(line)) watch.since = [];
	for (const record of made) {
		if (record.type === 'reading.taken' && record.check !== null) {
			judge(watch, shown, record);
			/** One that differs is shown beside what was wanted; what follows is an instruction. */
			if (!record.matched) watch.since = [];
		}
		if (record.type === 'check.began') {
			watch.since = [];
			watch.instructed = [];
		}
	}
	if (shown.ask === 'do' && shown.accepted && made.length > 0) watch.since = [];
	if (next.ask === 'do') {
		/** Where a reading differed, both are shown and put right, and the same is read afresh. */
		if (!next.state.endsWith('differs')) watch.instructed.push(...next.do.map(({ code }) => code));
		watch.since = [];
	}
}
