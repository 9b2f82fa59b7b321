import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

test('a wait that sanding follows says that it waits for that, and not that the coat flashes', () => {
	const { materials, ...job } = smallJob();
	const unsaid = Object.fromEntries(
		Object.entries(materials).map(([id, material]) => [id, { ...material, sandAfter: [] }]),
	);
	const sanded = (coat: (typeof job.faces)[number]['coats'][number], at: number) =>
		at === 0 ? coat : { ...coat, prep: [{ step: 'sand' as const, grit: 400 }] };
	const faces = job.faces.map(face => ({ ...face, coats: face.coats.map(sanded) }));
	expect(rehearsed({ job: { ...job, materials: unsaid, faces } }).toState('wait').say).toMatch(
		/^Wait \d+ min, extractor on: before sanding\.$/,
	);
	expect(rehearsed().toState('wait').say).toMatch(/: the coat flashes\.$/);
});
