import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { wrongIn } from '../../src/job/check-shelf.ts';
import { errorLine } from '../../src/job/errors.ts';
import { loadJob } from '../../src/job/load.ts';
import { readShelf } from '../../src/job/shelf.ts';
import { planJob } from '../../src/plan/job-plan.ts';

/** Two jobs of the Pump Yard workshop in as few lines as they take: a large gun for the primer, a small one for colours. */

const here = join(import.meta.dirname, 'two-guns');
const shelf = join(here, 'shelf');
async function jobOf(name: string) {
	const loaded = await loadJob(join(here, name), shelf);
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}

describe('a sheet of two guns', () => {
	test('whose shelf is without a fault', () => {
		expect(readShelf(shelf).files.flatMap(wrongIn).map(errorLine)).toEqual([]);
	});

	test.each([
		['eight-chairs.yaml', 32, 8 * 4 * 2 + 8 * 3 * 2 + 8 * 3],
		['six-doors.yaml', 18, 6 * 3 * 2 + 6 * 2 * 2 + 6 * 2],
	])('%s is taken and planned', async (name, faces, coats) => {
		const job = await jobOf(name);
		expect(job.faces).toHaveLength(faces);
		expect(job.faces.reduce((sum, face) => sum + face.coats.length, 0)).toBe(coats);
		const { stages } = planJob({ job, start: 0 });
		const laid = stages.flatMap(({ verdict }) => verdict?.plan.laid ?? []);
		expect(laid).toHaveLength(coats);
	});

	test('the seats hang for their primer, and lie for their colour', async () => {
		const { faces } = await jobOf('eight-chairs.yaml');
		const top = faces.find(({ id }) => id === 'seat 1/top');
		expect(top?.coats.map(({ attitude }) => attitude)).toEqual(['upright', 'upright', ...Array(3)]);
	});

	test('tape lies on the first colour no sooner than its data sheet says, and comes off dry to handle', async () => {
		const job = await jobOf('six-doors.yaml');
		const inside = job.faces.find(({ id }) => id === 'door 1/inside');
		expect(inside?.finishing?.prep).toMatchObject([
			{ step: 'mask' },
			{ step: 'unmask', dry: 'handle' },
			{ step: 'inspect' },
		]);
		expect(job.materials['linen satin']?.dryTo?.tape).toEqual([{ at_C: 20, hours: 16 }]);
	});
});
