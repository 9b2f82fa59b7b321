import { expect, test } from 'vitest';
import type { DayRecord } from '../../src/day/records.ts';
import { reachOf, Sights } from '../../src/trace/marks.ts';
import { type Cause, causesIn } from '../../src/trace/prior.ts';
import { trace } from '../../src/trace/trace.ts';
import { type Explanation, twoAtOnce, weigh, wordFor } from '../../src/trace/weigh.ts';
import { builtIn } from './built-in.ts';
import { makeCase } from './generator/case.ts';

function causeOf(code: string): Cause {
	const found = causesIn(builtIn).find(one => one.code === code);
	if (!found) throw new Error(`no cause ${code}`);
	return found;
}

test('told wants a record: marks and keys alone never tell', () => {
	expect(wordFor(0.99, false)).toBe('likely');
	expect([0.81, 0.79, 0.5, 0.3].map(weight => wordFor(weight, true))).toEqual([
		...['told', 'likely', 'perhaps', 'cannot tell'],
	]);
});

test('two things are said where each reaches marks that the other does not, and one alone explains too few', () => {
	const face = (id: string, kind: string | null) => ({
		...{ id, isFlat: false, coats: [{ coat: 1, ended: 0 }], cleared: null },
		marks: kind === null ? [] : [{ kind, coat: 1, at: 1e12, isAsked: id === '0' }],
	});
	const kinds = ['stays-soft', 'stays-soft', 'torn-edge', 'torn-edge', 'torn-edge'];
	const faces = kinds.map((kind, nth) => face(`${nth}`, kind));
	const sights = new Sights({ faces, asked: 1e12, faults: builtIn.faults });
	const explained = (code: string, odds: number, ...at: number[]): Explanation => ({
		cause: causeOf(code),
		...{ share: 0.5, odds, passes: [], extent: () => code, start: () => ({ from: 0, to: 0 }) },
		reach: reachOf(
			faces.length,
			at.map(one => ({ at: one, coat: 1 })),
		),
		softs: () => [],
	});
	const both = [explained('no-hardener', 1, 0, 1), explained('handling', 20, 2, 3, 4)];
	const two = twoAtOnce(weigh(both, sights), sights);
	expect(two?.map(({ cause }) => cause.code).sort()).toEqual(['handling', 'no-hardener']);
	const whole = [explained('film-too-heavy', 20, 0, 1, 2, 3, 4), ...both.slice(0, 1)];
	expect(twoAtOnce(weigh(whole, sights), sights)).toBeNull();
});

const cases = Array.from({ length: 6 }, (_, nth) => makeCase(3_100_001 + nth));

test('a face stands once among those exposed, and no covered coat is sent to be looked at', () => {
	for (const one of cases) {
		const found = trace(one, builtIn);
		const top = new Map<string, number>();
		for (const record of one.days.flat())
			if (record.type === 'face.started')
				top.set(record.face, Math.max(record.coat, top.get(record.face) ?? 0));
		expect(new Set(found.faces.map(({ face }) => face)).size).toBe(found.faces.length);
		for (const { face, coat } of [...found.faces, ...found.inspect]) expect(coat).toBe(top.get(face));
		for (const { face, coat } of found.walk) expect(coat).toBe(face === null ? null : top.get(face));
		const looked = new Set([one.face, ...found.inspect.map(({ face }) => face)]);
		for (const { face } of found.faces) expect(looked.has(face), face).toBe(true);
	}
});

test('the first sentence says what all bad faces have and no sound one has', () => {
	const [one] = cases;
	if (!one) throw new Error('no case');
	const last = one.days.at(-1) ?? [];
	const end = last.at(-1);
	const other = trace(one, builtIn).inspect.find(({ face }) => face.split('/')[0] !== one.face.split('/')[0]);
	if (!end || !other) throw new Error('no other part');
	expect(trace(one, builtIn).isIsNot).toMatch(/^Nothing was found sound: look at /);
	const judged: DayRecord = {
		...{ seq: end.seq + 1, run: end.run, at: end.at, mono: end.mono },
		...{ type: 'face.judged', ...other, verdict: 'cleared', reason: 'looked at' },
	};
	const days = [...one.days.slice(0, -1), [...last, judged]];
	expect(trace({ ...one, days }, builtIn).isIsNot).toMatch(
		/^(The one bad|Both bad|All \d+ bad|\d of \d bad): .+(\. Sound: .+ \(1\)|; sound with it: \d)\.$/,
	);
});
