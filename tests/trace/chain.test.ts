import { expect, test } from 'vitest';
import { type DayRecord, eventSchema } from '../../src/day/records.ts';
import { beginsJob, jobAsked } from '../../src/trace/chain.ts';
import { opened, stamped } from '../day/file/sample.ts';

const [one, other] = ['1', '2'].map(digit => digit.repeat(64));
const asked = { fault: 'run', face: 'canopy rail/top', coat: 1 };

/** A day on which the coat in question was begun, and nothing laid before. */
const dayOf = (fields: object): DayRecord[] => [
	stamped(eventSchema.parse({ ...opened, v: 2, ...fields }), 1),
	stamped(
		{
			...{ type: 'face.started', face: asked.face, coat: asked.coat, cup: ['A'], check: 1, air: 4 },
			...{ overrides: [], window: 'spray', from: 'start', spray_s: 40, facts: {} },
		},
		2,
	),
];

test('a day that says of which job it is begins none, though no coat and no letter stand before it', () => {
	expect(beginsJob(dayOf({}))).toBe(true);
	expect(beginsJob(dayOf({ of: one }))).toBe(false);
	expect(beginsJob(dayOf({ before: { faces: {}, letters: 1 } }))).toBe(false);
	const days = [dayOf({}), dayOf({ of: one }), dayOf({ of: one })];
	expect(jobAsked(days, asked)).toEqual(days);
});

test('days that say they are of two jobs are two jobs, whatever was laid before them', () => {
	const before = { faces: {}, letters: 1 };
	const days = [
		dayOf({}),
		dayOf({ of: one, before }),
		dayOf({ of: other, before }),
		dayOf({ of: other, before }),
	];
	expect(jobAsked(days, asked)).toEqual(days.slice(2));
});
