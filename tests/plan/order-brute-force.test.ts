import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { planOrders, type StageOrder } from '../../src/plan/order.ts';
import { jobs } from './jobs.ts';

type Row = { id: string; part: string; gun: string; after: string[] };

const rowsOf = (job: Job, coat: number): Row[] =>
	job.faces.map(face => ({
		id: face.id,
		part: face.part,
		gun: `${face.coats[coat]?.horns} ${face.fanHeight_mm}`,
		after: face.after,
	}));

/** Every order of a coat's faces that respects `after`, as its gun states in a row and its parts in a row. */
function everyOrder(rows: Row[], visit: (order: Row[]) => void, done: Row[] = []): void {
	if (done.length === rows.length) visit(done);
	for (const row of rows)
		if (!done.includes(row) && row.after.every(id => done.some(before => before.id === id)))
			everyOrder(rows, visit, [...done, row]);
}

const turnsOf = (order: { gun: string }[]) =>
	order.reduce((sum, row, at) => sum + (at > 0 && order[at - 1]?.gun !== row.gun ? 1 : 0), 0);

/** The fewest turns of a coat's orders, for each first and last state; only of those that `wanted` lets through. */
function cheapest(rows: Row[], wanted: (order: Row[]) => string | null): Map<string, Map<string, number>> {
	const best = new Map<string, Map<string, number>>();
	everyOrder(rows, order => {
		const parts = wanted(order);
		if (parts === null) return;
		const ends = `${order[0]?.gun}>${order.at(-1)?.gun}`;
		const table = best.get(parts) ?? new Map<string, number>();
		table.set(ends, Math.min(table.get(ends) ?? Number.POSITIVE_INFINITY, turnsOf(order)));
		best.set(parts, table);
	});
	return best;
}

/** Tries every combination of one table entry a coat. */
function bestOver(tables: Map<string, number>[], at = 0, last: string | null = null): number {
	const table = tables[at];
	if (!table) return 0;
	return Math.min(
		...[...table].map(([ends, turns]) => {
			const [first, end] = ends.split('>');
			return turns + (last === null || last === first ? 0 : 1) + bestOver(tables, at + 1, end ?? null);
		}),
	);
}

/** The parts in a row if each is finished before the next is begun, else null. */
function wholeParts(order: Row[]): string | null {
	const runs = order.flatMap((row, at) => (order[at - 1]?.part === row.part ? [] : [row.part]));
	return new Set(runs).size === runs.length ? runs.join('>') : null;
}

function fewestByForce(job: Job, coats: number): number {
	return bestOver(
		Array.from({ length: coats }, (_, coat) => {
			const table = cheapest(rowsOf(job, coat), () => '').get('');
			return table ?? new Map<string, number>();
		}),
	);
}

function wettestByForce(job: Job, coats: number): number | null {
	const tables = Array.from({ length: coats }, (_, coat) => cheapest(rowsOf(job, coat), wholeParts));
	const places = new Map(job.parts.map(part => [part.name, part.place]));
	const farthest = job.parts.reduce((best, part) => ((part.place ?? 0) > (best.place ?? 0) ? part : best));
	const costs = [...(tables[0]?.keys() ?? [])]
		.filter(parts => places.get(farthest.name) === null || parts.split('>')[0] === farthest.name)
		.map(parts => bestOver(tables.map(table => table.get(parts) ?? new Map())));
	return costs.length === 0 ? null : Math.min(...costs);
}

function holds(job: Job, order: StageOrder): void {
	for (const { faces } of order.coats) {
		expect([...faces].sort()).toEqual(job.faces.map(face => face.id).sort());
		for (const face of job.faces)
			for (const before of face.after) expect(faces.indexOf(before)).toBeLessThan(faces.indexOf(face.id));
	}
	const rows = order.coats.flatMap(({ faces }, coat) => {
		const byId = new Map(rowsOf(job, coat).map(row => [row.id, row]));
		return faces.flatMap(face => byId.get(face) ?? []);
	});
	expect(order.turns).toBe(turnsOf(rows));
	expect(order.exact).toBe(true);
}

const named = (job: Job, name: StageOrder['name']): StageOrder => {
	const order = planOrders(job, 0).find(each => each.name === name);
	if (!order) throw new Error(`no order ${name}`);
	return order;
};

for (const [fans, coats, faces] of [
	[[250], 1, 7],
	[[250], 3, 6],
	[[250, 150], 2, 6],
	[[250, 150, 80], 2, 6],
] as const)
	test(`fewest turns never has a turn more than the best of all orders of up to ${faces} faces: ${fans.length} fan heights, ${coats} coats`, () => {
		fc.assert(
			fc.property(jobs({ faces: [2, faces], coats, fans: [...fans], across: true }), job => {
				const order = named(job, 'fewest-turns');
				holds(job, order);
				expect(order.turns).toBe(fewestByForce(job, coats));
			}),
			{ numRuns: 700 },
		);
	});

test('fewest turns never has a turn more than the best of all 40,320 orders of eight faces', () => {
	fc.assert(
		fc.property(jobs({ faces: [8, 8], coats: 1, fans: [250, 150] }), job => {
			expect(named(job, 'fewest-turns').turns).toBe(fewestByForce(job, 1));
		}),
		{ numRuns: 15 },
	);
});

for (const [fans, coats, faces, places] of [
	[[250], 1, 7, false],
	[[250], 3, 6, false],
	[[250, 150], 2, 6, false],
	[[250, 150], 2, 6, true],
] as const)
	test(`wettest edge never has a turn more than the best of all its orders: ${fans.length} fan heights, ${coats} coats, places ${places ? 'said' : 'not said'}`, () => {
		fc.assert(
			fc.property(jobs({ faces: [2, faces], coats, fans: [...fans], places }), job => {
				const order = named(job, 'wettest-edge');
				holds(job, order);
				expect(order.turns).toBe(wettestByForce(job, coats));
				const part = new Map(job.faces.map(face => [face.id, face.part]));
				const rows = order.coats.map(({ faces }) =>
					faces.map(id => part.get(id)).filter((name, at, all) => all[at - 1] !== name),
				);
				for (const row of rows) {
					expect(new Set(row).size).toBe(row.length);
					expect(row).toEqual(rows[0]);
				}
			}),
			{ numRuns: 300 },
		);
	});
