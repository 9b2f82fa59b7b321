import { smallJob } from '../../day/small-job.ts';
import { assumedRates, drawsOf, type Rates } from './draws.ts';
import { guardedDay } from './guarded.ts';
import { type Truth, type Wrong, wrongKinds } from './truth.ts';
import { unguardedDay } from './unguarded.ts';

export const ways = ['no list', 'yes/no list', 'patterns', 'cards', 'shown'] as const;
export type WayName = (typeof ways)[number];

/** What many days of one way came to. */
export type Tally = {
	way: WayName;
	days: number;
	passes: number;
	wrong: Record<Wrong, number>;
	/** Readings that stopped the painter, and keys struck; none without the program. */
	stops: number;
	keys: number;
	/** What the checker found in the day files. */
	findings: string[];
};

const emptyTally = (way: WayName): Tally => ({
	way,
	days: 0,
	passes: 0,
	wrong: { fan: 0, 'turned since': 0, batch: 0, hardener: 0, double: 0, missed: 0 },
	stops: 0,
	keys: 0,
	findings: [],
});

function add(tally: Tally, truth: Truth): void {
	tally.days++;
	tally.passes += truth.passes();
	for (const kind of wrongKinds) tally.wrong[kind] += truth.wrong.get(kind)?.size ?? 0;
}

/**
 * Days of one way with the seeds 1, 2, 3 …
 * @param days at least 1
 */
export function daysOf(way: WayName, days: number, rates: Rates = assumedRates): Tally {
	const tally = emptyTally(way);
	for (let seed = 1; seed <= days; seed++) {
		const draws = drawsOf(seed, rates);
		if (way === 'no list') add(tally, unguardedDay(smallJob(), draws, 'none'));
		else if (way === 'yes/no list') add(tally, unguardedDay(smallJob(), draws, 'yes-no'));
		else {
			const { truth, findings, stops, keys } = guardedDay(seed, draws, way);
			add(tally, truth);
			tally.stops += stops;
			tally.keys += keys;
			tally.findings.push(
				...findings.map(({ line, property, says }) => `day ${seed}, line ${line}, ${property}: ${says}`),
			);
		}
	}
	return tally;
}

export const wrongOf = ({ wrong }: Tally): number => Object.values(wrong).reduce((sum, one) => sum + one, 0);

/** Wrong passes in 1,000. */
export const perThousand = (tally: Tally): number => (1000 * wrongOf(tally)) / tally.passes;

/** The ways side by side, as a table of text. */
export function tableOf(tallies: readonly Tally[]): string {
	const head = ['', 'passes', ...wrongKinds, 'all', 'per 1,000', 'stopped'];
	const rows = tallies.map(tally => [
		tally.way,
		...[tally.passes, ...wrongKinds.map(kind => tally.wrong[kind]), wrongOf(tally)].map(String),
		perThousand(tally).toFixed(1),
		tally.keys > 0 ? String(tally.stops) : '–',
	]);
	return [head, head.map(() => '---'), ...rows].map(row => `| ${row.join(' | ')} |`).join('\n');
}
