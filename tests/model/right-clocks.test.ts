import { expect, test } from 'vitest';
import { rightOn } from './right-clocks/days.ts';
import { rightOnWith, timeMutants } from './right-clocks/mutants.ts';

/** `RIGHT_DAYS=1000` plays as many as `npm run prove`. */
const { RIGHT_DAYS = '40' } = process.env;

test('on a machine that sleeps, is stopped, is started anew or set, no minimum ends early and no maximum late', () => {
	const { says, ...sum } = rightOn(0, Number(RIGHT_DAYS));
	expect(says).toEqual([]);
	expect(sum.minimums).toBeGreaterThan(200);
	expect(sum.maximums).toBeGreaterThan(400);
	expect(sum.screens).toBeGreaterThan(20);
	expect(sum.jumps).toBeGreaterThan(100);
}, 3_600_000);

/** Those of whole days are for `npm run prove`: they take too many. */
const soonCaught = timeMutants.filter(({ file }) => file !== 'allowed.ts');

test.each(soonCaught)(
	'caught: $what',
	async mutant => {
		const play = await rightOnWith(mutant);
		expect(play(0, 30, 1).says).toHaveLength(1);
	},
	3_600_000,
);

test('a change whose text is gone from its file is told, and passes for nothing', async () => {
	const gone = { file: 'passed.ts', what: 'nothing', from: 'no such words', to: '' };
	await expect(rightOnWith(gone)).rejects.toThrow('has not just one');
});
