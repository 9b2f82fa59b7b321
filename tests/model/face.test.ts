import { expect, test } from 'vitest';
import type { FaceInput } from '../../machines/face.ts';
import { faceWalk } from './alone.ts';
import { lid } from './plans.ts';
import { canReach } from './search.ts';

/**
 * A face alone: every window, wet edge, stage, touch, reason and step of its own line, all at once. What a day knows
 * of gun, cup and air cannot change what a face says: its chart reads none of it.
 */

const coat = lid.coats[0];
if (!coat) throw new Error('a lid is coated');

const faces: FaceInput[] = [
	{ id: 'lid', part: 'lid', coats: [coat, { ...coat, touch: true }] },
	{ id: 'lid', part: 'lid', coats: [coat, { ...coat, prep: ['sand'] }] },
	{
		id: 'lid',
		part: 'lid',
		coats: [
			{ ...coat, prep: ['tack'] },
			{ ...coat, prep: ['scuff', 'tack'], touch: true },
		],
	},
	{ id: 'lid', part: 'lid', coats: [coat, coat, coat], before: { laid: 1, done: ['sand'], aside: false } },
	{ id: 'lid', part: 'lid', coats: [coat, coat], before: { laid: 1, done: [], aside: true } },
];
const rules = [['window'], ['prep', 'touch'], ['coats', 'window'], ['air']];

test.each(faces.map((face, index) => [face, rules[index % rules.length] ?? []] as const))(
	'no start breaks a rule of the face, the chart counts as the records tell, and each coat left can be laid: %j, passing over %j',
	(face, passedOver) => {
		const { graph, broken, states, laying } = faceWalk(face, passedOver);
		expect(graph.whole).toBe(true);
		expect([...new Set(broken)]).toEqual([]);
		const finishes = canReach(graph, laying);
		expect(states.filter((_, index) => finishes[index] === 0)).toEqual([]);
		for (const { face: state, told } of states) {
			expect(state.context.laid).toBe(told.laid);
			expect(state.matches('aside')).toBe(told.aside);
			expect(state.matches('spraying')).toBe(told.coat === 'under way');
			expect(state.matches('broken')).toBe(told.coat === 'broken off');
		}
	},
);
