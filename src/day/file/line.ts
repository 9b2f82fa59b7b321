import { crc32 } from 'node:zlib';
import * as z from 'zod/mini';
import { type DayRecord, eventSchema, stampSchema } from '../records.ts';
import { fitsItsSum, hexSum, sumLength } from './line-ends.ts';

const space = 32;

const utf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

const kinds: Readonly<Record<string, string>> = {
	array: 'a list',
	boolean: 'yes or no',
	int: 'a whole number',
	number: 'a number',
	object: 'a group of fields',
	string: 'a text',
};
type Issue = Parameters<NonNullable<ReturnType<typeof z.config>['localeError']>>[0];

/** What is wrong with a field. */
function wrongField(issue: Issue): string {
	switch (issue.code) {
		case 'invalid_type':
			return `${kinds[issue.expected] ?? issue.expected} is wanted`;
		case 'too_small':
			return 'too small';
		case 'too_big':
			return 'too large';
		case 'unrecognized_keys':
			return `no such record has ${issue.keys.map(key => JSON.stringify(key.slice(0, 40))).join(', ')}`;
		default:
			return 'none of what may stand here';
	}
}
z.config({ localeError: wrongField });

const eventSchemas = new Map<unknown, (typeof eventSchema.def.options)[number]>(
	eventSchema.def.options.flatMap(option =>
		option.shape.type.def.values.map(type => [type, option] as const),
	),
);
const lineSchemas = new Map<unknown, z.ZodMiniType<DayRecord>>();

/** A line's fields in one go, by its type: twice as quick as the stamp and the event one after the other. */
function lineSchema(type: unknown): z.ZodMiniType<DayRecord> | undefined {
	const known = lineSchemas.get(type);
	const event = eventSchemas.get(type);
	if (known || !event) return known;
	const made: z.ZodMiniType<DayRecord> = z.strictObject({ ...stampSchema.shape, ...event.shape });
	lineSchemas.set(type, made);
	return made;
}

/** A record out of what a line holds, checked against the schemas; `bad` says which field is wrong. */
export const toRecord = (raw: unknown): { record: DayRecord } | { bad: string } => {
	const type = typeof raw === 'object' && raw !== null && 'type' in raw ? raw.type : undefined;
	const schema = lineSchema(type);
	if (!schema) return { bad: 'it is no type of record that this program knows' };
	const read = schema.safeParse(raw);
	if (read.success) return { record: read.data };
	const issue = read.error.issues[0];
	return { bad: `${issue?.path.map(String).join('.') || 'fields'}: ${issue?.message ?? 'not known'}` };
};

/**
 * One line of a day file: the checksum of the JSON as 8 lower-case hex digits, a space, the JSON, LF.
 *
 * @throws TypeError where the record is not one that could be read again (a number that is none, a field missing).
 */
export const encodeLine = (record: DayRecord): Uint8Array => {
	const checked = toRecord(record);
	if ('bad' in checked)
		throw new TypeError(`record ${record.seq} (${record.type}) cannot be kept: ${checked.bad}`);
	const json = JSON.stringify(checked.record);
	return Buffer.from(`${hexSum(json)} ${json}\n`);
};

/**
 * What a line holds, from its bytes without the LF. Nothing but the very bytes that `encodeLine` could have written
 * is accepted: the checksum covers the JSON, the JSON has only one spelling, and the rest of the line is fixed.
 */
export const openLine = (line: Uint8Array): { raw: unknown } | { bad: string } => {
	const json = line.subarray(sumLength + 1);
	const sum = Buffer.from(line.subarray(0, sumLength)).toString('latin1');
	if (!/^[0-9a-f]{8}$/.test(sum) || line[sumLength] !== space)
		return { bad: 'it does not begin with a checksum' };
	if (!fitsItsSum(line)) return { bad: 'its checksum does not fit' };
	try {
		const text = utf8.decode(json);
		const raw: unknown = JSON.parse(text);
		return JSON.stringify(raw) === text ? { raw } : { bad: 'its JSON is not as this program writes it' };
	} catch {
		return { bad: 'it is not JSON in UTF-8' };
	}
};

/** A record from the bytes of its line without the LF, or what is wrong with them. */
export const decodeLine = (line: Uint8Array): { record: DayRecord } | { bad: string } => {
	const opened = openLine(line);
	return 'bad' in opened ? opened : toRecord(opened.raw);
};

/**
 * Whether a tail without LF holds a whole line and something after it: then it was not cut short by a crash,
 * its LF was changed.
 */
export const lostItsEnd = (tail: Uint8Array): boolean => {
	const sum = Buffer.from(tail.subarray(0, sumLength)).toString('latin1');
	let running = 0;
	let done = sumLength + 1;
	for (let brace = tail.indexOf(125, done); brace !== -1; brace = tail.indexOf(125, done)) {
		running = crc32(tail.subarray(done, brace + 1), running);
		done = brace + 1;
		const fits = running.toString(16).padStart(sumLength, '0') === sum;
		if (fits && done < tail.length && 'raw' in openLine(tail.subarray(0, done))) return true;
	}
	return false;
};
