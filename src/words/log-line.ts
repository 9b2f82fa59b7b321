import type { DayRecord } from '../day/records.ts';
import { inert } from '../job/inert.ts';
import { clock } from './clock.ts';
import { figure } from './say.ts';

const aside = new Set(['seq', 'run', 'at', 'mono', 'more', 'type', 'facts', 'face', 'coat']);
/** Too long for a line, and no part of what happened. */
const bulky = new Set(['sheet', 'lists', 'settings', 'before', 'cans', 'windows', 'items']);

function value(of: unknown): string {
	if (of === null) return 'none';
	if (Array.isArray(of)) return of.map(value).join(' ') || 'none';
	if (typeof of === 'object')
		return Object.entries(of)
			.map(([name, one]) => `${name} ${value(one)}`)
			.join(' ');
	return typeof of === 'number' ? figure(of) : inert(String(of));
}

/** One record as one readable line: time, number, what happened, where, the rest of its fields. */
export function logLine(record: DayRecord, zone: string): string {
	const seconds = String(new Date(record.at).getUTCSeconds()).padStart(2, '0');
	const face = 'face' in record && record.face ? inert(record.face) : '';
	const coat = 'coat' in record && record.coat ? `coat ${record.coat}` : '';
	const rest = Object.entries(record)
		.filter(([name, of]) => !aside.has(name) && !bulky.has(name) && of !== undefined)
		.map(([name, of]) => `${name.replace('_', ' ')} ${value(of)}`);
	const place = [face, coat].filter(text => text !== '').join(', ');
	return [
		`${clock(Date.parse(record.at), zone)}:${seconds}`,
		String(record.seq).padStart(5),
		record.type.padEnd(15),
		[...(place ? [place] : []), ...rest].join('; '),
	]
		.join('  ')
		.trimEnd();
}
