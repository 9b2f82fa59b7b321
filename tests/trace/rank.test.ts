import { expect, test } from 'vitest';
import { rank } from '../../src/trace/rank.ts';
import type { Clue, Suspicion } from '../../src/trace/suspicion.ts';
import { type Pass, timelineOf } from '../../src/trace/timeline.ts';
import { makeCase } from './generator/case.ts';

const passes = timelineOf(makeCase(3).days).passes;
const [first, second] = passes as [Pass, Pass];

const clue = (over: Partial<Clue>): Clue => ({
	kind: 'open',
	at: 0,
	size: 0,
	reason: 'x',
	explains: () => true,
	...over,
});
const suspicion = (code: string, ...clues: Clue[]): Suspicion => ({
	code,
	thing: code,
	from: 0,
	to: 1,
	exposed: passes,
	clues,
	unread: null,
	stays: true,
});
const order = ['film-too-heavy', 'fan-along-stroke', 'pressure-off'];
const codes = (suspicions: Suspicion[], known: { bad?: Pass[][]; good?: Pass[] } = {}) =>
	rank(suspicions, { bad: known.bad ?? [[first]], good: known.good ?? [], order }, 'UTC').map(
		one => one.candidate.code,
	);

test('what touches the thing goes before a break, a wait, nothing, and last what was read right straight after', () => {
	expect(
		codes([
			suspicion('z', clue({ kind: 'cleared' })),
			suspicion('a', clue({ kind: 'open' })),
			suspicion('b', clue({ kind: 'wait' })),
			suspicion('c', clue({ kind: 'break' })),
			suspicion('d', clue({ kind: 'changed' })),
		]),
	).toEqual(['d', 'c', 'b', 'a', 'z']);
});

test('far beyond a limit goes before a change, a change before a little beyond it', () => {
	expect(
		codes([
			suspicion('a', clue({ kind: 'measured', size: 0.2 })),
			suspicion('b', clue({ kind: 'changed' })),
			suspicion('c', clue({ kind: 'measured', size: 1 })),
		]),
	).toEqual(['c', 'b', 'a']);
});

test('of two departures the larger goes first, however the sources order them', () => {
	expect(
		codes([
			suspicion('film-too-heavy', clue({ kind: 'measured', size: 0.6 })),
			suspicion('pressure-off', clue({ kind: 'measured', size: 1.4 })),
		]),
	).toEqual(['pressure-off', 'film-too-heavy']);
});

test('what explains every bad face goes before what explains some', () => {
	const some = clue({ kind: 'changed', explains: pass => pass === first });
	expect(
		codes([suspicion('film-too-heavy', some), suspicion('pressure-off', clue({ kind: 'changed' }))], {
			bad: [[first], [second]],
		}),
	).toEqual(['pressure-off', 'film-too-heavy']);
});

test('with all else equal the sources decide, then the good faces, then the nearest in time', () => {
	expect(codes([suspicion('fan-along-stroke', clue({})), suspicion('film-too-heavy', clue({}))])[0]).toBe(
		'film-too-heavy',
	);
	const sparing = clue({ explains: pass => pass !== second });
	expect(codes([suspicion('y', clue({})), suspicion('z', sparing)], { good: [second] })[0]).toBe('z');
	expect(codes([suspicion('y', clue({ at: 1 })), suspicion('z', clue({ at: 2 }))])[0]).toBe('z');
});

test('each cause stands once, with the changes that speak for it in its reasons and no percentages', () => {
	const made = rank(
		[
			suspicion(
				'a',
				clue({ kind: 'changed', reason: 'the cap was turned' }),
				clue({ kind: 'break', reason: 'a break' }),
			),
		],
		{ bad: [[first]], good: [], order },
		'UTC',
	);
	expect(made).toHaveLength(1);
	expect(made[0]?.candidate.reasons).toEqual([
		'changed, with no reading after',
		'00:00: the cap was turned',
		'also 00:00: a break',
	]);
	expect(made[0]?.candidate.reasons.join()).not.toContain('%');
});

test('a film worked out from the pulls of a trigger line is not called measured', () => {
	const pulled = clue({
		kind: 'measured',
		size: 1,
		pulled: true,
		reason: 'the trigger was pulled 10 s for 3 s',
	});
	const [made] = rank([suspicion('film-too-heavy', pulled)], { bad: [[first]], good: [], order }, 'UTC');
	expect(made?.candidate.reasons[0]).toBe("by the sheet's flow, from its pulls, not measured");
});
