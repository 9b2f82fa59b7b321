import { readFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import { crc32 } from 'node:zlib';
import { movedClock } from '../../../src/day/clock.ts';
import { glimpseDay } from '../../../src/day/file/glimpse.ts';
import { encodeKey } from '../../../src/day/file/keep.ts';
import { disk, type FilePort } from '../../../src/day/file/port.ts';
import { readDay } from '../../../src/day/file/read.ts';
import { readLight } from '../../../src/day/file/read-light.ts';
import { keepSums, readSums, sumsPath } from '../../../src/day/file/sums.ts';
import { DayFileError } from '../../../src/day/file/trouble.ts';
import { historyAfter } from '../../../src/day/history.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import { openSession } from '../../../src/day/session.ts';
import { changeable, changed } from '../../../src/job/again.ts';
import { linesOf, questionsOf } from '../../../src/job/data-sheet.ts';
import { errorLine, type SheetError } from '../../../src/job/errors.ts';
import { parseList } from '../../../src/job/lists.ts';
import { parseJob } from '../../../src/job/load.ts';
import { readShelf, shelfKinds } from '../../../src/job/shelf.ts';
import { taughtBy } from '../../../src/plan/rates.ts';
import { parseSettings } from '../../../src/settings/kept.ts';
import { FaultsError, joinFaults, readFaults } from '../../../src/trace/faults.ts';
import { lineCutter, parsePull } from '../../../src/trigger/line.ts';
import { rehearsed } from '../../day/rehearsed.ts';
import { type Chance, chanceOf } from '../keys/chance.ts';
import { spoilBytes, spoilText } from './spoil.ts';

/** Everything that the program reads, spoilt by chance: no reader may throw, and none may take what was changed. */

type Reader = {
	name: string;
	/** Of a hundred cases, how many. */
	share: number;
	/** What is wrong with how it read; null: nothing. */
	read(chance: Chance): string | null;
};

/** What is said of a file is one line of plain text, and no longer than a screen. */
const isPlain = (text: string) => !/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/u.test(text) && text.length <= 1200;
const badLine = (lines: readonly string[]): string | null => {
	const bad = lines.find(line => !isPlain(line) || line.trim() === '');
	return bad === undefined ? null : `says ${JSON.stringify(bad.slice(0, 200))}`;
};
const saysOf = (errors: readonly SheetError[]) =>
	errors.length === 0 ? 'refuses and says nothing' : badLine(errors.map(errorLine));

const sheet = readFileSync('checklists/example/coffee-cart.yaml', 'utf8');
const shortSheet = readFileSync('tests/job/chairs/eight-chairs.yaml', 'utf8').replace(
	'shape: panel, 40 x 38 x 3 cm',
	'shape: chair seat',
);
const seat = {
	...{ kind: 'shape' as const, name: 'chair seat', path: 'shapes/seat.yaml' },
	text: 'shape: chair seat\nis: panel, 40 x 38 x 3 cm\nheld: on points\n',
};
const onDisk = readShelf('tests/job/chairs/shelf');
const shelf = { ...onDisk, files: [...onDisk.files, seat] };
const lists = ['before-spraying', 'gun-check', 'clean-up'].map(name =>
	readFileSync(`checklists/${name}.yaml`, 'utf8'),
);
const faults = readFileSync('checklists/faults.yaml', 'utf8');
const shortFaults = faults.slice(0, faults.indexOf('  sag:'));
const builtIn = joinFaults([readFaults(faults, 'faults.yaml')]);
const settings = JSON.stringify({
	...{ by: 'stretch', settle_s: 12, voice: true, layout: 'learned', pourTolerance: 0.02 },
	learned: { topLeft: ['a'], topRight: ['b'], bottomLeft: ['c'], bottomRight: ['d'], hold: [] },
});

const day = rehearsed({ settings: { by: 'face' } });
day.toEnd();
const records = day
	.records()
	.map((one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'real' } : one));
const bytes = Buffer.from(day.bytes());
/** Byte at which each key ends. */
const keyEnds = new Set([0, ...day.keys.map((_, key) => encodeKeys(day.keys.slice(0, key + 1)))]);

function encodeKeys(keys: readonly DayRecord[][]): number {
	let last: DayRecord | undefined;
	return keys.reduce((length, key) => {
		const piece = encodeKey(key, last);
		last = key.at(-1);
		return length + piece.length;
	}, 0);
}

/** Nothing but whole keys from the true beginning of the day may be taken out of a spoilt one. */
function spoiltDay(chance: Chance): string | null {
	const spoilt = spoilBytes(bytes, chance);
	const read = readDay(spoilt);
	const { goodBytes } = read;
	if (!keyEnds.has(goodBytes) || !spoilt.subarray(0, goodBytes).equals(bytes.subarray(0, goodBytes)))
		return `${goodBytes} bytes of a changed day are taken for good`;
	const light = readLight(spoilt);
	if (light && !(keyEnds.has(spoilt.length) && spoilt.equals(bytes.subarray(0, spoilt.length))))
		return 'a changed day is read as if it were whole';
	glimpseDay(spoilt);
	return null;
}

/** A line of the day changed, and its checksum with it: as somebody may write one by hand. */
function forgedDay(chance: Chance): string | null {
	const lines = bytes.toString('utf8').trimEnd().split('\n');
	const from = chance.below(lines.length);
	const json = spoilText(lines[from]?.slice(9) ?? '', chance).replaceAll('\n', ' ');
	lines[from] = `${crc32(json).toString(16).padStart(8, '0')} ${json}`;
	const read = readDay(Buffer.from(`${lines.slice(0, from + 30).join('\n')}\n`));
	if (read.damage || read.records.length === 0) return null;
	const clock = movedClock(Date.parse(read.records.at(-1)?.at ?? ''));
	try {
		openSession({ sink: { records: read.records, append() {}, close() {} }, clock, rehearsal: true }).close();
	} catch (error) {
		if (!(error instanceof DayFileError)) throw error;
		return badLine([error.message]);
	}
	return null;
}

/** What is kept beside a day, spoilt: it says the same, or is not used. */
const files = new Map<string, Uint8Array>();
const missing = () => Object.assign(new Error('ENOENT'), { code: 'ENOENT' });
const inMemory: FilePort = {
	...disk,
	read: path =>
		files.get(path) ??
		(() => {
			throw missing();
		})(),
	stat: path => {
		const found = files.get(path);
		return found ? { dev: 1n, ino: 1n, size: found.length, changed_ms: 0, isFile: true } : null;
	},
	pieces: (path, at) =>
		at.map(({ from, length }) => (files.get(path) ?? new Uint8Array()).subarray(from, from + length)),
	open: path => {
		files.set(path, new Uint8Array());
		return [...files.keys()].indexOf(path);
	},
	write: (handle, piece) => {
		files.set([...files.keys()][handle] ?? '', Buffer.from(piece));
		return piece.length;
	},
	close() {},
	rename: (from, to) => {
		files.set(to, files.get(from) ?? new Uint8Array());
		files.delete(from);
	},
};
const real = Buffer.from(encodeKey(records, undefined));
const [taught, history] = [taughtBy(records), historyAfter(records)];
files.set('a', real);
keepSums('a', real, taught, history, inMemory);
const sums = Buffer.from(files.get(sumsPath('a')) ?? '');
const wanted = JSON.stringify([glimpseDay(real), taught]);

function spoiltSums(chance: Chance): string | null {
	files.set(sumsPath('a'), spoilBytes(sums, chance));
	const found = readSums('a', inMemory);
	if (!found) return null;
	if (JSON.stringify([found.glimpse, found.taught]) !== wanted) return 'changed sums are taken for good';
	const left = found.history();
	return left === null || JSON.stringify(left) === JSON.stringify(history)
		? null
		: 'a changed history is taken';
}

const pulls = '{"trigger":"on","after_ms":120}\n{"trigger":"off"}\n';

const readers: Reader[] = [
	{
		name: 'job sheets',
		share: 6,
		read(chance) {
			const read = parseJob(spoilText(sheet, chance), 'cart.yaml');
			return read.ok ? null : saysOf(read.errors);
		},
	},
	{
		name: 'short sheets',
		share: 3,
		read(chance) {
			const read = parseJob(spoilText(shortSheet, chance), 'chairs.yaml', () => shelf);
			return read.ok ? null : saysOf(read.errors);
		},
	},
	{
		name: 'shelves',
		share: 3,
		read(chance) {
			const at = chance.below(shelf.files.length);
			const spoilt = (text: string, nth: number) => (nth === at ? spoilText(text, chance) : text);
			const files = shelf.files.map((file, nth) => ({ ...file, text: spoilt(file.text, nth) }));
			const read = parseJob(shortSheet, 'chairs.yaml', () => ({ ...shelf, files }));
			return read.ok ? null : saysOf(read.errors);
		},
	},
	{
		name: 'sheets again',
		share: 3,
		read(chance) {
			const text = spoilText(shortSheet, chance);
			const can = changeable(text, 'chairs.yaml');
			if (Array.isArray(can)) return can.length === 0 ? null : saysOf(can);
			const again = changed(text, { name: can.name, counts: new Map(), materials: new Map() });
			const [was, is] = [text, again].map(one => parseJob(one, 'chairs.yaml', () => shelf));
			return was?.ok && !isDeepStrictEqual(is, was) ? 'is another job, though nothing was changed' : null;
		},
	},
	{
		name: 'answers for the shelf',
		share: 4,
		read(chance) {
			const kind = chance.pick(shelfKinds);
			const asked = chance.pick(questionsOf[kind]);
			const answer = spoilText(asked.like, chance).replaceAll(/[\r\n]/g, ' ');
			const read = linesOf(kind, asked, answer);
			return 'wrong' in read ? badLine([read.wrong]) : null;
		},
	},
	{
		name: 'lists',
		share: 10,
		read(chance) {
			const read = parseList(spoilText(chance.pick(lists), chance), 'list.yaml');
			return Array.isArray(read) ? saysOf(read) : null;
		},
	},
	{
		name: 'faults',
		share: 14,
		read(chance) {
			try {
				joinFaults([builtIn, readFaults(spoilText(shortFaults, chance), 'ours.yaml')]);
				return null;
			} catch (error) {
				if (!(error instanceof FaultsError)) throw error;
				return badLine([error.message]);
			}
		},
	},
	{
		name: 'settings',
		share: 17,
		read(chance) {
			const read = parseSettings(spoilText(settings, chance));
			return 'bad' in read ? badLine([read.bad]) : null;
		},
	},
	{ name: 'days', share: 12, read: spoiltDay },
	{ name: 'forged days', share: 4, read: forgedDay },
	{ name: 'sums', share: 10, read: spoiltSums },
	{
		name: 'trigger lines',
		share: 14,
		read(chance) {
			let longest = 0;
			const cut = lineCutter(line => {
				longest = Math.max(longest, line.length);
				parsePull(line);
			});
			for (const piece of [pulls, spoilText(pulls, chance), pulls])
				cut(spoilBytes(Buffer.from(piece), chance));
			return longest > 70_000 ? `a line of ${longest} letters` : null;
		},
	},
];

export type Fuzzed = { cases: number; by: Record<string, number>; says: string[] };

/** No reader of so little takes longer; under load of others, ms. */
const patience_ms = 20_000;

/**
 * Reads spoilt files.
 * @param cases how many, in the shares of the readers
 * @param seed the same seed, the same files
 */
export function fuzzReaders(cases: number, seed: number): Fuzzed {
	const done: Fuzzed = { cases: 0, by: {}, says: [] };
	const wheel = readers.flatMap(reader => Array<Reader>(reader.share).fill(reader));
	for (let count = 0; count < cases && done.says.length < 20; count++) {
		const reader = wheel[count % wheel.length];
		if (!reader) break;
		const chance = chanceOf(seed * 1_000_003 + count);
		const began = performance.now();
		const where = `${reader.name}, seed ${seed}, case ${count}`;
		try {
			const wrong = reader.read(chance);
			if (wrong !== null) done.says.push(`${where}: ${wrong}`);
		} catch (error) {
			done.says.push(`${where}: ${error instanceof Error ? error.stack?.slice(0, 400) : error}`);
		}
		if (performance.now() - began > patience_ms) done.says.push(`${where}: took too long`);
		done.cases++;
		done.by[reader.name] = (done.by[reader.name] ?? 0) + 1;
	}
	return done;
}
