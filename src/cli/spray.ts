import { realClock } from '../day/clock.ts';
import { daysOfJob, findOpenDay } from '../day/file/days.ts';
import { daysFolder, makeDaysFolder, newDayPath } from '../day/file/folder.ts';
import { createDay, openDay } from '../day/file/store.ts';
import { DayFileError } from '../day/file/trouble.ts';
import { historyAfter, noHistory } from '../day/history.ts';
import { isoAt } from '../day/instant.ts';
import { openingRecord } from '../day/open.ts';
import { openSession, type Sink } from '../day/session.ts';
import type { Command, Io } from './command.ts';
import { version } from './package.ts';
import { settingsInForce } from './settings-in-force.ts';
import { readSheet, type Sheet } from './sheet.ts';
import { show, shownDay } from './show.ts';

/** Where the newest day of the job left its faces. */
function before(folder: string, job: string) {
	for (const { read } of daysOfJob(folder, job)) if (read.damage === null) return historyAfter(read.records);
	return noHistory;
}

/** Trouble with the disk that was got over is said, not kept. */
const telling = (io: Io) => ({ onTrouble: (message: string) => void io.stderr.write(`${message}\n`) });

/** The open day of a job, under its lock; or a new one that begins where the last ended. */
async function dayOf(sheet: Sheet, io: Io): Promise<Sink> {
	const folder = makeDaysFolder(daysFolder());
	const open = findOpenDay(folder, sheet.job.name);
	if (open) return openDay(open, telling(io));
	const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
	const now = realClock().now();
	const settings = await settingsInForce(io);
	const first = openingRecord(
		{
			...sheet,
			settings,
			clock: 'real',
			program: version(),
			before: before(folder, sheet.job.name),
			zone,
			seed: now.wall % 1000,
		},
		now,
	);
	const path = newDayPath(folder, { job: sheet.job.name, at: isoAt(now.wall), zone });
	return createDay(path, first, telling(io));
}

/** Begins or carries on the day of a job sheet at the terminal. */
export async function spray(path: string | undefined, io: Io): Promise<number> {
	const sheet = await readSheet(path, io, 'spray');
	return sheet ? atTerminal(quiet => dayOf(sheet, quiet), io) : 2;
}

/** Carries on a day that was left open. */
export const carryOn = (path: string, io: Io): Promise<number> =>
	atTerminal(quiet => openDay(path, telling(quiet)), io);

/** What is said while the screen is up is kept until it is down. */
async function atTerminal(open: (quiet: Io) => Sink | Promise<Sink>, io: Io): Promise<number> {
	const { canDraw, portOf } = await import('../screen/show-day.ts');
	if (!canDraw(process.stdin, process.stdout, io.env)) {
		io.stderr.write(
			'fanwise spray: there is no terminal here: use one, or rehearse with fanwise rehearse --json\n',
		);
		return 2;
	}
	const said: string[] = [];
	const quiet: Io = { ...io, stderr: { write: text => said.push(text) } };
	try {
		const day = openSession({ sink: await open(quiet), clock: realClock(), rehearsal: false });
		return await show(shownDay(day, portOf(day), await settingsInForce(quiet)), quiet);
	} catch (error) {
		if (!(error instanceof DayFileError)) throw error;
		io.stderr.write(`${error.message}\n`);
		return error.kind === 'damaged' ? 1 : 2;
	} finally {
		for (const text of said) io.stderr.write(text);
	}
}

export const sprayCommand: Command = {
	name: 'spray',
	summary: 'a day on the real clock; carries on the open day of that job',
	usage: ['spray JOB.yaml'],
	options: {},
	examples: ['spray coffee-cart.yaml'],
	run: ({ positionals }, io) => spray(positionals[0], io),
};
