import { createHash } from 'node:crypto';
import { fitsItsSum } from './line-ends.ts';

/**
 * What can be told of a day without its schemas: which job it is of, and by what its days follow each other, whatever
 * a clock said or a file is called.
 */
export type Glimpse = {
	/** By which it is known, wherever its file lies: of its first line. */
	id: string;
	job: string;
	/** The id of the job's first day, and those of the days it rests on; null and none where it is the first, or older. */
	of: string | null;
	restsOn: string[];
	clock: 'real' | 'moved';
	/** Instants of its first and last record. */
	began: string;
	ended: string;
	closed: boolean;
	/** Number of its last record. */
	upto: number;
	/** Batches lettered and coats laid on the job before the day, and with it. */
	before: number;
	after: number;
	/** Each face that has a coat, with the instant at which its first one ended: the days of one job share them. */
	firsts: string[];
};

type Fields = Partial<Record<string, unknown>>;

const fieldsOf = (of: unknown): Fields =>
	typeof of === 'object' && of !== null && !Array.isArray(of) ? { ...of } : {};

function parsed(json: string): Fields {
	try {
		return fieldsOf(JSON.parse(json));
	} catch {
		return {};
	}
}

/** Length of the checksum and the blank before the JSON of a line. */
const beforeJson = 9;
const lineFeed = 10;

const text = (bytes: Uint8Array, from: number, to: number) =>
	Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('utf8', from, to);

/** The first line's fields, where its checksum fits. */
function openingOf(bytes: Uint8Array): Fields | null {
	const end = bytes.indexOf(lineFeed);
	if (end < beforeJson) return null;
	return fitsItsSum(bytes.subarray(0, end)) ? parsed(text(bytes, beforeJson, end)) : null;
}

/** Coats and batches that a day was opened with, and the first coat of each face. */
function opensWith(before: Fields): { count: number; firsts: Map<string, string> } {
	const firsts = new Map<string, string>();
	let count = typeof before.letters === 'number' ? before.letters : 0;
	for (const [face, history] of Object.entries(fieldsOf(before.faces))) {
		const { coats } = fieldsOf(history);
		if (!Array.isArray(coats)) continue;
		count += coats.length;
		const { ended } = fieldsOf(coats[0]);
		if (typeof ended === 'string') firsts.set(face, ended);
	}
	return { count, firsts };
}

const laidLine = /^[0-9a-f]{8} (\{.*"type":"face\.ended".*"extent":"all".*\})$/gm;
const mixedLine = /"type":"batch\.started"/g;
const closedMark = '"type":"day.closed"';

/** @returns null where the first line is not that of a day, or not whole */
export function glimpseDay(bytes: Uint8Array): Glimpse | null {
	const opening = openingOf(bytes);
	if (opening?.type !== 'day.opened') return null;
	const { job, clock, at, before, of, after } = opening;
	if (typeof job !== 'string' || typeof at !== 'string' || Number.isNaN(Date.parse(at))) return null;
	if (clock !== 'real' && clock !== 'moved') return null;
	const { count, firsts } = opensWith(fieldsOf(before));
	const rest = text(bytes, bytes.indexOf(lineFeed) + 1, bytes.length);
	const laid = [...rest.matchAll(laidLine)].map(([, json = '']) => parsed(json));
	for (const { face, ended, at: keyed } of laid)
		if (typeof face === 'string' && !firsts.has(face)) firsts.set(face, String(ended ?? keyed));
	const last = lastRecord(rest);
	return {
		...{ id: dayId(bytes), job, of: typeof of === 'string' ? of : null, restsOn: daysIn(after) },
		...{ clock, began: at, ended: last?.at ?? at, closed: rest.includes(closedMark), upto: last?.seq ?? 1 },
		before: count,
		after: count + laid.length + (rest.match(mixedLine)?.length ?? 0),
		firsts: [...firsts].map(([face, ended]) => `${face} ${ended}`),
	};
}

/** The sha256 of the first line of a day file, as 64 hex digits. */
export const dayId = (bytes: Uint8Array): string =>
	createHash('sha256')
		.update(bytes.subarray(0, bytes.indexOf(lineFeed)))
		.digest('hex');

const daysIn = (after: unknown): string[] =>
	(Array.isArray(after) ? after : []).flatMap(head => {
		const { day } = fieldsOf(head);
		return typeof day === 'string' ? [day] : [];
	});

/** Instant and number of the last line that says them. */
function lastRecord(rest: string): { at: string; seq: number } | null {
	for (let end = rest.lastIndexOf('\n'); end > 0; ) {
		const start = rest.lastIndexOf('\n', end - 1) + 1;
		const { at, seq } = parsed(rest.slice(start + beforeJson, end));
		if (typeof at === 'string' && !Number.isNaN(Date.parse(at)) && typeof seq === 'number')
			return { at, seq };
		end = start - 1;
	}
	return null;
}
