import fc from 'fast-check';
import type { DayRecord } from '../../src/day/records.ts';
import { loadFaults } from '../../src/trace/load-faults.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { smallJob } from '../day/small-job.ts';
import { added } from './cart-day.ts';

/** Pieces of text that have done harm somewhere: markup, formulas, line ends, directions, halves of pairs. */
const nasty = [
	'<script>alert(1)</script>',
	'</title></style></svg><img src=//evil.example/x onerror=alert(1)>',
	'" onload="alert(1)',
	"' style='background:url(//evil.example)",
	'&lt;b&gt;&amp;#60;',
	'javascript:alert(1)',
	'-->',
	']]>',
	'=HYPERLINK("http://evil.example")',
	'+1+1',
	'-2+3',
	'@SUM(A1)',
	'\t=1',
	'\r\nBEGIN:VEVENT\r\nSUMMARY:evil',
	'a;b,c\\n"d"',
	'\u202egnp.exe',
	'\u0000\u001b[2J\u0007',
	'\u2028\u2029',
	'\ud800',
	'😀é漢字',
	'－１＋＝',
	'url(#a);}body{display:none',
	'%{{}}#{1}',
	'constructor',
	'__proto__',
];

export const hostileText = fc.oneof(
	fc.constantFrom(...nasty),
	fc.string({ unit: 'binary', maxLength: 40 }),
	fc.array(fc.constantFrom(...nasty), { minLength: 2, maxLength: 4 }).map(parts => parts.join('')),
);

export type Names = {
	job: string;
	part: string;
	face: string;
	material: string;
	reason: string;
	fault: string;
	zone: string;
};
export const hostileNames: fc.Arbitrary<Names> = fc.record({
	job: hostileText,
	part: hostileText,
	face: hostileText,
	material: hostileText,
	reason: hostileText,
	fault: hostileText,
	zone: fc.oneof(fc.constant('America/St_Johns'), hostileText),
});

let played: DayRecord[] | undefined;

/** A played day with every name in it replaced. */
export function dayNamed(names: Names): DayRecord[] {
	played ??= (() => {
		const job = smallJob();
		const day = rehearsed({ job });
		day.toState('wait');
		day.send('hold', 'wait 4 min');
		day.pick('back');
		day.toEnd();
		return added(day.records(), 12, [
			{ type: 'fault.seen', fault: 'FAULT', face: 'left door/flat', coat: 1 },
			{ type: 'fault.seen', fault: 'run', face: 'left door/flat', coat: 2, remedy: 'REASON' },
			{ type: 'override.given', rule: 'window', reason: 'REASON', face: 'left door/flat', coat: 2 },
			{ type: 'part.setAside', part: 'left door', faces: ['left door/flat'], why: 'REASON' },
			{ type: 'face.judged', face: 'left door/flat', coat: 1, verdict: 'accepted', reason: 'REASON' },
			{ type: 'photo.kept', face: 'left door/flat', coat: 1, where: 'REASON' },
			{ type: 'batch.discarded', batch: 'A', why: 'REASON' },
			{ type: 'film.read', face: 'left door/flat', coat: 1, dry_um: 41, by: 'REASON' },
		]);
	})();
	const swap = (value: unknown): unknown => {
		if (Array.isArray(value)) return value.map(swap);
		if (typeof value === 'object' && value !== null)
			return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, swap(inner)]));
		if (typeof value !== 'string') return value;
		if (value === 'Coffee cart doors') return names.job;
		if (value === 'REASON') return names.reason;
		if (value === 'FAULT') return names.fault;
		if (value === 'UTC') return names.zone;
		return value.replaceAll('left door', () => names.part).replace(/\/flat$/, () => `/${names.face}`);
	};
	const renamed = swap(played) as DayRecord[];
	const first = renamed[0];
	if (first?.type === 'day.opened') {
		const topcoat = first.sheet.materials.topcoat;
		if (topcoat) topcoat.name = names.material;
	}
	return renamed;
}

export const faults = loadFaults();
