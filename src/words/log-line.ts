import type { DayRecord } from '../day/records.ts';
import { inert } from '../job/inert.ts';
import { everyField } from '../records/every.ts';
import { clock } from './clock.ts';
import { figure } from './say.ts';

/** What a line makes of each field. */
const fields = everyField({
	inFront: ['seq', 'run', 'at', 'type', 'face', 'coat'],
	noMatter: ['mono', 'up', 'more', 'facts'],
	tooLong: ['sheet', 'lists', 'turnedDown', 'settings', 'before', 'of', 'after', 'cans', 'windows', 'items'],
	day: ['v', 'program', 'job', 'clock', 'zone', 'seed', 'rates', 'stage', 'faces', 'order', 'stepMs'],
	air: ['airC', 'humidity', 'surfaceC', 'bounds_C', 'dewPointC', 'spray', 'reasons', 'air'],
	checks: ['check', 'list', 'size', 'item', 'answer', 'passed', 'cup', 'tilt'],
	mix: ['batch', 'material', 'ratio', 'by', 'make_mL', 'component', 'can', 'level_mL', 'mass_g'],
	poured: [
		'wanted_mL',
		'wanted_g',
		'found',
		'seconds',
		'tempC',
		'fits',
		'volume_mL',
		'to_mL',
		'refill',
		'ofGun',
		'read',
		'kept',
	],
	gun: ['horns', 'pressure_kPa', 'fanHeight_mm', 'fluid'],
	readings: ['feature', 'value', 'wanted', 'matched', 'attempt', 'card'],
	passes: ['overrides', 'window', 'from', 'spray_s', 'extent', 'lastStroke', 'estimated', 'began', 'ended'],
	breaks: ['to', 'due', 'why', 'kind', 'since', 'jump', 'rule', 'reason', 'step', 'place', 'grit'],
	faults: ['fault', 'gun', 'remedy', 'part', 'faulty', 'dry_um', 'wet_um', 'where', 'verdict'],
});
const left = new Set<string>([...fields.inFront, ...fields.noMatter, ...fields.tooLong]);

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
		.filter(([name, of]) => !left.has(name) && of !== undefined)
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
