import { DayFileError } from '../day/file/trouble.ts';
import { noHistory } from '../day/history.ts';
import { localZone } from '../day/local-zone.ts';
import { openingRecord } from '../day/open.ts';
import type { DayRecord } from '../day/records.ts';
import type { Sink } from '../day/session.ts';
import type { Settings } from '../day/settings.ts';
import { standardSettings } from '../day/standard-settings.ts';
import { SourceError } from '../trigger/source.ts';
import type { Args, Command, Io } from './command.ts';
import { instantIn } from './instant.ts';
import { version } from './package.ts';
import type { RehearsedFile } from './rehearsed-file.ts';
import { answerLines, watch } from './rehearsing.ts';
import { settingsInForce } from './settings-in-force.ts';
import { readSheet } from './sheet.ts';
import { plainOption } from './show.ts';
import { statusOf } from './status.ts';
import { triggerLineOf, triggerOptions } from './trigger.ts';

/** A day kept in memory: a kill loses nothing that was recorded. */
function inMemory(first: DayRecord): () => Sink {
	const records = [first];
	return () => ({ records: [...records], append: made => void records.push(...made), close() {} });
}

function startOf(given: unknown, file: RehearsedFile | null): number | string {
	const start = given === undefined ? Date.now() : instantIn(String(given));
	if (start === null)
		return `--start "${String(given).slice(0, 40)}" is no instant: write it as 2027-03-02T08:00:00Z`;
	return file?.last ? Math.max(start, Date.parse(file.last)) : start;
}

/** Line by line the standard settings hold, and times of day are UTC, so that the same lines give the same day anywhere. */
async function settingsFor(options: Args['options'], io: Io): Promise<Settings> {
	const by = options.stretch ? ('stretch' as const) : null;
	if (options.json) return { ...standardSettings, by: by ?? 'face', units: io.units ?? 'sheet' };
	const now = await settingsInForce(io);
	return { ...now, by: by ?? now.by, plain: options.plain === true || now.plain };
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
		const file = path === undefined ? null : (await import('./rehearsed-file.ts')).rehearsedFile(path);
		const start = startOf(options.start, file);
		if (typeof start === 'string') return refuse(start);
		const other = file?.notOf(sheet.job.name);
		if (other) return refuse(other);
		const settings = await settingsFor(options, io);
		const opening = {
			...sheet,
			settings,
			clock: 'moved' as const,
			program: version(),
			before: noHistory,
			zone: options.json ? 'UTC' : localZone(),
			seed,
		};
		const first = openingRecord(opening, { wall: start, mono: 0 });
		const open = file?.open(first, message => io.stderr.write(`${message}\n`)) ?? inMemory(first);
		const line = triggerLineOf(options);
		return options.json
			? await answerLines(open, start, line, io)
			: await watch(open, start, { settings, line }, io);
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
			says: 'keep the day in this file, or carry it on; else nothing is written',
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
