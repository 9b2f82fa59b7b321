import { expect, test } from 'vitest';
import type { FaceHistory } from '../../src/day/records.ts';
import type { Job } from '../../src/job/job.ts';
import { planStages } from '../../src/plan/stages.ts';
import { sketch } from './jobs.ts';

const start = Date.parse('2027-03-02T08:00:00Z');

/** Two spray stages of one coat each, 45 minutes apart, on a day of so many minutes. */
function twoStages(hours: number | null): Job {
	const job = sketch({
		faces: ['lid', 'door'].map(part => ({ part, name: 'outside', horns: ['level', 'level'] })),
		hours,
	});
	const stage = (name: string) => ({
		...{ kind: 'coats' as const, name, material: 'topcoat', coats: ['full' as const] },
	});
	return {
		...job,
		stages: [stage('first'), stage('second')],
		faces: job.faces.map(face => ({
			...face,
			coats: face.coats.map((coat, at) => ({ ...coat, stage: at, ofStage: [1, 1] as [number, number] })),
		})),
	};
}

/** Bare faces that may be sprayed from a moment on. */
const readyAt = (job: Job, at_s: number): Record<string, FaceHistory> =>
	Object.fromEntries(
		job.faces.map(({ id }) => [
			id,
			{ coats: [], prep: [{ step: 'wipe', at: new Date(start + at_s * 1000).toISOString() }], aside: null },
		]),
	);

const endsFrom = (job: Job, at_s: number) =>
	planStages({ job, start, history: readyAt(job, at_s) }).map(({ verdict }) => verdict?.plan.end_s ?? 0);

test('the last moment to start leaves time for the later stage of the same day too', () => {
	const job = twoStages(300);
	const [first] = planStages({ job, start });
	const latest_s = first?.verdict?.plan.latestStart_s ?? 0;
	expect(latest_s).toBeGreaterThan(0);
	expect(Math.max(...endsFrom(job, latest_s - 60))).toBeLessThan(300 * 60);
	expect(Math.max(...endsFrom(job, latest_s + 60))).toBeGreaterThan(300 * 60);
});

test('where a shop has no hours a later stage sets no last moment either', () => {
	const [first, second] = planStages({ job: twoStages(null), start });
	expect(first?.verdict?.plan.latestStart_s).toBeNull();
	expect(second?.verdict?.plan.latestStart_s).not.toBeNull();
});
