import { crc32 } from 'node:zlib';

/**
 * What can be told of a day without its schemas: which job it is of, and by what its days follow each other, whatever
 * a clock said or a file is called.
 */
export type Glimpse = {
	job: string;
	clock: 'real' | 'moved';
	/** Instants of its first and last record. */
	began: string;
	ended: string;
	closed: boolean;
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
	const sum = crc32(bytes.subarray(beforeJson, end)).toString(16).padStart(8, '0');
	return text(bytes, 0, 8) === sum ? parsed(text(bytes, beforeJson, end)) : null;
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
	const { job, clock, at, before } = opening;
	if (typeof job !== 'string' || typeof at !== 'string' || Number.isNaN(Date.parse(at))) return null;
	if (clock !== 'real' && clock !== 'moved') return null;
	const { count, firsts } = opensWith(fieldsOf(before));
	const rest = text(bytes, bytes.indexOf(lineFeed) + 1, bytes.length);
	const laid = [...rest.matchAll(laidLine)].map(([, json = '']) => parsed(json));
	for (const { face, ended, at: keyed } of laid)
		if (typeof face === 'string' && !firsts.has(face)) firsts.set(face, String(ended ?? keyed));
	return {
		...{ job, clock, began: at, ended: lastInstant(rest) ?? at, closed: rest.includes(closedMark) },
		before: count,
		after: count + laid.length + (rest.match(mixedLine)?.length ?? 0),
		firsts: [...firsts].map(([face, ended]) => `${face} ${ended}`),
	};
}

/** Of the last line that says one. */
function lastInstant(rest: string): string | null {
	for (let end = rest.lastIndexOf('\n'); end > 0; ) {
		const start = rest.lastIndexOf('\n', end - 1) + 1;
		const { at } = parsed(rest.slice(start + beforeJson, end));
		if (typeof at === 'string' && !Number.isNaN(Date.parse(at))) return at;
		end = start - 1;
	}
	return null;
}
