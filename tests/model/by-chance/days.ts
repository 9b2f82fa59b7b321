import { historyAfter } from '../../../src/day/history.ts';
import type { DayRecord, EventOf } from '../../../src/day/records.ts';
import type { Line } from '../../../src/day/rehearsal.ts';
import type { Checklist } from '../../../src/job/checklist.ts';
import type { Job } from '../../../src/job/job.ts';
import { keyFor } from '../../../src/painter/painter.ts';
import { rehearsed } from '../../day/rehearsed.ts';
import { type Chance, chanceOf } from '../keys/chance.ts';

/** Days by chance, the same for the same seed: a painter, and everything that breaks a routine thrown in. */

const breaks = [
	...['hold', 'kill', 'hangup', 'sleep 2 min', 'sleep 50 min', 'clock 7 min', 'clock -9 min', 'clock -2 h'],
	...['wait 3 s', 'wait 40 s', 'wait 8 min', 'wait 45 min', 'wait 3 h', 'trigger on', 'trigger off'],
	...['number 100', 'number 25', 'text because'],
];

/** Codes that lead to where a reason is given, and reasons. */
const leadsToReason = ['skip', 'sooner', 'reason', 'go-on', 'spray-anyway', 'set-aside', 'trouble'];
const reasons = ['data-sheet', 'test-piece', 'owner', 'own-words'];

const codesOf = (line: Line): string[] => Object.values(line.corners).map(({ code }) => code);

/** What is keyed at a screen: what the painter would, a break, any corner, or the way to a reason. */
function lineAt(day: ReturnType<typeof rehearsed>, chance: Chance, wild: number): string | null {
	const line = day.line();
	const codes = codesOf(line);
	const reasoned = codes.filter(code => reasons.includes(code));
	if (reasoned.length > 0 && chance.next() < 0.8) return keyFor(line, chance.pick(reasoned));
	const leads = codes.filter(code => leadsToReason.includes(code));
	if (leads.length > 0 && chance.next() < 4 * wild) return keyFor(line, chance.pick(leads));
	const drawn = chance.next();
	if (drawn < wild) return chance.pick(breaks);
	if (drawn < 1.5 * wild && codes.length > 0) return keyFor(line, chance.pick(codes));
	return day.painter.answer(line);
}

export type Played = { lines: Line[]; records: DayRecord[]; bytes: Uint8Array };
/** A day, and for every third of them the next day of the job. */
export type PlayedJob = readonly Played[];

export type Days = { jobs: readonly Job[]; lists: Checklist[] };

/**
 * @param most lines before the day is left as it stands
 * @param each is shown the day as it opens, and after every line
 */
export function playDay(
	{ jobs, lists }: Days,
	seed: number,
	most: number,
	{
		each = () => {},
		...more
	}: {
		before?: EventOf<'day.opened'>['before'];
		at?: number;
		each?: (day: ReturnType<typeof rehearsed>) => void;
	} = {},
): Played {
	const chance = chanceOf(seed * 7919 + 13);
	const job = jobs[seed % jobs.length];
	if (!job) throw new Error('there is no job');
	const lines: Line[] = [];
	const day = rehearsed({
		job,
		lists,
		seed,
		settings: {
			by: chance.next() < 0.5 ? 'face' : 'stretch',
			cards: chance.next() < 0.3,
			units: chance.next() < 0.5 ? 'metric' : 'us',
		},
		watch: line => void lines.push(line),
		...more,
	});
	lines.push(day.line());
	each(day);
	const wild = chance.pick([0, 0.02, 0.06, 0.12]);
	for (let count = 0; count < most && day.line().ask !== 'closed'; count++) {
		const line = lineAt(day, chance, wild);
		if (line === null) break;
		day.send(line);
		each(day);
	}
	return { lines, records: day.records(), bytes: day.bytes() };
}

const hour_ms = 3_600_000;

/** A day by its seed; of every third job that is not done the next day too, in the morning or after the hours that a coat may need. */
export function playJob(days: Days, seed: number, most = 500): PlayedJob {
	const first = playDay(days, seed, most);
	const last = first.records.at(-1);
	if (seed % 3 !== 2 || last?.type !== 'day.closed') return [first];
	const before = historyAfter(first.records);
	const job = days.jobs[seed % days.jobs.length];
	const isLeft = job?.faces.some(({ id, coats }) => {
		const face = before.faces[id];
		return !face?.aside && (face?.coats.length ?? 0) < coats.length;
	});
	if (!isLeft) return [first];
	const at = Date.parse(last.at) + (seed % 2 === 0 ? 14 : 1) * hour_ms;
	return [first, playDay(days, seed, most, { before, at })];
}
