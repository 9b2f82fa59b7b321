import { decide } from '../../src/day/decide.ts';
import { type DayRead, readDay } from '../../src/day/file/read.ts';
import { freshUi } from '../../src/day/prompt.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { type DayState, fold, foldAll } from '../../src/day/state.ts';
import { transact } from '../../src/day/transact.ts';
import { viewOf } from '../../src/day/view-of.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { count } from './added-up.ts';
import type { Evidence, Numbered } from './evidence.ts';
import { hiddenIn, type Watched, watchOf } from './hidden.ts';
import { type Chance, chanceOf } from './keys/chance.ts';

/**
 * Days rehearsed line by line, with breaks and wrong keys thrown in, and everything that they showed and wrote: what
 * hold costs (5), where a restart after any byte leads (8), that one key is one write (9), what is on the screen
 * before a reading (10), and that a log alone gives the state (12).
 */

type Found = Evidence['found'][number];
export type Transcript = {
	days: number;
	lines: number;
	records: number;
	holds: number;
	keys: number;
	restarts: number;
	cuts: number;
	readings: number;
	screens: number;
	folds: number;
	windows: number;
	found: Found[];
};

export const noLines: Transcript = {
	days: 0,
	lines: 0,
	records: 0,
	holds: 0,
	keys: 0,
	restarts: 0,
	cuts: 0,
	readings: 0,
	screens: 0,
	folds: 0,
	windows: 0,
	found: [],
};

const odd = [
	...['hold', 'kill', 'hangup', 'sleep 2 min', 'clock 5 min', 'wait 3 s', 'wait 40 s', 'wait 8 min'],
	...['top-left', 'top-right', 'bottom-left', 'bottom-right', 'number 100', 'number 25', 'text because'],
];
const zones = ['UTC', 'Pacific/Kiritimati', 'America/St_Johns', 'Asia/Kathmandu', 'Europe/Berlin'];

/** All that a state is, with maps and charts as plain text. */
export const digestOf = ({ machine, book }: DayState): string => {
	const chart = ({ value, context }: { value: unknown; context: unknown }) => ({ value, context });
	const plain = (name: string, value: unknown): unknown => {
		/** The file's own mark that the same key made the next record too. */
		if (name === 'more') return undefined;
		if (value instanceof Map) return [...value];
		if (value instanceof Set) return [...value];
		if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
		if ('getMeta' in value) return chart(value as unknown as DayState['machine']);
		/** In what order fields were written is no part of a state. */
		return Object.fromEntries(Object.entries(value).sort(([one], [other]) => (one < other ? -1 : 1)));
	};
	return JSON.stringify({ machine: chart(machine), book }, plain);
};

/** Hold, from where a day stands: one key, and the day is in hold (5). */
function holdFrom(day: ReturnType<typeof rehearsed>, says: (property: Numbered, text: string) => void): void {
	const state = day.state();
	const { value } = state.machine;
	if (value === 'closed') return;
	const { now } = state.book;
	const at = { ...now, wall: Math.max(now.wall, Date.parse(day.line().at)) };
	const decision = decide({ state, now: at }, freshUi, { key: 'hold' });
	if ('refused' in decision) {
		says(5, `hold refused in ${value}: ${decision.refused.text}`);
		return;
	}
	const after = transact(state, decision.events, at).state.machine.value;
	if (after !== 'hold') says(5, `hold leads from ${value} to ${after}`);
}

/** Where a day stands that was killed behind each of its records' keys and started again (8). */
function restarts(keys: readonly (readonly DayRecord[])[], says: (property: Numbered, text: string) => void) {
	let state: DayState | null = null;
	for (const key of keys) {
		for (const record of key) state = fold(state, record);
		if (state === null) continue;
		const { value } = state.machine;
		if (value === 'closed' || state.book.last.type === 'day.opened') continue;
		const { now } = state.book;
		const again = transact(state, [{ type: 'break.began', kind: 'restart', by: 'program' }], {
			...now,
			run: now.run + 1,
		});
		if (again.state.machine.value !== 'hold')
			says(8, `restarted in ${value}, the day is in ${again.state.machine.value}`);
	}
}

/** The file cut behind each byte: whole keys before the cut, and nothing else (8). */
function cuts(
	bytes: Uint8Array,
	keys: readonly (readonly DayRecord[])[],
	says: (property: Numbered, text: string) => void,
): number {
	const whole = new Set(keys.map((_, index) => keys.slice(0, index + 1).flat().length));
	const from = Math.max(0, bytes.length - cutBytes);
	for (let cut = from; cut < bytes.length; cut++) {
		const read: DayRead = readDay(bytes.subarray(0, cut));
		if (read.damage) says(8, `cut at byte ${cut}, it counts as damaged: ${read.damage.what}`);
		if (read.records.length > 0 && !whole.has(read.records.length))
			says(8, `cut at byte ${cut}, half a key stands`);
	}
	return bytes.length - from;
}

/** The state that was lived, and that of the file alone, read in other time zones (12). */
function folds(day: ReturnType<typeof rehearsed>, says: (property: Numbered, text: string) => void): number {
	const given = process.env.TZ;
	const lived = digestOf(day.state());
	const shown = new Set<string>();
	try {
		for (const zone of zones) {
			process.env.TZ = zone;
			const state = foldAll(readDay(day.bytes()).records);
			if (digestOf(state) !== lived) says(12, `another state in ${zone}`);
			shown.add(JSON.stringify(viewOf({ state, now: state.book.now }, freshUi, true)));
		}
	} finally {
		if (given === undefined) delete process.env.TZ;
		else process.env.TZ = given;
	}
	if (shown.size > 1) says(12, 'another screen in another time zone');
	return zones.length;
}

/** A line that the painter gives, or one out of the blue. */
const nextLine = (day: ReturnType<typeof rehearsed>, chance: Chance, wild: number): string | null =>
	chance.next() < wild ? chance.pick(odd) : day.painter.answer(day.line());

const longest = 700;
/** Cut at every byte so far from its end; a shorter file that holds every type of record is cut at all of its own. */
const cutBytes = 1000;

function playDay(seed: number, sum: Transcript): void {
	const chance = chanceOf(seed);
	const settings = {
		by: seed % 2 ? ('face' as const) : ('stretch' as const),
		cards: seed % 3 === 0,
		units: seed % 4 < 2 ? ('metric' as const) : ('us' as const),
	};
	const day = rehearsed({ settings, seed });
	const says = (property: Numbered, text: string) =>
		void sum.found.push({ property, says: `day ${seed}: ${text}` });
	const watch: Watched = watchOf(says);
	const wild = chance.pick([0, 0.02, 0.08]);
	for (let count = 0; count < longest && day.line().ask !== 'closed'; count++) {
		holdFrom(day, says);
		sum.holds++;
		const line = nextLine(day, chance, wild);
		if (line === null) break;
		const shown = day.line();
		const writes = day.keys.length;
		const before = day.records().length;
		day.send(line);
		const late = day.line().ask === 'closed' ? [] : day.tick();
		if (late.some(({ type }) => type === 'window.moved'))
			says(3, `after ${line} a chart says another window than the clock`);
		sum.windows++;
		const isKey = !/^(wait|sleep|clock|kill|hangup)/.test(line);
		if (isKey) sum.keys++;
		if (isKey && day.keys.length > writes + 1) says(9, `${line} makes ${day.keys.length - writes} writes`);
		hiddenIn(watch, shown, line, day.records().slice(before), day.line());
		sum.lines++;
	}
	restarts(day.keys, says);
	sum.restarts += day.keys.length;
	if (seed % 10 === 1) sum.cuts += cuts(day.bytes(), day.keys, says);
	sum.folds += folds(day, says);
	for (const { property, says: text } of day.findings()) says(property as Numbered, `the checker: ${text}`);
	sum.days++;
	sum.records += day.records().length;
	sum.readings += watch.readings;
	sum.screens += watch.screens;
}

/** Days with the seeds `from`, `from` + 1 … */
export function transcriptOf(from: number, days: number): Transcript {
	const sum: Transcript = { ...noLines, found: [] };
	for (let seed = from; seed < from + days && sum.found.length < 20; seed++) playDay(seed, sum);
	return sum;
}

/** What the checker of day files decides alone. */
const byChecker: readonly Numbered[] = [1, 2, 3, 4, 6, 8, 11, 13, 14, 15, 16, 17, 19, 22];

/** What days line by line say of each property that they decide. */
export function evidenceOf(done: Transcript): Evidence[] {
	const of = (property: Numbered, how: string, size: string): Evidence => ({
		for: [property],
		how,
		size,
		found: done.found.filter(one => one.property === property && !one.says.includes('the checker:')),
	});
	const files = `${count(done.days)} files, ${count(done.records)} records`;
	return [
		...byChecker.map(
			(property): Evidence => ({
				for: [property],
				how: 'day files, read by the checker that shares no code',
				size: files,
				found: done.found.filter(one => one.property === property && one.says.includes('the checker:')),
			}),
		),
		of(3, 'transcript: no chart says another window than the clock', `${count(done.windows)} lines`),
		of(5, 'transcript: hold struck at every screen', `${count(done.holds)} screens`),
		of(
			8,
			'killed behind every key, and cut at every byte',
			`${count(done.restarts)} restarts, ${count(done.cuts)} cuts`,
		),
		of(9, 'transcript: writes of each line', `${count(done.keys)} keys`),
		of(
			10,
			'transcript: every screen from instruction to key',
			`${count(done.readings)} readings, ${count(done.screens)} screens`,
		),
		of(12, 'the file folded anew in 5 time zones against the day as lived', `${count(done.folds)} folds`),
	];
}
