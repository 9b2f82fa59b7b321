import type { MovedClock } from '../../src/day/clock.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import { noHistory } from '../../src/day/history.ts';
import { openingRecord } from '../../src/day/open.ts';
import type { DayRecord, EventOf, EventType } from '../../src/day/records.ts';
import { type Line, rehearse } from '../../src/day/rehearsal.ts';
import { type Settings, settingsSchema } from '../../src/day/settings.ts';
import type { Checklist } from '../../src/job/checklist.ts';
import type { Job } from '../../src/job/job.ts';
import { keyFor, painterOf } from '../../src/painter/painter.ts';
import type { World } from '../../src/painter/world.ts';
import type { Rates } from '../../src/plan/pace.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { smallJob, smallLists } from './small-job.ts';

export const start = Date.parse('2027-03-02T08:00:00Z');

type Options = {
	job?: Job;
	lists?: Checklist[];
	settings?: Partial<Settings>;
	seed?: number;
	/** What earlier days of the job left, and when this one begins. */
	before?: EventOf<'day.opened'>['before'];
	at?: number;
	/** What the shop's own days have shown. */
	rates?: Rates;
	/** A day that was left as it stood, and the bench with it: it is opened again. */
	left?: Left;
	/** The clock of its machine; left out, one that stands still between lines. */
	clock?: MovedClock;
	/** Is told as soon as records are made. */
	noted?: (made: readonly DayRecord[]) => void;
	/** Is shown every line that comes back. */
	watch?: (line: Line) => void;
};

/** What a program that ends at once leaves behind: the keys on the disk, the bench, the time on the wall. */
type Left = { keys: readonly DayRecord[][]; world: World; at: number };

/** A day rehearsed in memory, with a painter who answers what is not scripted. */
export function rehearsed({
	job = smallJob(),
	lists = smallLists(),
	settings = {},
	seed = 0,
	before = noHistory,
	at = start,
	rates,
	left,
	clock,
	noted = () => {},
	watch = () => {},
}: Options = {}) {
	const opening = {
		job,
		lists,
		settings: settingsSchema.parse({ by: 'face', ...settings }),
		clock: 'moved' as const,
		program: '0.0.0',
		before,
		...(rates && { rates }),
		zone: 'UTC',
		seed,
	};
	const first = () => openingRecord(opening, clock?.now() ?? { wall: at, mono: 0, up: 0 });
	const keys: DayRecord[][] = left ? [...left.keys] : [[first()]];
	const records = () => keys.flat();
	const sink = () => ({
		records: records(),
		append(made: readonly DayRecord[]) {
			keys.push([...made]);
			noted(made);
		},
		close() {},
	});
	const rehearsal = rehearse(sink, left?.at ?? at, [], clock);
	const painter = painterOf(job, () => rehearsal.session().state());
	Object.assign(painter.world, left?.world);
	let line: Line = rehearsal.first();

	const send = (...lines: string[]): Line => {
		for (const one of lines) {
			line = rehearsal.take(one);
			watch(line);
		}
		return line;
	};
	/** The corner that shows a code, whatever page it is on. */
	const pick = (code: string): Line => {
		for (let page = 0; page < 20; page++) {
			const shows = Object.values(line.corners).some(corner => corner.code === code);
			send(keyFor(line, code));
			if (shows) return line;
		}
		throw new Error(`${code} is on no page of ${line.state}`);
	};
	/** The painter answers until a screen is the one wanted. */
	const until = (wanted: (line: Line) => boolean): Line => {
		for (let count = 0; count < 3000; count++) {
			if (wanted(line)) return line;
			const next = painter.answer(line);
			if (next === null) throw new Error(`the day ended in ${line.state} before what was waited for`);
			send(next);
		}
		throw new Error(`never came to it; stands in ${line.state}`);
	};
	const ofType = <Type extends EventType>(type: Type) =>
		records().filter((record): record is DayRecord & EventOf<Type> => record.type === type);
	/** The day file, key by key. */
	const bytes = (): Uint8Array => {
		let last: DayRecord | undefined;
		const pieces = keys.map(made => {
			const piece = encodeKey(made, last);
			last = made.at(-1);
			return piece;
		});
		return Buffer.concat(pieces);
	};
	return {
		job,
		painter,
		records,
		keys,
		ofType,
		send,
		pick,
		until,
		toState: (state: string) => until(({ state: is }) => is === state),
		toAsk: (ask: string) => until(({ ask: is }) => is === ask),
		toEnd: () => until(({ ask }) => ask === 'closed'),
		line: () => line,
		/** What the clock alone still makes. */
		tick: () => rehearsal.session().tick(),
		state: () => rehearsal.session().state(),
		/** As it would be found if the program ended now. */
		left: (): Left => ({ keys: [...keys], world: { ...painter.world }, at: Date.parse(line.at) }),
		bytes,
		/** What the independent checker of day files finds. */
		findings: () => checkDayFile(bytes()),
	};
}
