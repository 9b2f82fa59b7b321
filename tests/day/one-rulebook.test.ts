import { expect, test } from 'vitest';
import { rehearsed, start } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** What became different when guards, next step and offers came to read one list of what stands before a coat. */

/** Two faces under the same fan, which want scuffing between their coats. */
function twoScuffed() {
	const job = smallJob();
	const [material] = Object.values(job.materials);
	if (!material) throw new Error('a small job has a material');
	const windows = [
		{ does: 'wait' as const, from_h: 0, until_h: 0.75 },
		{ does: 'scuff' as const, from_h: 0.75, until_h: null },
	];
	const recoat = [{ under: material.id, rows: [{ from_C: 15, to_C: 30, windows }] }];
	return {
		...job,
		materials: { [material.id]: { ...material, recoat } },
		faces: job.faces.filter(({ name }) => name === 'flat').map(face => ({ ...face, after: [] })),
	};
}

test('faces that are scuffed as their window asks go into one stretch', () => {
	const day = rehearsed({ job: twoScuffed(), settings: { by: 'stretch' } });
	const ready = day.until(({ state, coat }) => state === 'ready' && coat === 2);
	expect(ready.say).toMatch(/and 1 more/);
	expect(day.ofType('stage.done').map(({ stage }) => stage)).toEqual(['scuff', 'scuff']);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a day on which nothing is left to spray does not begin with the list before spraying', () => {
	const job = smallJob();
	const laid = (coat: number) => ({
		coat,
		ended: new Date(start - (50 - coat) * 3_600_000).toISOString(),
		cup: ['A'],
		surfaceC: 21,
	});
	const faces = Object.fromEntries(
		job.faces.map(({ id }) => [id, { coats: [laid(1), laid(2)], prep: [], aside: null }]),
	);
	const day = rehearsed({ job, before: { faces, letters: 1 } });
	expect(day.ofType('check.began')).toEqual([]);
	expect(day.line().state).toBe('finish');
});

test('how far a clock was set back goes by the last record, be it that of a window that moved in a hold', () => {
	const day = rehearsed({ settings: { by: 'face' } });
	day.until(({ ask, coat }) => ask === 'wait' && coat === 2);
	day.send('hold', 'wait 60 min');
	expect(day.records().at(-1)).toMatchObject({ type: 'window.moved', to: 'spray' });
	day.send('clock -10 min');
	expect(day.ofType('clock.set').map(({ stepMs }) => stepMs)).toEqual([-600_000]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});
