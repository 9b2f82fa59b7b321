import { expect, test } from 'vitest';
import { initialTransition } from 'xstate';
import { windowMachine } from '../../machines/window.ts';
import type { DayEvent, EventOf } from '../../src/day/records.ts';
import { moved, passedOver, standings } from './alphabet.ts';
import { faceAlone, facePairKey, movesOfFace } from './day-key.ts';
import { asTheyAre, put } from './machines.ts';
import { type Plan, twoByTwo } from './plans.ts';
import { facesAlone } from './proofs.ts';

/** The recoat window of a face: a chart that is told when a window moved, and reads no clock. */

const after = (bare: boolean, ...events: DayEvent[]) =>
	events.reduce(
		(state, event) => put(asTheyAre.window, state, event).next ?? state,
		initialTransition(windowMachine, { bare })[0],
	);
const reason = (window: EventOf<'override.given'>['window']): DayEvent =>
	passedOver('window', 'lid', window ? { window } : {});

test('any window leads to any other', () => {
	for (const from of standings)
		for (const to of standings) expect(after(true, moved('lid', from), moved('lid', to)).value).toBe(to);
});

test('a reason is for the window that stands, and ends with the wait it was given in, though another follows at once', () => {
	const waits = after(false, reason('wait'));
	expect(waits.context.reasons).toEqual(['wait']);
	expect(after(false, reason('sand')).context.reasons).toEqual([]);
	expect(after(false, reason(undefined)).context.reasons).toEqual([]);
	expect(after(false, reason('wait'), moved('lid', 'wait')).context.reasons).toEqual([]);
	expect(after(false, reason('wait'), moved('lid', 'spray')).context.reasons).toEqual([]);
	const scuff = [moved('lid', 'scuff'), reason('scuff'), moved('lid', 'wait')];
	expect(after(false, ...scuff).context.reasons).toEqual(['scuff']);
});

test('a pass shuts the window, and a whole coat ends every reason', () => {
	const ended = (extent: 'all' | 'part' | 'none'): DayEvent => ({
		type: 'face.ended',
		face: 'lid',
		coat: 1,
		extent,
		lastStroke: null,
		estimated: false,
	});
	const scuffed = [moved('lid', 'scuff'), reason('scuff')];
	expect(after(false, ...scuffed, ended('all'))).toMatchObject({ value: 'wait', context: { reasons: [] } });
	expect(after(false, ...scuffed, ended('part'))).toMatchObject({
		value: 'wait',
		context: { reasons: ['scuff'] },
	});
	expect(after(false, ...scuffed, ended('none')).value).toBe('scuff');
	expect(after(false, reason('wait'), ended('part')).context.reasons).toEqual([]);
});

test.each(facesAlone.filter(([, rules]) => ['window', 'air,touch'].includes(rules.join())))(
	'a move commutes with everything but the start and the reason that read it: %j',
	(face, rules) => {
		const plan: Plan = {
			...twoByTwo,
			input: { ...twoByTwo.input, faces: [face] },
			vary: new Set(['rework', 'touch', 'prep']),
			rules,
		};
		const alone = faceAlone(asTheyAre, plan, face.id, true);
		const moves = movesOfFace(plan, face.id, true).map(move => move[0] as DayEvent);
		const reads = (event: DayEvent) =>
			event.type === 'face.started' || (event.type === 'override.given' && event.rule === 'window');
		const isMove = ({ type }: DayEvent) => type === 'window.moved';
		const seen = new Map([[alone.keyOf(alone.start), alone.start]]);
		const states = [alone.start];
		let pairs = 0;
		for (let at = 0; at < Math.min(states.length, 1500); at++) {
			const state = states[at] as typeof alone.start;
			for (const [number, event] of moves.entries()) {
				const next = alone.next(state, number);
				if (next && !seen.has(alone.keyOf(next))) {
					seen.set(alone.keyOf(next), next);
					states.push(next);
				}
				if (reads(event) || isMove(event)) continue;
				for (const [moving, move] of moves.entries()) {
					if (!isMove(move)) continue;
					const first = alone.next(state, moving);
					const one = first && alone.next(first, number);
					const other = next && alone.next(next, moving);
					pairs++;
					expect(one === null, event.type).toBe(next === null);
					/** But for the window itself, which a pass shuts. */
					if (one && other) expect(facePairKey(one, false)).toBe(facePairKey(other, false));
				}
			}
		}
		expect(pairs).toBeGreaterThan(1000);
	},
	60_000,
);
