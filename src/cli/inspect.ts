import { createInterface } from 'node:readline';
import type { DayFile } from '../day/file/keep.ts';
import { openDay } from '../day/file/store.ts';
import { plainName } from '../day/file/trouble.ts';
import type { DayEvent, DayRecord } from '../day/records.ts';
import { inert } from '../job/inert.ts';
import { asks, beginInspection, type Heard, hear, type Inspection, inspectVerbs } from '../trace/inspect.ts';
import { trace } from '../trace/trace.ts';
import type { Args, Command, Io } from './command.ts';
import { askedDay, daysUpTo, told } from './day-files.ts';
import { coatAsked, faceAsked } from './face-argument.ts';
import { faultsInForce } from './trace.ts';

/** Records that follow the last of a day, all of one line of input. */
export function stamped(
	last: DayRecord,
	events: readonly DayEvent[],
	run: number,
	now: number,
	mono: number,
): DayRecord[] {
	if (now < Date.parse(last.at))
		throw new RangeError(`the clock stands before the last record (${last.at}): set it right first`);
	const at = new Date(now).toISOString();
	return events.map((event, nth) => ({ seq: last.seq + 1 + nth, run, at, mono, ...event }));
}

function begin(args: Args, io: Io, path: string, records: DayRecord[]): Inspection {
	if (args.options.fault === undefined) return beginInspection(records);
	const question = {
		fault: String(args.options.fault),
		face: faceAsked(args, records),
		coat: coatAsked(args),
	};
	const days = daysUpTo(path, records, io);
	const faults = faultsInForce(args, io);
	const last = records.at(-1);
	const search = (found: readonly DayEvent[]) => {
		const more = last ? stamped(last, found, last.run + 1, Date.parse(last.at), 0) : [];
		const asked = days.map(day => (day === records ? [...day, ...more] : day));
		return trace({ days: asked, ...question }, faults).inspect;
	};
	return beginInspection(records, [...search([]), { face: question.face, coat: question.coat }], search);
}

function reply(heard: Heard, json: boolean): string {
	const { accepted, say, events } = heard;
	return json
		? `${JSON.stringify({ accepted, say, events })}\n`
		: `${accepted ? '' : 'Not taken: '}${inert(say)}\n`;
}

/** The clock of the day: one that could be moved never stands before its last record. */
function nowOn(file: DayFile, clock: () => number, last: DayRecord): number {
	const opened = file.records[0];
	const moved = opened?.type === 'day.opened' && opened.clock === 'moved';
	return moved ? Math.max(clock(), Date.parse(last.at)) : clock();
}

/**
 * Answers line after line and adds what they make to the day, each before it is answered.
 * @param file the closed day, open; `first` where the walk begins
 */
export async function walk(
	args: Args,
	io: Io,
	file: DayFile,
	first: Inspection,
	lines: AsyncIterable<string> | Iterable<string>,
	clock: () => number = Date.now,
): Promise<void> {
	const json = args.options.json === true;
	const data = faultsInForce(args, io);
	let inspection = first;
	let last = file.records.at(-1);
	const run = (last?.run ?? 0) + 1;
	const began = performance.now();
	io.stdout.write(
		json
			? `${JSON.stringify({ accepted: true, say: asks(inspection), events: [] })}\n`
			: `${asks(inspection)}\n`,
	);
	for await (const line of lines) {
		if (line.trim() === '') continue;
		const heard = hear(inspection, line, data);
		if (heard.events.length > 0 && last) {
			const records = stamped(
				last,
				heard.events,
				run,
				nowOn(file, clock, last),
				Math.round(performance.now() - began),
			);
			file.append(records);
			last = records.at(-1) ?? last;
		}
		inspection = heard.inspection;
		io.stdout.write(reply(heard, json));
		if (inspection.over) return;
	}
}

/** The next morning: faults, film readings, photos and verdicts, added to a closed day. */
export const inspectCommand: Command = {
	name: 'inspect',
	summary: 'walk the faces of a closed day: faults, film readings, photos, verdicts',
	usage: ['inspect [DAY]', 'inspect [DAY] --fault KIND --face "PART/FACE" --coat N'],
	options: {
		fault: { type: 'string', value: 'KIND', says: 'begin with the faces that this fault exposes' },
		face: { type: 'string', value: 'PART/FACE', says: 'where it was seen' },
		coat: { type: 'string', value: 'N', says: 'on which coat' },
		faults: { type: 'string', value: 'FILE', says: "a shop's own fault kinds, added to the built-in ones" },
		json: { type: 'boolean', says: 'answer every line with one of JSON' },
	},
	examples: ['inspect', 'inspect 2027-03-02 --fault stays-soft --face "counter lid/top" --coat 3'],
	run: (args, io) =>
		told('inspect', io, async () => {
			const { path, records } = askedDay(args, io);
			if (!records.some(({ type }) => type === 'day.closed')) {
				const [opened] = records;
				const isRehearsed = opened?.type === 'day.opened' && opened.clock === 'moved';
				const how = isRehearsed ? `fanwise rehearse JOB.yaml --day ${plainName(path)}` : 'fanwise spray';
				io.stderr.write(`fanwise inspect: the day is not closed: finish it with ${how}\n`);
				return 1;
			}
			const inspection = begin(args, io, path, records);
			const file = openDay(path, { onTrouble: message => io.stderr.write(`fanwise inspect: ${message}\n`) });
			if (args.options.json !== true) io.stdout.write(`Lines begin with: ${inspectVerbs.join(', ')}.\n`);
			try {
				await walk(args, io, file, inspection, createInterface({ input: process.stdin }));
			} finally {
				file.close();
			}
			return 0;
		}),
};
