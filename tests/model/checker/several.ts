import type { Laid } from './coats.ts';
import { type Day, elapsed, type Material } from './day.ts';
import type { Moment } from './notes.ts';
import { factorOf } from './points.ts';
import { rowsOver } from './recoat.ts';
import { carefulBy, strict, windowsHeld } from './rows.ts';
import { pastOf, reachOf, startsOf } from './surface.ts';

const hour_ms = 3_600_000;
/** Instants in the file are rounded to a millisecond; a second is no one's window. */
const slack_ms = 1000;

type At = Moment & { n: number };
/** A coat that lies on a face, and the material to come over it. */
export type Under = { face: string; laid: Laid; over: Material };

/** Whether the sheet's table for a coat over another has several rows, whose gates are clocks. */
export const isBySeveral = (over: Material, under: string) => rowsOver(over, under).length > 1;

/** The same moment, so much later for what begins, and so much sooner for what ends. */
const slackened = (at: At, by_ms: number): At => ({
	...at,
	lapse: { least: at.lapse.least + by_ms, most: at.lapse.most - by_ms },
});

/** The window that a table of several rows leaves a coat in at a note, a second either way in its favour; null where nothing was read. */
export function carefulOver(day: Day, { face, laid, over }: Under, at: At, by_ms = slack_ms): string | null {
	const past = pastOf(day, face, laid, slackened(at, by_ms));
	return past && carefulBy(rowsOver(over, laid.material ?? ''), past, factorOf(over));
}

/** The windows that may be told of a coat by a table of several rows: what it has at a temperature within reach of the readings, and nothing less careful than its clocks leave; what it has lost may count from the first start of the coat. */
export function toldOver(day: Day, under: Under, at: At): string[] | null {
	const careful = [-slack_ms, slack_ms].flatMap(by_ms => carefulOver(day, under, at, by_ms) ?? []);
	const reach = reachOf(day, under.face, under.laid, at.n);
	if (careful.length === 0 || reach === null) return null;
	const { least } = elapsed(under.laid.at, at);
	const [begun] = startsOf(day, under.face, under.laid);
	const most = Math.max(...[under.laid.at, ...(begun ? [begun] : [])].map(from => elapsed(from, at).most));
	/** Where clocks leave an age open, or a coat was laid in two goes, any age in between. */
	const ages = Array.from({ length: 21 }, (_, nth) => least + ((most - least) * nth) / 20);
	const rows = rowsOver(under.over, under.laid.material ?? '');
	const shown = [-slack_ms, slack_ms].flatMap(by_ms =>
		ages.flatMap(aged => {
			const age = { least_h: (least + by_ms) / hour_ms, most_h: (aged - by_ms) / hour_ms };
			return windowsHeld(rows, reach, age, factorOf(under.over));
		}),
	);
	const floor = Math.min(...careful.map(strict));
	return [...careful, ...shown.filter(does => strict(does) >= floor)];
}
