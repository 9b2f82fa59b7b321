import { historyAfter } from '../../../src/day/history.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import type { Checklist } from '../../../src/job/checklist.ts';
import type { Job } from '../../../src/job/job.ts';
import { parseJob } from '../../../src/job/load.ts';
import { keyFor } from '../../../src/painter/painter.ts';
import { rehearsed } from '../../day/rehearsed.ts';
import { type Chance, chanceOf } from '../keys/chance.ts';
import { sheetBy } from './sheet.ts';

/** Whole jobs by chance, on sheets by chance: a painter of any pace, long silences, breaks, faults, reasons. */

type Day = ReturnType<typeof rehearsed>;
export type PlayedDay = { records: DayRecord[]; bytes: Uint8Array };
export type PlayedJob = { seed: number; sheet: string; days: PlayedDay[] };

const silences = [
	...['wait 100 s', 'wait 170 s', 'wait 179 s', 'wait 181 s', 'wait 4 min', 'wait 7 min', 'wait 14 min'],
	...['wait 16 min', 'wait 25 min', 'wait 50 min', 'wait 2 h', 'wait 5 h', 'sleep 2 min', 'sleep 20 min'],
];
const breaks = ['hold', 'kill', 'hangup', 'clock 7 min', 'clock -9 min', 'trigger on', 'trigger off'];
const strays = ['number 100', 'number 25', 'text because'];

/** Codes that lead to a fault, a part set aside, or a reason; and reasons. */
const leads = [
	'skip',
	'sooner',
	'reason',
	'go-on',
	'spray-anyway',
	'set-aside',
	'trouble',
	'stay',
	'part',
	'wet-fault',
	'run',
];
const reasons = ['data-sheet', 'test-piece', 'owner', 'own-words'];

/** How a painter of one day is: how often silent or wild, the longest pause before a key in seconds, how the air drifts. */
type Way = { silent: number; wild: number; pause_s: number; drift: number };

const wayOf = (chance: Chance): Way => ({
	silent: chance.pick([0, 0.01, 0.03]),
	wild: chance.pick([0, 0, 0.02, 0.06]),
	pause_s: chance.pick([0, 0, 4, 20, 60]),
	drift: chance.pick([0, 0, 3, 6]),
});

/** A reading of the air that wanders from the one before. */
function wandering(answer: string, of: string | undefined, chance: Chance, { drift }: Way): string {
	const read = /^number (.*)$/.exec(answer)?.[1];
	if (drift === 0 || read === undefined || (of !== 'airC' && of !== 'surfaceC')) return answer;
	return `number ${Math.round(Number(read) + (chance.next() * 2 - 1) * drift)}`;
}

/** What is keyed at a screen. */
function lineAt(day: Day, chance: Chance, way: Way): string | null {
	const line = day.line();
	const codes = Object.values(line.corners).map(({ code }) => code);
	const reasoned = codes.filter(code => reasons.includes(code));
	if (reasoned.length > 0 && chance.next() < 0.8) return keyFor(line, chance.pick(reasoned));
	const leading = codes.filter(code => leads.includes(code));
	if (leading.length > 0 && chance.next() < 4 * way.wild) return keyFor(line, chance.pick(leading));
	const drawn = chance.next();
	if (drawn < way.wild) return chance.pick([...breaks, ...strays]);
	if (drawn < 1.5 * way.wild && codes.length > 0) return keyFor(line, chance.pick(codes));
	const answer = day.painter.answer(line);
	return answer === null ? null : wandering(answer, line.of, chance, way);
}

function playDay(day: Day, chance: Chance, most: number): void {
	const way = wayOf(chance);
	for (let count = 0; count < most && day.line().ask !== 'closed'; count++) {
		if (chance.next() < way.silent) day.send(chance.pick(silences));
		else if (way.pause_s > 0) day.send(`wait ${Math.ceil(chance.next() * way.pause_s)} s`);
		const line = lineAt(day, chance, way);
		if (line === null) return;
		day.send(line);
	}
}

/** The first sheet of a seed that the program takes. */
function jobBy(seed: number, written: (text: string) => string): { job: Job; sheet: string } {
	for (let draw = 0; draw < 50; draw++) {
		const sheet = written(sheetBy(seed, draw));
		const parsed = parseJob(sheet, 'sheet.yaml');
		if (parsed.ok) return { job: parsed.job, sheet };
	}
	throw new Error(`no sheet of seed ${seed} is taken`);
}

const hour_ms = 3_600_000;

/** A job by its seed: its first day, and the days after it until it is done or `mostDays` are played. */
export function playAnyJob(
	lists: Checklist[],
	seed: number,
	{ mostDays = 3, mostLines = 600, sheet: written = (text: string) => text } = {},
): PlayedJob {
	const chance = chanceOf(seed * 7919 + 29);
	const { job, sheet } = jobBy(seed, written);
	const played: PlayedJob = { seed, sheet, days: [] };
	const settings = {
		by: chance.pick(['face', 'stretch'] as const),
		cards: chance.next() < 0.2,
		units: job.units,
	};
	for (let nth = 0; nth < mostDays; nth++) {
		const before = played.days.at(-1)?.records;
		const last = before?.at(-1);
		if (before && last?.type !== 'day.closed') break;
		const next = before &&
			last && {
				before: historyAfter(before),
				at: Date.parse(last.at) + chance.pick([1, 14, 14, 30]) * hour_ms,
			};
		const day = rehearsed({ job, lists, seed, settings, ...next });
		playDay(day, chance, mostLines);
		played.days.push({ records: day.records(), bytes: day.bytes() });
	}
	return played;
}
