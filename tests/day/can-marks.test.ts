import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type CanMarks, canMarks, cansOf, isCanMark, marksOfCans } from '../../src/day/asks/cans.ts';
import type { Job } from '../../src/job/job.ts';
import { smallJob } from './small-job.ts';

/** Jobs of one shop, one after the other: what is in a can keeps its mark. */

const { topcoat } = smallJob().materials;

const jobOf = (names: readonly string[]): Pick<Job, 'materials'> => {
	if (!topcoat) throw new Error('the small job has a topcoat');
	return { materials: Object.fromEntries(names.map((name, at) => [`m${at}`, { ...topcoat, name }])) };
};

test('over any jobs each can has one mark for good, and no two cans have the same', () => {
	const jobs = fc.array(fc.uniqueArray(fc.constantFrom(...'ABCDEFGH'), { minLength: 1, maxLength: 4 }), {
		minLength: 1,
		maxLength: 8,
	});
	fc.assert(
		fc.property(jobs, shop => {
			let kept: CanMarks = {};
			for (const names of shop) {
				const job = jobOf(names);
				const cans = marksOfCans(job, cansOf(job, kept));
				for (const [can, mark] of Object.entries(cans)) expect(kept[can] ?? mark).toBe(mark);
				kept = { ...kept, ...cans };
			}
			const marks = Object.values(kept);
			expect(new Set(marks).size).toBe(marks.length);
			expect(marks.filter(mark => !isCanMark(mark))).toEqual([]);
		}),
	);
});

test('a first job has its marks in their order, as before', () => {
	expect(cansOf(jobOf(['A', 'B'])).map(({ mark }) => mark)).toEqual(canMarks.slice(0, 6));
});
