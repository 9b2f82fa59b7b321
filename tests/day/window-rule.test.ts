import { expect, test } from 'vitest';
import { eventSchema } from '../../src/day/records.ts';
import type { Job, Material, RecoatRow } from '../../src/job/job.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** By which rule the recoat windows of a coat were worked out: its record names it. */

function jobWith(more: Partial<Material>): Job {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	return { ...job, materials: { topcoat: { ...topcoat, ...more } } };
}
const rows = (windows: RecoatRow['windows']) => ({
	recoat: [{ under: 'topcoat', rows: [{ from_C: 15, to_C: 30, windows }] }],
});
const points = (...given: [at_C: number, hours: number][]) => ({
	recoat: [],
	clocks: { flash: { from: given.map(([at_C, hours]) => ({ at_C, hours })), to: null } },
});

/** The window of the first coat on a surface of some temperature. */
function setAt(surface_C: number, job: Job = smallJob()) {
	const day = rehearsed({ job });
	Object.assign(day.painter.world.air, { C: surface_C, surface_C });
	day.until(() => day.ofType('window.set').length > 0);
	return day.ofType('window.set')[0];
}

const opens: RecoatRow['windows'] = [
	{ does: 'wait', from_h: 0, until_h: 0.75 },
	{ does: 'spray', from_h: 0.75, until_h: null },
];

// Its flash is 45 min at 21 °C, its table is for 15 to 30 °C and opens at 45 min.
test.each([
	['the sheet gives every time', 21, undefined, 'points'],
	['a flash of one time is read warmer than it, and no shorter', 22, undefined, 'nearest point'],
	['a flash carried on to the cold is longer than that wait', 20, undefined, 'rule of thumb'],
	['an end is carried on above the table', 33, undefined, 'rule of thumb'],
	['a beginning is carried on below the table', 13, undefined, 'rule of thumb'],
	['a table without an end keeps its wait above it', 33, rows(opens), 'nearest point'],
	['between two points of its flash', 24, points([20, 0.75], [30, 0.5]), 'points'],
	['its flash is read colder than its points', 13, points([20, 0.75], [30, 0.5]), 'rule of thumb'],
	['its flash is read warmer than its points', 33, points([20, 0.75], [30, 0.5]), 'nearest point'],
	['the sheet gives nothing for so cold a surface', 18, points([40, 0.5]), undefined],
] as const)('%s: at %d °C', (_what, surface_C, more, rule) => {
	expect(setAt(surface_C, more && jobWith(more))?.rule).toBe(rule);
});

test('a record of an older day does not say, and is read', () => {
	const { face, coat, surfaceC, windows } = setAt(21) ?? {};
	const old = { type: 'window.set', face, coat, surfaceC, windows };
	expect(eventSchema.safeParse(old).success).toBe(true);
	expect(eventSchema.safeParse({ ...old, rule: 'by guess' }).success).toBe(false);
	expect(eventSchema.safeParse({ ...old, bounds_C: [16, 26] }).success).toBe(true);
	for (const bounds_C of [[16], [16, 'warm'], 21])
		expect(eventSchema.safeParse({ ...old, bounds_C }).success).toBe(false);
});

test('a table of several rows: the coldest and the warmest that the surface can have had stand beside its windows', () => {
	const { rows: [row] = [] } = rows(opens).recoat[0] ?? {};
	if (!row) throw new Error('there is a row');
	const two = {
		recoat: [
			{
				under: 'topcoat',
				rows: [
					{ ...row, to_C: 20 },
					{ ...row, from_C: 20 },
				],
			},
		],
	};
	const set = setAt(21, jobWith(two));
	expect(set?.surfaceC).toBe(21);
	// Nobody has read it since: up to 5 K either way.
	expect(set?.bounds_C).toEqual([16, 26]);
	expect(setAt(21)?.bounds_C).toBeUndefined();
});
