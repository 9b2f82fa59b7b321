import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { DayEvent, DayRecord } from '../../src/day/records.ts';
import { reachesMark } from '../../src/trace/marks.ts';
import { causeKey } from '../../src/trace/prior.ts';
import { timelineOf } from '../../src/trace/timeline.ts';
import { trace, weighing } from '../../src/trace/trace.ts';
import type { Weighed } from '../../src/trace/weigh.ts';
import { builtIn } from './built-in.ts';
import { type Case, makeCase } from './generator/case.ts';

/** What must hold of the weighing on any day, whatever its numbers. */

const cases = Array.from({ length: 8 }, (_, nth) => makeCase(3_000_001 + nth));
/** By its place alone: a whole day is no counterexample to be read. */
const some = fc.record({ nth: fc.nat({ max: cases.length - 1 }), pick: fc.nat() });
const caseAt = (nth: number): Case => {
	const one = cases[nth];
	if (!one) throw new RangeError(`no case ${nth}`);
	return one;
};
/** The same cases each time: that a law has something to say of some of them is counted, too. */
const runs = { numRuns: 16, seed: 5 };

const weighed = ({ days, ...ask }: Pick<Case, 'days' | 'fault' | 'face' | 'coat'>) =>
	weighing(days, timelineOf(days), ask, builtIn);
const key = ({ cause, passes, extent }: Weighed) =>
	`${causeKey(cause)} ${extent()} ${passes.map(({ start }) => start.seq).join(' ')}`;
/** W of each; of several sorts of extent over the same passes, their sum. */
function byKey({ weighed: all }: ReturnType<typeof weighed>) {
	const sums = new Map<string, { W: number; one: Weighed }>();
	for (const one of all) sums.set(key(one), { W: (sums.get(key(one))?.W ?? 0) + one.W, one });
	return sums;
}

const isNear = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.max(a, b);
/** An event as a record of its own, with nothing of the one before it. */
const bare = (event: DayEvent, like: DayRecord): DayRecord => ({
	seq: like.seq,
	run: like.run,
	at: like.at,
	mono: like.mono,
	...event,
});
function appended({ days }: Case, event: DayEvent): DayRecord[][] {
	const last = days.at(-1) ?? [];
	const end = last.at(-1);
	if (!end) throw new Error('an empty day');
	const at = new Date(Date.parse(end.at) + 3_600_000).toISOString();
	return [...days.slice(0, -1), [...last, { ...bare(event, end), seq: end.seq + 1, at }]];
}
/** One more record straight after another of the last day, in the same instant. */
function inserted({ days }: Case, event: DayEvent, after: DayRecord): DayRecord[][] {
	const last = days.at(-1) ?? [];
	const place = last.indexOf(after) + 1;
	return [...days.slice(0, -1), [...last.slice(0, place), bare(event, after), ...last.slice(place)]];
}

test('clearing a face leaves what does not reach it as it was, and lowers what does', () => {
	let lowered = 0;
	fc.assert(
		fc.property(some, ({ nth, pick }) => {
			const one = caseAt(nth);
			const before = weighed(one);
			const { faces } = before.sights.scene;
			const open = faces.flatMap(({ marks, cleared }, at) => (marks.length === 0 && !cleared ? [at] : []));
			const at = open[pick % open.length];
			const face = faces[at ?? -1];
			const top = face?.coats.at(-1);
			if (at === undefined || !face || !top) return;
			const judged = { face: face.id, coat: top.coat, verdict: 'cleared', reason: 'looked at' } as const;
			const after = byKey(weighed({ ...one, days: appended(one, { type: 'face.judged', ...judged }) }));
			for (const [name, { W, one: each }] of byKey(before)) {
				const then = after.get(name)?.W ?? Number.NaN;
				if ((each.reach[at] ?? 0) === 0) expect(isNear(then, W), name).toBe(true);
				else expect(then, name).toBeLessThanOrEqual(W * (1 + 1e-9));
				if (then < W * 0.99) lowered++;
			}
		}),
		runs,
	);
	expect(lowered).toBeGreaterThan(0);
});

/** Every string in a value, changed. */
function strings<Of>(value: Of, change: (text: string) => string): Of {
	return JSON.parse(JSON.stringify(value), (_, held) => (typeof held === 'string' ? change(held) : held));
}
const keys = (days: DayRecord[][], change: (text: string) => string): DayRecord[][] =>
	JSON.parse(JSON.stringify(days), (_, held) =>
		typeof held === 'object' && held !== null && !Array.isArray(held)
			? Object.fromEntries(Object.entries(held).map(([name, of]) => [change(name), of]))
			: held,
	);

describe('names, places on the sheet, zone and start change nothing', () => {
	const weights = (one: Case) => weighed(one).weighed.map(({ W }) => W);
	const same = (one: Case, other: Case) => {
		const [a, b] = [weights(one), weights(other)];
		expect(b.length).toBe(a.length);
		for (const [nth, W] of a.entries()) expect(isNear(W, b[nth] ?? Number.NaN), `${nth}`).toBe(true);
	};
	const opened = (one: Case, change: (record: DayRecord & { type: 'day.opened' }) => DayRecord): Case => ({
		...one,
		days: one.days.map(day => day.map(record => (record.type === 'day.opened' ? change(record) : record))),
	});

	test('faces and parts by other names', () => {
		for (const one of cases.slice(0, 4)) {
			const names = new Map<string, string>();
			for (const [first] of one.days)
				if (first?.type === 'day.opened')
					for (const { id, part } of first.sheet.faces) {
						names.set(id, `x${id}`);
						names.set(part, `x${part}`);
					}
			const other = (text: string) => names.get(text) ?? text;
			const days = keys(strings(one.days, other), other);
			same(one, { ...one, days, face: other(one.face) });
		}
	});

	test('cans by other marks, the sheet in another order, another zone', () => {
		for (const one of cases.slice(0, 4)) {
			const marks = new Set<string>();
			for (const [first] of one.days)
				if (first?.type === 'day.opened') for (const { mark } of first.cans) marks.add(mark);
			const other = (text: string) => (marks.has(text) ? `${text}!` : text);
			same(one, { ...one, days: strings(one.days, other) });
			same(
				one,
				opened(one, record => ({ ...record, zone: 'Asia/Tokyo' })),
			);
			same(
				one,
				opened(one, record => ({
					...record,
					sheet: { ...record.sheet, faces: record.sheet.faces.toReversed() },
				})),
			);
		}
	});

	test('everything three hours later', () => {
		const later = (text: string) =>
			/^\d{4}-\d\d-\d\dT[\d:.]+Z$/.test(text)
				? new Date(Date.parse(text) + 3 * 3_600_000).toISOString()
				: text;
		for (const one of cases.slice(0, 4)) same(one, { ...one, days: strings(one.days, later) });
	});
});

const hold: DayEvent = { type: 'break.began', kind: 'hold', by: 'painter' };

test('a break beyond the last pass changes nothing; any other changes no cause that it does not bear on', () => {
	let changed = 0;
	fc.assert(
		fc.property(some, ({ nth, pick }) => {
			const one = caseAt(nth);
			const before = weighed(one);
			const last = one.days.at(-1) ?? [];
			const ends = last.filter(({ type }) => type === 'face.ended');
			const end = ends.at(-1);
			const within = ends[pick % Math.max(1, ends.length - 1)];
			if (!end || !within) return;
			const beyond = byKey(weighed({ ...one, days: inserted(one, hold, end) }));
			for (const [name, { W }] of byKey(before))
				expect(isNear(beyond.get(name)?.W ?? Number.NaN, W), name).toBe(true);
			const broken = byKey(weighed({ ...one, days: inserted(one, hold, within) }));
			const apart = ['surface', 'handling', 'coat-too-early', 'window-missed', 'air-out-of-limits'];
			for (const [name, { W, one: each }] of byKey(before)) {
				const then = broken.get(name)?.W ?? Number.NaN;
				if (apart.includes(each.cause.code) || each.extent().startsWith('batch'))
					expect(isNear(then, W), name).toBe(true);
				else if (!isNear(then, W)) changed++;
			}
		}),
		runs,
	);
	expect(changed).toBeGreaterThan(0);
});

test('a right reading never raises its cause and never removes it; a card lowers it more than an eye', () => {
	const fan = (days: DayRecord[][], one: Case) =>
		weighed({ ...one, days })
			.weighed.filter(({ cause }) => cause.code === 'fan-along-stroke')
			.reduce((sum, { W }) => sum + W, 0);
	let lowered = 0;
	fc.assert(
		fc.property(some, ({ nth, pick }) => {
			const one = caseAt(nth);
			const ends = (one.days.at(-1) ?? []).filter(({ type }) => type === 'face.ended');
			const at = ends[pick % ends.length];
			if (!at) return;
			const read = (feature: 'pattern' | 'card'): DayEvent => ({
				type: 'reading.taken',
				...{ feature, value: 'tall', wanted: 'tall', matched: true, attempt: 2, check: null },
				...{ face: one.face, coat: one.coat, batch: null },
			});
			const before = fan(one.days, one);
			const eye = fan(inserted(one, read('pattern'), at), one);
			const card = fan(inserted(one, read('card'), at), one);
			expect(eye).toBeLessThanOrEqual(before * (1 + 1e-9));
			expect(card).toBeLessThanOrEqual(eye * (1 + 1e-9));
			expect(card).toBeGreaterThan(0);
			if (card < eye && eye < before) lowered++;
		}),
		runs,
	);
	expect(lowered).toBeGreaterThan(0);
});

test('one more marked face inside an extent never lowers it against what does not reach that face', () => {
	let raised = 0;
	fc.assert(
		fc.property(some, ({ nth, pick }) => {
			const one = caseAt(nth);
			const before = weighed(one);
			const lead = before.weighed[0];
			const { faces } = before.sights.scene;
			const inside = faces.flatMap(({ marks }, at) =>
				marks.length === 0 && (lead?.reach[at] ?? 0) !== 0 ? [at] : [],
			);
			const at = inside[pick % inside.length];
			const face = faces[at ?? -1];
			const coat = face?.coats.find(each => reachesMark(lead?.reach[at ?? -1] ?? 0, each))?.coat;
			if (!lead || at === undefined || !face || coat === undefined) return;
			const mark = { type: 'fault.seen', fault: one.fault, face: face.id, coat } as const;
			const after = byKey(weighed({ ...one, days: appended(one, mark) }));
			const then = after.get(key(lead))?.W ?? Number.NaN;
			const all = byKey(before);
			const was = all.get(key(lead))?.W ?? 0;
			for (const [name, { W, one: each }] of all) {
				const other = after.get(name)?.W;
				if ((each.reach[at] ?? 0) !== 0 || other === undefined || W === 0) continue;
				expect(then / other, name).toBeGreaterThanOrEqual((was / W) * (1 - 1e-9));
				raised++;
			}
		}),
		runs,
	);
	expect(raised).toBeGreaterThan(0);
});

test('twice the same mark is one', () => {
	for (const one of cases) {
		const again = { type: 'fault.seen', fault: one.fault, face: one.face, coat: one.coat } as const;
		const after = byKey(weighed({ ...one, days: appended(one, again) }));
		for (const [name, { W }] of byKey(weighed(one)))
			expect(isNear(after.get(name)?.W ?? Number.NaN, W), name).toBe(true);
	}
});

test('weights sum to 1, and the same records give the same bytes', () => {
	for (const one of cases) {
		const sum = weighed(one).weighed.reduce((all, { weight }) => all + weight, 0);
		expect(Math.abs(sum - 1)).toBeLessThan(1e-9);
		expect(JSON.stringify(trace(one, builtIn))).toBe(JSON.stringify(trace(one, builtIn)));
	}
});
