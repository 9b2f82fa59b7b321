import { expect, test } from 'vitest';
import type { Prep } from '../../src/job/job.ts';
import { openings, windowsAfter } from '../../src/plan/windows.ts';
import { sketch, topcoat } from './jobs.ts';

/** A material that is sprayed on for a while, then scuffed, then sanded. */
const rows = [
	{
		from_C: 10,
		to_C: 40,
		windows: [
			{ does: 'wait' as const, from_h: 0, until_h: 1 },
			{ does: 'spray' as const, from_h: 1, until_h: 6 },
			{ does: 'scuff' as const, from_h: 6, until_h: 24 },
			{ does: 'sand' as const, from_h: 24, until_h: null },
		],
	},
];

test.each<[Prep[], number | null]>([
	[[], 6],
	[['wipe', 'tack'], 6],
	[['scuff'], 24],
	[['sand'], null],
	[['scuff', 'sand'], null],
])(
	'with %j before it a coat may be laid until hour %j: what is sanded need not be scuffed',
	(steps, until_h) => {
		const job = sketch({
			faces: [{ part: 'lid', name: 'top', horns: ['level', 'level'] }],
			material: topcoat({ recoat: [{ under: 'topcoat', rows }] }),
		});
		const [face] = job.faces;
		const [first, second] = face?.coats ?? [];
		if (!face || !first || !second) throw new Error('a face of two coats');
		const prep = steps.map(step => ({ step, grit: null }));
		const prepared = { ...face, coats: [first, { ...second, prep }] };
		expect(openings(job, prepared, 1, 21)).toEqual([{ from_h: 1, until_h }]);
	},
);

/** A third for 10 °C warmer and twice for 10 °C colder, as any other clock; nothing sooner and nothing later than the row says. */
test.each([
	['inside its row', 40, {}, [0, 1, 6, 24]],
	['warmer: what closes comes in a third of its time', 50, {}, [0, 1, 2, 8]],
	['colder: what opens takes twice as long', 0, {}, [0, 2, 6, 24]],
	['warmer, by the factor that the sheet writes', 50, { clocks: { factorPer10C: 2 } }, [0, 1, 3, 12]],
	['warmer, by the factor of a day begun before', 50, { factorPer10C: 1.5 }, [0, 1, 4, 16]],
] as const)('a recoat table of one row, %s', (_, surface_C, own, edges_h) => {
	const job = sketch({
		faces: [{ part: 'lid', name: 'top', horns: ['level', 'level'] }],
		material: topcoat({ recoat: [{ under: 'topcoat', rows }], ...own }),
	});
	const [face] = job.faces;
	const [first, second] = face?.coats ?? [];
	if (!face || !first || !second) throw new Error('a face of two coats');
	const apart = { ...face, coats: [first, { ...second, stage: first.stage + 1 }] };
	const windows = windowsAfter(job, apart, 1, surface_C);
	expect(windows.map(({ from_h }) => Number(from_h.toFixed(9)))).toEqual(edges_h);
});
