import { createHash } from 'node:crypto';
import { asSentence, face as faceSaid, plain, word } from './said.ts';
import type { DueRow } from './tables/next.ts';
import type { Tables } from './tables/tables.ts';

type Entry = {
	/** What makes the entry the same one when the report is written again. */
	key: string;
	from: string;
	until: string | null;
	summary: string;
	says: string;
	/** What is over needs no alarm. */
	over?: true;
};

/** An entry without an end is shown this long, ms. */
const moment_ms = 15 * 60_000;
/** An alarm before a window closes, min. */
const early_min = 30;

const stamp = (iso: string): string => `${iso.slice(0, 19).replace(/[-:]/g, '')}Z`;

/** Text of a property: RFC 5545 §3.3.11. */
const escapeText = (text: string): string => plain(text).replace(/[\\;,]/g, sign => `\\${sign}`);

/** A content line in pieces of at most 75 octets, none of them cutting a character: RFC 5545 §3.1. */
export function folded(line: string): string {
	const pieces: string[] = [];
	let piece = '';
	let octets = 0;
	for (const char of line) {
		const size = Buffer.byteLength(char);
		if (octets + size > 75) {
			pieces.push(piece);
			piece = ' ';
			octets = 1;
		}
		piece += char;
		octets += size;
	}
	return [...pieces, piece].join('\r\n');
}

const uid = (tables: Tables, key: string): string => {
	const { job, opened } = tables.day;
	return `${createHash('sha256')
		.update(JSON.stringify([job, opened, key]))
		.digest('hex')
		.slice(0, 32)}@fanwise`;
};

const alarm = (trigger: string, says: string): string[] => [
	'BEGIN:VALARM',
	'ACTION:DISPLAY',
	`DESCRIPTION:${escapeText(says)}`,
	trigger,
	'END:VALARM',
];

function event(tables: Tables, entry: Entry, stamped: string): string[] {
	const ends = entry.until ?? new Date(Date.parse(entry.from) + moment_ms).toISOString();
	const long = entry.until !== null && Date.parse(ends) - Date.parse(entry.from) > 2 * early_min * 60_000;
	return [
		'BEGIN:VEVENT',
		`UID:${uid(tables, entry.key)}`,
		`DTSTAMP:${stamp(stamped)}`,
		`DTSTART:${stamp(entry.from)}`,
		`DTEND:${stamp(ends)}`,
		`SUMMARY:${escapeText(entry.summary)}`,
		`DESCRIPTION:${escapeText(entry.says)}`,
		'TRANSP:TRANSPARENT',
		...(entry.over ? [] : alarm('TRIGGER:PT0S', entry.summary)),
		...(long && !entry.over
			? alarm(`TRIGGER;RELATED=END:-PT${early_min}M`, `Closes in ${early_min} min: ${entry.summary}`)
			: []),
		'END:VEVENT',
	];
}

const may: Record<string, string> = {
	spray: 'May be sprayed',
	scuff: 'Scuff first',
	sand: 'Sand first',
};

/** The day itself: a calendar may not be empty. */
function dayEntry(tables: Tables): Entry {
	const { job, opened, closed } = tables.day;
	return {
		key: 'day',
		from: opened,
		until: closed !== null && closed > opened ? closed : null,
		summary: `Spraying day: ${job}`,
		says: closed === null ? 'Not closed when this was written.' : 'Closed.',
		over: true,
	};
}

/** Windows in force of faces that still want a coat: each opens when its entry begins and closes when it ends. */
function windowEntries(tables: Tables): Entry[] {
	const aside = new Set(tables.aside.flatMap(({ faces }) => faces));
	const rows = tables.windows.filter(({ last, wants, face }) => last && wants && !aside.has(face));
	return rows.flatMap(row =>
		row.windows
			.filter(({ does }) => does !== 'wait')
			.map(({ does, from, until }) => ({
				key: `window ${does} ${row.coat} ${row.face}`,
				from,
				until,
				summary: `${may[does] ?? word(does)}: ${faceSaid(row.face)}, on coat ${row.coat}`,
				says: [
					`${asSentence(tables.day.job)}.`,
					until === null ? 'This window stays open.' : 'The window closes when this entry ends.',
					'The touch on the tape tab and the data sheet decide.',
				].join(' '),
			})),
	);
}

const partOf = (face: string): string => face.split('/')[0] ?? face;

/** A stage is one entry for all its faces, other work one for each part: from the moment that all of them may go on. */
function dueEntries(tables: Tables): Entry[] {
	const groups = new Map<string, DueRow[]>();
	for (const row of tables.due) {
		const key = JSON.stringify([row.what, row.stage, ...(row.what === 'stage' ? [] : [partOf(row.face)])]);
		groups.set(key, [...(groups.get(key) ?? []), row]);
	}
	return [...groups].flatMap(([key, rows]) => {
		const [first] = rows;
		const last = rows.at(-1);
		if (!first || !last) return [];
		const what = first.what === 'sand' ? 'Sanding due' : `${asSentence(word(first.what))} due`;
		const faces = rows.map(({ face }) => faceSaid(face)).join(', ');
		return [
			{
				key: `due ${key}`,
				from: last.at,
				until: null,
				summary:
					first.what === 'stage'
						? `Next stage may begin: ${first.stage}`
						: `${what}: ${faceSaid(partOf(first.face))}`,
				says: `${asSentence(tables.day.job)}: ${faces}. Not earlier; the data sheet decides.`,
			},
		];
	});
}

/**
 * A calendar of what the coats of a day allow and want next. All instants in UTC; the same day gives the same bytes.
 * Source: RFC 5545.
 */
export function ics(tables: Tables, stamped: string): string {
	const rehearsed = tables.day.clock === 'moved' ? 'Rehearsed. ' : '';
	const entries = [dayEntry(tables), ...windowEntries(tables), ...dueEntries(tables)];
	const lines = [
		'BEGIN:VCALENDAR',
		'VERSION:2.0',
		'PRODID:-//fanwise//report//EN',
		'CALSCALE:GREGORIAN',
		...entries.flatMap((entry, nth) => {
			const seen = entries.slice(0, nth).filter(({ key }) => key === entry.key).length;
			const key = seen === 0 ? entry.key : `${entry.key} ${seen + 1}`;
			return event(tables, { ...entry, key, summary: rehearsed + entry.summary }, stamped);
		}),
		'END:VCALENDAR',
	];
	return `${lines.map(folded).join('\r\n')}\r\n`;
}
