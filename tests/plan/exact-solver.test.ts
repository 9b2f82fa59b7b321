import fc from 'fast-check';
import * as highsModule from 'highs';
import { expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { orderFor } from '../../src/plan/order.ts';
import { jobs } from './jobs.ts';

type Slot = { name: string; gun: string };

/**
 * The question as a mixed-integer model for HiGHS, an open-source solver. A coat is a row of slots, each for one gun
 * state, all states in turn, as often as a better answer could need. A slot is used or not; a face is spread over used
 * slots of its own state, and no more of it may be done by the end of a slot than of the faces before it. Between two
 * coats one more slot may be shared by the end of the one and the start of the next. Turns are the slots used, less one.
 */
function model(job: Job, coats: number, rounds: number): string {
	const gunOf = (face: Job['faces'][number], coat: number) =>
		`${face.coats[coat]?.horns} ${face.fanHeight_mm}`;
	const guns = [...new Set(job.faces.flatMap(face => face.coats.map((_, coat) => gunOf(face, coat))))];
	const shared = (coat: number): Slot[] =>
		coat < 0 || coat >= coats - 1 ? [] : guns.map((gun, at) => ({ name: `m_${coat}_${at}`, gun }));
	const own = (coat: number): Slot[] =>
		Array.from({ length: rounds * guns.length }, (_, at) => ({
			name: `u_${coat}_${at}`,
			gun: guns[at % guns.length] ?? '',
		}));
	const rows: string[] = [];
	const used: string[] = [];
	const sum = (terms: string[]) => terms.join(' + ');
	for (let coat = 0; coat < coats; coat += 1) {
		const slots = [...shared(coat - 1), ...own(coat), ...shared(coat)];
		used.push(...[...own(coat), ...shared(coat)].map(slot => slot.name));
		if (shared(coat).length > 0) rows.push(`${sum(shared(coat).map(slot => slot.name))} <= 1`);
		const done = (at: number, upTo: Slot[]) =>
			upTo
				.filter(slot => slot.gun === gunOf(job.faces[at] as Job['faces'][number], coat))
				.map(slot => `x_${at}_${coat}_${slot.name}`);
		for (const [at, face] of job.faces.entries()) {
			rows.push(`${sum(done(at, slots))} = 1`);
			for (const slot of slots)
				if (slot.gun === gunOf(face, coat)) rows.push(`x_${at}_${coat}_${slot.name} - ${slot.name} <= 0`);
			for (const id of face.after) {
				const before = job.faces.findIndex(other => other.id === id);
				for (const [last, slot] of slots.entries()) {
					if (slot.gun !== gunOf(face, coat)) continue;
					const [here, there] = [at, before].map(each => done(each, slots.slice(0, last + 1)));
					const less = (here ?? []).map(term => `- ${term}`).join(' ');
					rows.push(`${sum(there ?? [])} ${less} >= 0`);
				}
			}
		}
	}
	const constraints = rows.map((row, at) => ` r${at}: ${row}`).join('\n');
	return `Minimize\n obj: ${sum(used)}\nSubject To\n${constraints}\nBinary\n ${used.join(' ')}\nEnd\n`;
}

test('fewest turns agrees with an exact solver on twelve to thirty faces', async () => {
	const load = highsModule.default as unknown as typeof highsModule.default.default;
	const highs = await load();
	const sizes = [
		{ faces: 12, coats: 2, fans: [250, 150] },
		{ faces: 20, coats: 2, fans: [250] },
		{ faces: 24, coats: 1, fans: [250, 150] },
		{ faces: 30, coats: 2, fans: [250] },
	];
	for (const { faces, coats, fans } of sizes) {
		const shape = { faces: [faces, faces] as [number, number], coats, fans, across: faces < 30 };
		for (const job of fc.sample(jobs(shape), { numRuns: 2, seed: faces })) {
			const { turns, exact } = orderFor(job, 0, 'fewest-turns');
			const rounds = fans.length === 1 ? Math.ceil(turns / 2) + 1 : turns;
			const solved = highs.solve(model(job, coats, rounds), { time_limit: 30 });
			expect(exact).toBe(true);
			expect(solved.Status).toBe('Optimal');
			expect(Math.round(solved.ObjectiveValue) - 1).toBe(turns);
		}
	}
});
