import { expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** A coat that takes more than the cup holds: how often it is filled, to what, and what is mixed for it. */

/** Ten rails alike, 90 mL each a coat, whose use is unsure as a sheet's is; the cup holds six of them. */
function rails(): Job {
	const job = smallJob();
	const [face] = job.faces;
	if (!face) throw new Error('the small job has faces');
	return {
		...job,
		risk: 0.02,
		gun: {
			...job.gun,
			transfer_tolerance: 0.1,
			losses: { strainer_mL: 10, pot_mL: 10, gun_mL: 20, burst_s: 1 },
		},
		faces: Array.from({ length: 10 }, (_, nth) => ({
			...face,
			id: `rail ${nth + 1}/front`,
			part: `rail ${nth + 1}`,
			name: 'front',
		})),
	};
}

const dayOf = (job: Job) => rehearsed({ job, settings: { by: 'face' } });
type Day = ReturnType<typeof dayOf>;

/** Passes after each filling of the cup, so far. */
function passesAfterFills(day: Day): number[] {
	const rows: number[] = [];
	for (const { type } of day.records()) {
		if (type === 'batch.loaded') rows.push(0);
		if (type === 'face.started') rows.push((rows.pop() ?? 0) + 1);
	}
	return rows;
}

const toRefill = (day: Day) => {
	day.toState('ready');
	day.toState('load');
};

test('a cup is sprayed from until it holds the next face no more, then filled for what the coat still wants', () => {
	const day = dayOf(rails());
	day.toState('wait');
	const passes = passesAfterFills(day);
	expect(passes.length).toBeLessThanOrEqual(4);
	expect(Math.min(...passes.slice(0, -1))).toBeGreaterThanOrEqual(3);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('what the cup is seen to hold is not mixed once more for the next coat', () => {
	const day = dayOf(rails());
	day.toEnd();
	const [first, second] = day.ofType('batch.started');
	expect(second?.make_mL).toBeLessThan((first?.make_mL ?? 0) - 300);
});

test('a drop in the pot is no reason to stop at the gun: it is neither poured nor counted on', () => {
	const job = smallJob();
	const day = rehearsed({ job: { ...job, gun: { ...job.gun, cup_mL: 300 } } });
	day.toState('mix.begin');
	day.pick('amount');
	day.send('number 310');
	day.toEnd();
	expect(Math.min(...day.ofType('batch.loaded').map(({ volume_mL }) => volume_mL))).toBeGreaterThanOrEqual(
		50,
	);
	expect(day.ofType('batch.started').length).toBe(2);
	expect(day.findings()).toEqual([]);
});

test('a pot that runs out before the level is reached: how full the cup is, is read, and counts', () => {
	const day = dayOf(rails());
	toRefill(day);
	const before_mL = day.state().book.cup_mL;
	const to = Number(day.line().do[0]?.to);
	expect(to).toBeGreaterThan(before_mL + 50);
	day.pick('pot-empty');
	expect(day.line()).toMatchObject({ state: 'load.reached', of: 'reached', unit: 'mL', max: to });
	day.send('number 250');
	expect(day.state().book.cup_mL).toBe(250);
	expect(day.state().book.batches.get('A')?.pot_mL).toBe(0);
	expect(day.toState('ready').lines.join()).toMatch(/Cup 24\d mL/);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('no face is begun from a cup that was seen to hold too little for it, whatever the count says', () => {
	const day = dayOf(rails());
	toRefill(day);
	const passes = day.ofType('face.started').length;
	day.pick('pot-empty');
	day.send('number 60');
	day.until(({ state }) => state === 'mix.begin' || state === 'ready');
	expect(day.line().state).toBe('mix.begin');
	expect(day.ofType('face.started').length).toBe(passes);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});
