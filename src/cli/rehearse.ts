import { DayFileError } from '../day/file/trouble.ts';
import type { RehearsedDays } from '../day/going-on.ts';
import { noHistory } from '../day/history.ts';
import { localZone } from '../day/local-zone.ts';
import { openingRecord } from '../day/open.ts';
import type { Settings } from '../day/settings.ts';
import { standardSettings } from '../day/standard-settings.ts';
import { SourceError } from '../trigger/source.ts';
import { readCanMarks } from './can-marks.ts';
import type { Args, Command, Io } from './command.ts';
import { instantIn } from './instant.ts';
import { version } from './package.ts';
import type { Kept } from './rehearsed-file.ts';
import { answerLines, type Rehearsed, watch } from './rehearsing.ts';
import { settingsInForce } from './settings-in-force.ts';
import { changedSince, readSheet } from './sheet.ts';
import { plainOption } from './show.ts';
import { statusOf } from './status.ts';
import { triggerLineOf, triggerOptions } from './trigger.ts';

function startOf(given: unknown, last: string | null): number | string {
	const start = given === undefined ? Date.now() : instantIn(String(given));
	if (start === null)
		return `--start "${String(given).slice(0, 40)}" is no instant: write it as 2027-03-02T08:00:00Z`;
	return last ? Math.max(start, Date.parse(last)) : start;
}

/**
 * Line by line the standard settings hold, but for stretches, which are asked for; times of day are UTC, so that the same
 * lines give the same day anywhere.
 */
async function settingsFor(options: Args['options'], io: Io): Promise<Settings> {
	const by = options.stretch ? ('stretch' as const) : null;
	if (options.json) return { ...standardSettings, by: by ?? 'face', units: io.units ?? 'sheet' };
	const now = await settingsInForce(io);
	return { ...now, by: by ?? now.by, plain: options.plain === true || now.plain };
}

/**
 * A job as it is rehearsed: its first day is begun with the first opening, unless there is a day to go on with.
 * @param start wall clock at which the rehearsal begins, ms
 */
export function rehearsedJob(
	kept: Kept,
	next: RehearsedDays['next'],
	start: number,
	notice: RehearsedDays['notice'],
): Rehearsed {
	let isBegun = kept.last !== null;
	return {
		open() {
			if (isBegun) return kept.open();
			isBegun = true;
			return kept.begin(openingRecord({ ...next, before: noHistory }, { wall: start, mono: 0 }));
		},
		days: {
			next,
			notice,
			began: () => (kept.began === null ? start : Date.parse(kept.began)),
			begin: at => kept.begin(openingRecord({ ...next, ...kept.left() }, at)),
		},
	};
}

async function run({ positionals, options }: Args, io: Io): Promise<number> {
	const refuse = (message: string): number => {
		io.stderr.write(`fanwise rehearse: ${message}\n`);
		return 2;
	};
	if (options.json && options.plain)
		return refuse('--json and --plain answer the same lines in two ways: leave one out');
	const sheet = await readSheet(positionals[0], io, 'rehearse');
	if (!sheet) return 2;
	const path = options.day === undefined ? undefined : String(options.day);
	const seed = options.seed === undefined ? 0 : Number(options.seed);
	if (!Number.isInteger(seed) || seed < 0)
		return refuse(`--seed "${String(options.seed).slice(0, 40)}" is no whole number`);
	try {
		const onTrouble = (message: string) => void io.stderr.write(`${message}\n`);
		const kept =
			path === undefined
				? (await import('./rehearsed-in-memory.ts')).rehearsedInMemory()
				: (await import('./rehearsed-file.ts')).rehearsedFile(path, sheet.job.name, onTrouble);
		if (typeof kept === 'string') return refuse(kept);
		const start = startOf(options.start, kept.last);
		if (typeof start === 'string') return refuse(start);
		const settings = await settingsFor(options, io);
		const next = {
			...sheet,
			settings,
			clock: 'moved' as const,
			program: version(),
			...(!options.json && { marks: readCanMarks() }),
			zone: options.json ? 'UTC' : localZone(),
			seed,
		};
		const rehearsed = rehearsedJob(kept, next, start, records => changedSince(records, sheet));
		const line = triggerLineOf(options);
		return options.json
			? await answerLines(rehearsed, start, line, io)
			: await watch(rehearsed, start, { settings, line }, io);
	} catch (error) {
		if (error instanceof SourceError) return refuse(error.message);
		if (!(error instanceof DayFileError)) throw error;
		io.stderr.write(`${error.message}\n`);
		return statusOf(error);
	}
}

/** Rehearses a sheet at the terminal, writing nothing. */
export const rehearseAtTerminal = (path: string, io: Io) => run({ positionals: [path], options: {} }, io);

export const rehearseCommand: Command = {
	name: 'rehearse',
	summary: 'the same screens and rules on a clock that can be moved',
	usage: [
		'rehearse JOB.yaml [--day FILE] [--start INSTANT] [--seed N] [--json | --plain] [--trigger SOURCE]',
	],
	words: 1,
	options: {
		json: { type: 'boolean', says: 'answer line by line: one line in, one JSON line out' },
		plain: plainOption,
		day: {
			type: 'string',
			value: 'FILE',
			says: 'keep the day in this file, each next one beside it (FILE-2), or carry the newest on; else nothing is written',
		},
		start: { type: 'string', value: 'INSTANT', says: 'where the clock begins, e.g. 2027-03-02T08:00:00Z' },
		seed: { type: 'string', value: 'N', says: 'where the rotation of questions begins' },
		...triggerOptions,
		stretch: { type: 'boolean', says: 'stretch by stretch instead of face by face' },
	},
	examples: [
		'rehearse coffee-cart.yaml',
		'rehearse coffee-cart.yaml --plain',
		'rehearse coffee-cart.yaml --trigger pulls.jsonl',
		'rehearse coffee-cart.yaml --json --start 2027-03-02T08:00:00Z < keys.txt',
	],
	run,
};
