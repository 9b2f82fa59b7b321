import { extname } from 'node:path';
import { writeFresh } from '../day/file/fresh.ts';
import { lostOf } from '../day/file/lost.ts';
import { disk, type FilePort } from '../day/file/port.ts';
import { DayFileError, errorCode, plainName, saySystemError } from '../day/file/trouble.ts';
import { isSheetName, type SheetName, sheetNames } from '../report/csv.ts';
import { type Ending, endings, reportAs } from '../report/report.ts';
import { nearest } from '../trade/nearest.ts';
import type { UnitSystem } from '../trade/quantity.ts';
import type { Args, Command, Io } from './command.ts';
import { askedDay, daysUpTo, told } from './day-files.ts';
import { faultsInForce } from './trace.ts';

const isEnding = (text: string): text is Ending => (endings as readonly string[]).includes(text);

/** The file asked for and what its ending makes of it. */
function target(args: Args): { path: string; ending: Ending } {
	const path = args.options.output;
	if (typeof path !== 'string') throw new RangeError('-o FILE is missing: name a file, as in -o day.html');
	const ending = extname(path).slice(1).toLowerCase();
	if (isEnding(ending)) return { path, ending };
	const known = endings.map(one => `.${one}`);
	const like = ending === '' ? '.html' : nearest(`.${ending}`, known);
	throw new RangeError(
		`${plainName(path)}: its ending says no kind of report: end it in ${known.join(', ')}; the nearest is ${like}`,
	);
}

function sheetAsked(args: Args, ending: Ending): SheetName {
	const name = args.options.table ?? 'coats';
	if (args.options.table !== undefined && ending !== 'csv')
		throw new RangeError(`--table is for .csv: leave it out, a .${ending} holds all of them`);
	if (typeof name === 'string' && isSheetName(name)) return name;
	throw new RangeError(
		`--table "${plainName(String(name))}" is unknown: one of ${sheetNames.join(', ')}; the nearest is "${nearest(String(name), sheetNames)}"`,
	);
}

function unitsFor(args: Args, io: Io): UnitSystem | undefined {
	const asked = args.options.units ?? io.units;
	if (asked === undefined || asked === 'us' || asked === 'metric') return asked;
	throw new RangeError(`--units "${plainName(String(asked))}" is unknown: say us or metric`);
}

const remedies: Record<string, string> = {
	EEXIST: 'there is a file of that name: choose another, or add --force to write over it',
	ENOENT: 'its folder is not there: make it, or name another file with -o',
	EACCES: 'this user may not write there: name another file with -o',
	EPERM: 'this user may not write there: name another file with -o',
	EROFS: 'the disk can only be read: name another file with -o',
	EISDIR: 'it is a folder: name a file with -o',
};

/**
 * Writes a report under its name in one step, readable by its owner alone.
 * @param about.what what it is, for the message: `the cards were`
 * @throws DayFileError where it was not written; there is then no half of it
 */
export function writeReport(
	path: string,
	text: string,
	over: boolean,
	{ port = disk, what = 'the report was' }: { port?: FilePort; what?: string } = {},
): void {
	try {
		if (!over && port.stat(path)) throw Object.assign(new Error('taken'), { code: 'EEXIST' });
		if (port.stat(path)?.isFile === false) throw Object.assign(new Error('no file'), { code: 'EISDIR' });
		const held = writeFresh(port, path, [Buffer.from(text)], over ? 'over' : 'new');
		port.close(held.handle);
	} catch (error) {
		const remedy = remedies[errorCode(error)] ?? saySystemError(error);
		throw new DayFileError('disk', `${plainName(path)}: ${what} not written; ${remedy}`, error);
	}
}

function report(args: Args, io: Io): number {
	const { path, ending } = target(args);
	const sheet = sheetAsked(args, ending);
	const units = unitsFor(args, io);
	const { path: dayPath, records } = askedDay(args, io);
	const days = daysUpTo(dayPath, records, io);
	const lost = lostOf(dayPath);
	const text = reportAs(ending, { day: records, days, lost, faults: faultsInForce(args, io), units, sheet });
	writeReport(path, text, args.options.force === true);
	io.stdout.write(`${plainName(path)}: written.\n`);
	return 0;
}

/** A day as a page, a table, a calendar, or data. */
export const reportCommand: Command = {
	name: 'report',
	summary: 'a day as a page to print, a table, a calendar, or data: by the ending of the file',
	usage: ['report [DAY] -o FILE.html|.csv|.ics|.json [--table NAME] [--units us|metric] [--force]'],
	options: {
		output: {
			type: 'string',
			value: 'FILE',
			short: 'o',
			says: 'where to: .html the page, .csv one table, .ics what comes next, .json all data',
		},
		table: {
			type: 'string',
			value: 'NAME',
			says: `what a .csv holds: ${sheetNames.join(', ')}; coats if left out`,
		},
		force: { type: 'boolean', says: 'write over a file of that name; without it that is refused' },
		units: { type: 'string', value: 'us|metric', says: "units of the page; the day's own if left out" },
		faults: { type: 'string', value: 'FILE', says: "a shop's own fault kinds, added to the built-in ones" },
	},
	examples: ['report -o day.html', 'report 2027-03-02 -o next.ics', 'report -o film.csv --table coats'],
	run: (args, io) => told('report', io, () => report(args, io)),
};
