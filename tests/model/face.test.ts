import { expect, test } from 'vitest';
import { faceWalk } from './alone.ts';
import { facesAlone } from './proofs.ts';
import { canReach } from './search.ts';

/**
 * A face alone: every window, wet edge, stage, touch, reason and step of its own line, all at once. What a day knows
 * of gun, cup and air cannot change what a face says: its chart reads none of it.
 */

test.each(facesAlone)(
	'no start breaks a rule of the face, the chart counts as the records tell, and each coat left can be laid: %j, passing over %j',
	(face, passedOver) => {
		const { graph, broken, states, laying } = faceWalk(face, passedOver);
		expect(graph.whole).toBe(true);
		expect([...new Set(broken)]).toEqual([]);
		const finishes = canReach(graph, laying);
		expect(states.filter((_, index) => finishes[index] === 0)).toEqual([]);
		for (const { face: state, told } of states) {
			expect(state.context.laid).toBe(told.laid);
			expect(state.matches('aside')).toBe(told.aside && !told.sound);
			expect(state.matches('beside')).toBe(told.sound);
			expect(state.matches('spraying')).toBe(told.coat === 'under way');
			expect(state.matches('broken')).toBe(told.coat === 'broken off');
		}
	},
	300_000,
);
