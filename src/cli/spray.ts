import { dirname } from 'node:path';
import { marksOfCans } from '../day/asks/cans.ts';
import { realClock } from '../day/clock.ts';
import { type DayOfJob, dayInTheWay, daysOfJob, jobToGoOn, loadDay } from '../day/file/days.ts';
import { checkRoom, daysFolder, listDays, makeDaysFolder, newDayPath } from '../day/file/folder.ts';
import type { DayFile } from '../day/file/keep.ts';
import { createDay, openDay, type StoreOptions } from '../day/file/store.ts';
import { DayFileError } from '../day/file/trouble.ts';
import { localDate, localZone } from '../day/local-zone.ts';
import { openingRecord } from '../day/open.ts';
import { openSession } from '../day/session.ts';
import { learnFrom, ratesOf } from '../plan/rates.ts';
import { portOf } from '../screen/session-port.ts';
import { SourceError } from '../trigger/source.ts';
import { ClockBehindError, openedOrShown, type Told } from './before-day.ts';
import { keepCanMarks, readCanMarks } from './can-marks.ts';
import type { Args, Command, Io } from './command.ts';
import { isAtItsEnd } from './input-end.ts';
import { historyOf, taughtIn, teach } from './job-days.ts';
import { version } from './package.ts';
import { settingsInForce } from './settings-in-force.ts';
import { changedSince, readSheet, type Sheet } from './sheet.ts';
import { heldOn } from './shelf-changed.ts';
import { canShow, plainOption, show, shownDay } from './show.ts';
import { statusOf } from './status.ts';
import { openTelling } from './telling.ts';
import { type Listening, listen, type TriggerLine, triggerLineOf, triggerOptions } from './trigger.ts';
import { leftUnkept } from './unkept.ts';

/** How a day's file is opened: who is told of its disk, and what the painter has told. */
type Opening = Pick<StoreOptions, 'onTrouble'> & Told & { hasEnded: boolean };
type Opened = { sink: DayFile; notice?: string | null };

/** A day that is open goes on, whatever became of the others of its job; whoever sprays it is told. */
const forkAmong = (days: readonly DayOfJob[]): string | null =>
	jobToGoOn(days)?.fork ? 'Days: two follow the same one. Coats of the other do not count.' : null;

/** The open day of a job, under its lock; or a new one that begins where the last ended. */
async function dayOf(asked: Sheet, io: Io, opening: Opening): Promise<Opened> {
	const folder = makeDaysFolder(daysFolder());
	const listed = listDays(folder);
	const days = daysOfJob(folder, asked.job.name, undefined, listed);
	const open = dayInTheWay(days);
	if (open) {
		const sink = openDay(open, opening);
		return { sink, notice: forkAmong(days) ?? changedSince(sink.records, asked) };
	}
	checkRoom(folder);
	const now = realClock().now();
	const [newest] = days;
	const ended = Date.parse(newest?.glimpse?.ended ?? '');
	if (newest && ended > now.wall && !opening.clockIsRight)
		throw new ClockBehindError(newest.path, ended, now.wall);
	const sheet = await heldOn(asked, newest?.path, opening.shelf);
	const settings = await settingsInForce(io);
	const marks = readCanMarks();
	const first = openingRecord(
		{
			...sheet,
			settings,
			clock: 'real',
			program: version(),
			...historyOf(days),
			rates: ratesOf(learnFrom(taughtIn(listed, io, days), sheet.job)),
			marks,
			zone: localZone(),
			seed: now.wall % 1000,
		},
		now,
	);
	if (opening.hasEnded)
		throw new DayFileError(
			'missing',
			'fanwise spray: the input ended before its first line: no day was begun',
		);
	if (first.type === 'day.opened') keepCanMarks({ ...marks, ...marksOfCans(sheet.job, first.cans) });
	const path = newDayPath(folder, { job: sheet.job.name, date: localDate(now.wall) });
	return { sink: createDay(path, first, opening) };
}

type How = { plain?: boolean; line?: TriggerLine };

const noLine: TriggerLine = { source: null, record: null };

/** Begins or carries on the day of a job sheet at the terminal. */
export async function spray(path: string | undefined, io: Io, how: How = {}): Promise<number> {
	const sheet = await readSheet(path, io, 'spray');
	return sheet ? shownHere((quiet, opening) => dayOf(sheet, quiet, opening), io, how) : 2;
}

/** Carries on a day that was left open. */
export const carryOn = (path: string, io: Io): Promise<number> =>
	shownHere(
		(_quiet, opening) => {
			const sink = openDay(path, opening);
			const [opened] = sink.records;
			const job = opened?.type === 'day.opened' ? opened.job : '';
			return { sink, notice: forkAmong(daysOfJob(dirname(path), job)) };
		},
		io,
		{},
	);

/** Begins the next day of a job, by the sheet that its newest day was opened with, wherever that lies now. */
export function goOn(path: string, io: Io): Promise<number> {
	const next = (quiet: Io, opening: Opening) => {
		const [opened] = loadDay(path);
		if (opened?.type !== 'day.opened') throw new Error(`${path} has no beginning`);
		const sheet = { job: opened.sheet, lists: opened.lists, path, ofShelf: { materials: [], guns: [] } };
		return dayOf(sheet, quiet, opening);
	};
	return shownHere(next, io, {});
}

/** What is said while the screen is up is kept until it is down; between lines of text it is said at once. */
async function shownHere(
	open: (quiet: Io, opening: Opening) => Opened | Promise<Opened>,
	io: Io,
	{ plain, line }: How,
): Promise<number> {
	const now = await settingsInForce(io);
	const settings = { ...now, plain: plain ?? now.plain };
	if (!canShow(settings.plain, io)) {
		io.stderr.write(
			'fanwise spray: there is no terminal here: answer in lines with --plain, or rehearse with fanwise rehearse --json\n',
		);
		return 2;
	}
	const said: string[] = [];
	const quiet: Io = settings.plain ? io : { ...io, stderr: { write: text => said.push(text) } };
	const { onTrouble, on } = openTelling(quiet);
	/** Looked for before a trigger line is heard: nothing of it may go by. */
	const hasEnded = settings.plain && (await isAtItsEnd(io.stdin ?? process.stdin));
	const clock = realClock();
	let listening: Listening | null = null;
	try {
		listening = listen(line ?? noLine, clock.now);
		const opened = await openedOrShown(
			told => open(quiet, { onTrouble, hasEnded, ...told }),
			settings,
			quiet,
		);
		if (!opened) return 0;
		const day = openSession({ ...opened, clock, rehearsal: false });
		const status = await show(shownDay(day, listening.attach(day, on(portOf(day))), settings), quiet);
		if (day.state().machine.value === 'closed') teach(opened.sink.path);
		return leftUnkept(day, status, quiet);
	} catch (error) {
		if (error instanceof SourceError) return refuse(error, io);
		if (!(error instanceof DayFileError)) throw error;
		io.stderr.write(`${error.message}\n`);
		return statusOf(error);
	} finally {
		listening?.close();
		for (const text of said) io.stderr.write(text);
	}
}

function refuse(error: SourceError, io: Io): number {
	io.stderr.write(`fanwise spray: ${error.message}\n`);
	return 2;
}

function run({ positionals, options }: Args, io: Io): Promise<number> | number {
	try {
		const line = triggerLineOf(options);
		return spray(positionals[0], io, { line, ...(options.plain && { plain: true }) });
	} catch (error) {
		if (error instanceof SourceError) return refuse(error, io);
		throw error;
	}
}

export const sprayCommand: Command = {
	name: 'spray',
	summary: 'a day on the real clock; carries on the open day of that job',
	usage: ['spray JOB.yaml [--plain] [--trigger SOURCE [--record FILE]]'],
	words: 1,
	options: { plain: plainOption, ...triggerOptions },
	examples: [
		'spray coffee-cart.yaml',
		'spray coffee-cart.yaml --plain',
		'spray coffee-cart.yaml --trigger /run/air-line --record pulls.jsonl',
		'spray coffee-cart.yaml --trigger "command: read-switch --lines"',
	],
	run,
};
