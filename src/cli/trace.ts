import { existsSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { dataFolder } from '../day/file/folder.ts';
import { DayFileError, plainName } from '../day/file/trouble.ts';
import { inert } from '../job/inert.ts';
import { type Across, acrossDays } from '../trace/across.ts';
import { claimsOf, type FaultData } from '../trace/faults.ts';
import { loadFaults } from '../trace/load-faults.ts';
import { type Question, type Trace, trace } from '../trace/trace.ts';
import { causeSaid, timesOf, traceSentences } from '../words/summary-trace.ts';
import type { Args, Command, Io } from './command.ts';
import { askedDay, daysUpTo, folderOf, isRehearsed, jobsIn, rehearsedBeside, told } from './day-files.ts';
import { coatAsked, faceAsked } from './face-argument.ts';

/** Fault kinds in force: the built-in ones, the shop's `faults.yaml` in its data folder, and `--faults FILE`. */
export function faultsInForce(args: Args, io: Io): FaultData {
	const shop = join(dataFolder({ env: io.env, platform: process.platform, home: homedir() }), 'faults.yaml');
	const named = typeof args.options.faults === 'string' ? [args.options.faults] : [];
	return loadFaults([...(existsSync(shop) ? [shop] : []), ...named]);
}

const many = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`;
const spot = ({ face, coat }: { face: string; coat: number }) => `${inert(face)}, coat ${coat}`;

function list(title: string, lines: readonly string[]): string[] {
	return lines.length === 0 ? [] : ['', title, ...lines.map(line => `  ${line}`)];
}

/** What the painter alone can answer. Common practice, no source. */
const askFirst = [
	'Is it the whole part, or one area?',
	'Do other parts show it?',
	'Keep what is only slightly affected, and record which.',
];

function traceText(found: Trace, question: Question, data: FaultData, zone: string): string {
	const fault = data.faults[question.fault];
	const time = timesOf(found, zone);
	const said = { ...question, fault: fault?.say ?? question.fault, zone, causes: data.causes };
	const candidates = found.candidates.slice(0, mostCauses).flatMap((one, place) => [
		`${place + 1}. ${causeSaid(one, data.causes)}, ${one.extent === '' ? time(one.at) : inert(one.extent)}`,
		...one.for.map(reason => `     for: ${inert(reason)}`),
		...one.against.map(reason => `     against: ${inert(reason)}`),
		...(fault
			? claimsOf(fault, one.code)
					.filter(({ form }) => form === undefined || form === one.form)
					.map(({ source, as }) => `     ${source}${as ? `: ${as}` : ''}`)
			: []),
	]);
	const looks = found.walk.map(
		one =>
			`${one.face === null ? '' : `${inert(one.face)}: `}${one.do}, ${one.minutes} min, tells ${one.why}`,
	);
	return [
		...traceSentences(found, said),
		...list('Ask first', askFirst),
		...list('What it may be, likeliest first', candidates),
		...list(
			'Exposed, in the order sprayed (* likely)',
			found.faces.map(
				one => `${one.likely ? '*' : ' '} ${spot(one)}${one.under ? `, ${inert(one.under)}` : ''}`,
			),
		),
		...list('Look at, in this order: sound tells as much as a fault', looks),
		...list('Then every other exposed face', found.inspect.filter(isOther(found)).map(spot)),
		...list('What was not recorded', found.missing.map(inert)),
		'',
	].join('\n');
}

/** Causes shown; the rest stand in the JSON. */
const mostCauses = 6;

const isOther =
	({ walk }: Trace) =>
	({ face }: { face: string }): boolean =>
		!walk.some(one => one.face === face);

function acrossText(found: Across, data: FaultData): string {
	const faults = found.faults.flatMap(({ fault, faces, days, after, causes }) => [
		`${data.faults[fault]?.say ?? inert(fault)}: ${many(faces, 'face')} on ${many(days, 'day')}`,
		...(after.length > 0
			? [`    last before them: ${after.map(one => `${one.event} ${one.faces}`).join(', ')}`]
			: []),
		...(causes.length > 0
			? [
					`    likeliest: ${causes.map(({ code, jobs }) => `${data.causes[code]?.say ?? code} (${many(jobs, 'job')})`).join(', ')}`,
				]
			: []),
	]);
	const readings = found.readings.map(
		({ feature, first, differed, warning }) =>
			`${feature}: ${differed} of ${first} first readings differed${warning ? '; none ever: a warning sign, no success' : ''}`,
	);
	const most = Math.max(1, ...found.breaks.map(({ count }) => count));
	const breaks = found.breaks.map(
		({ hour, count }) =>
			`${String(hour).padStart(2, '0')} h ${'#'.repeat(Math.ceil((30 * count) / most))} ${count}`,
	);
	return [
		`${many(found.days, 'day')}, ${many(found.jobs, 'job')}.`,
		...list('Faults, most often first', faults),
		...list('First readings', readings),
		...list('Breaks by hour of the day', breaks),
		'',
	].join('\n');
}

/**
 * The folder named, else that of this user's days, which need not be there yet.
 * @throws DayFileError where one was named that is not there
 */
function folderAsked({ positionals: [named] }: Args, io: Io): string {
	if (named === undefined) return folderOf(io);
	if (statSync(named, { throwIfNoEntry: false })?.isDirectory()) return named;
	const remedy = 'there is no such folder: name the one that the days lie in';
	throw new DayFileError('missing', `${plainName(named)}: ${remedy}`);
}

function across(args: Args, io: Io): number {
	const data = faultsInForce(args, io);
	const folder = folderAsked(args, io);
	let passedOver = rehearsedBeside(folder, io);
	function* sprayed() {
		for (const job of jobsIn(folder, io)) {
			const real = job.filter(day => !isRehearsed(day));
			passedOver += job.length - real.length;
			if (real.length > 0) yield real;
		}
	}
	const found = acrossDays(sprayed(), data);
	if (passedOver > 0) io.stderr.write(`fanwise trace: ${many(passedOver, 'rehearsed day')} not counted\n`);
	io.stdout.write(args.options.json ? `${JSON.stringify(found)}\n` : acrossText(found, data));
	return 0;
}

function one(args: Args, io: Io): number {
	const data = faultsInForce(args, io);
	const { path, records } = askedDay(args, io);
	const fault = args.options.fault;
	if (typeof fault !== 'string')
		throw new RangeError(`--fault is missing: one of ${Object.keys(data.faults).join(', ')}`);
	const question = { fault, face: faceAsked(args, records), coat: coatAsked(args) };
	const found = trace({ days: daysUpTo(path, records, io), ...question }, data);
	const zone = records[0]?.type === 'day.opened' ? records[0].zone : 'UTC';
	io.stdout.write(args.options.json ? `${JSON.stringify(found)}\n` : traceText(found, question, data, zone));
	return 0;
}

/** Where a fault began, and what else got it; or the same question over all days. */
export const traceCommand: Command = {
	name: 'trace',
	summary: 'where a fault began, what else got it, what to look at first',
	usage: ['trace [DAY] --fault KIND --face "PART/FACE" --coat N [--json]', 'trace --all [FOLDER] [--json]'],
	options: {
		fault: { type: 'string', value: 'KIND', says: 'what is seen: run, sag, blush, stays-soft …' },
		face: { type: 'string', value: 'PART/FACE', says: 'where it is seen' },
		coat: { type: 'string', value: 'N', says: 'on which coat, as counted on the face' },
		all: { type: 'boolean', says: 'over all days: what recurs, after what, and when breaks come' },
		faults: { type: 'string', value: 'FILE', says: "a shop's own fault kinds, added to the built-in ones" },
		json: { type: 'boolean', says: 'bracket, exposed, faces, candidates, inspect, walk, missing' },
	},
	examples: ['trace --fault run --face "left door/edges" --coat 2', 'trace --all'],
	run: (args, io) => told('trace', io, () => (args.options.all ? across(args, io) : one(args, io))),
};
