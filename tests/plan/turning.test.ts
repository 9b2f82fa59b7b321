import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { planText } from '../../src/cli/plan-text.ts';
import type { Job } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { notesOf } from '../../src/job/notes.ts';
import { readShelf } from '../../src/job/shelf.ts';
import { planJob } from '../../src/plan/job-plan.ts';
import { shelf, shortSheet } from '../job/chairs/long-form.ts';

/** When parts are turned over: nobody picks one up by a wet face, nor while the gun is in the hand. */

const start = Date.parse('2027-03-02T08:00:00Z');

/** Eight chairs whose seats lie on points; their primer flashes in ten minutes. */
function chairs(dryTo = '', held = 'on points'): Job {
	const own = readShelf(shelf);
	const text = readFileSync(shortSheet, 'utf8').replace('held: on points', `held: ${held}`);
	const files = own.files.map(file => {
		const text = file.name === 'grey epoxy' ? file.text.replaceAll('30 min', '10 min') : file.text;
		return file.kind === 'material' ? { ...file, text: `${text.trimEnd()}\n${dryTo}` } : file;
	});
	const loaded = parseJob(text, 'chairs.yaml', () => ({ ...own, files }));
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	return loaded.job;
}

/** Of each turning, for each of its parts: seconds from the end of the spraying before it, and from the part's last coat. */
function turnings(job: Job) {
	const { stages } = planJob({ job, start });
	return stages.flatMap((stage, at) => {
		if (stage.name !== 'turn over') return [];
		const before = stages.slice(0, at).flatMap(({ verdict }) => verdict?.plan ?? []);
		return stage.faces.map(({ face, planned_s }) => {
			const part = face.slice(0, face.indexOf('/'));
			const ends = before.flatMap(({ laid }) =>
				laid.filter(one => one.part === part).map(({ to_s }) => to_s),
			);
			return {
				fromSpraying_s: planned_s - (before.at(-1)?.end_s ?? 0),
				fromCoat_s: planned_s - Math.max(...ends),
			};
		});
	});
}

const textOf = (job: Job) =>
	planText(planJob({ job, start }), { start, zone: 'UTC', units: 'metric', width: 80 });
const byFlash = 'Turned over by the flash: grey epoxy has no time dry to handle.';
const noted = (job: Job) => notesOf(job, 'metric').filter(note => /dry to|turned over/.test(note));

describe('without a time dry to handle', () => {
	const job = chairs();

	test('a part is turned no sooner than its last coat has flashed and the spraying has ended', () => {
		const turned = turnings(job);
		expect(turned.length).toBeGreaterThanOrEqual(16);
		for (const { fromCoat_s, fromSpraying_s } of turned) {
			expect(fromCoat_s).toBeGreaterThanOrEqual(600);
			expect(fromSpraying_s).toBeGreaterThanOrEqual(0);
		}
	});

	test('the plan says that it counted the flash', () => {
		expect(textOf(job)).toContain(byFlash);
	});

	test('check notes the coat under the turning, with what to write', () => {
		const both = ['grey epoxy', 'moss green satin'];
		expect(noted(job)).toEqual([
			...both.map(name =>
				expect.stringMatching(
					new RegExp(`^material ${name}: parts are turned over.*dry to: \\{ handle: 4 h at 20 °C \\}`),
				),
			),
			...both.map(name => `material ${name}: dry to handle usual, not measured`),
		]);
	});
});

describe('with a time dry to handle', () => {
	const job = chairs('dry to: { handle: 4 h at 20 °C }\n');

	test('a part is turned no sooner than that', () => {
		for (const { fromCoat_s } of turnings(job)) expect(fromCoat_s).toBeGreaterThanOrEqual(4 * 3600 - 1e-6);
	});

	test('neither plan nor check says anything', () => {
		expect(textOf(job)).not.toContain(byFlash);
		expect(noted(job)).toEqual([]);
	});
});

test('where seats hang nothing is turned over, and nothing is missing', () => {
	const job = chairs('', 'hanging');
	expect(turnings(job)).toEqual([]);
	expect(textOf(job)).not.toContain(byFlash);
	expect(noted(job)).toEqual([]);
});
