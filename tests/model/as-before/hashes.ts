import { createHash } from 'node:crypto';
import type { DayRecord } from '../../../src/day/records.ts';
import type { Line } from '../../../src/day/rehearsal.ts';
import type { PlayedJob } from './days.ts';

/** Two sums of a day: of what was shown, and of what was written, each without what only its form has changed. */

const sumOf = (lines: readonly string[]): string =>
	createHash('sha256').update(lines.join('\n')).digest('hex');

/** Records that are told of nowhere, and facts and fields that came or went. */
const untold: readonly string[] = ['window.moved'];
const formal: readonly string[] = ['window', 'due', 'long', 'thinned', 'fresh'];

const told = (types: readonly string[]) => types.filter(type => !untold.includes(type));

/** What stands on a screen without how it is worded: a caution more, or another sentence, is no other day. */
export const shownIn = (lines: readonly Line[]): string[] =>
	lines.map(({ say: _, lines: __, ...line }) => JSON.stringify({ ...line, events: told(line.events) }));

function factsOf(facts: object | undefined): object | undefined {
	const left = Object.entries(facts ?? {}).filter(([name]) => !formal.includes(name));
	return left.length > 0 ? Object.fromEntries(left) : undefined;
}

/** The records behind the first, counted anew. */
export function writtenIn(records: readonly DayRecord[]): string[] {
	const places = new Map<number, number>();
	const kept = records.slice(1).filter(({ type }) => !untold.includes(type));
	for (const [index, { seq }] of kept.entries()) places.set(seq, index + 2);
	return kept.map(record => {
		const { more: _, facts, ...fields } = record;
		const { window: __, ...override } = fields as typeof fields & { window?: unknown };
		const bare = record.type === 'override.given' ? override : fields;
		const air = record.type === 'face.started' ? { air: places.get(record.air ?? 0) ?? null } : {};
		const left = factsOf(facts);
		const all = { ...bare, seq: places.get(record.seq), ...air, ...(left && { facts: left }) };
		return JSON.stringify(Object.fromEntries(Object.entries(all).sort(([a], [b]) => (a < b ? -1 : 1))));
	});
}

export const hashesOf = (days: PlayedJob): [string, string] => [
	sumOf(days.flatMap(({ lines }) => shownIn(lines))),
	sumOf(days.flatMap(({ records }) => writtenIn(records))),
];
