import { TestModel } from '@xstate/test';
import { expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { rehearsed, start } from '../day/rehearsed.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { keyOfStand, type Line, linesAt, openingStand, type Pair, type Stand, taken } from './line-model.ts';

/**
 * The shortest way, line by line, to every pair of a state of the day and a type of record made in it; each way is
 * gone on the program itself, once as it is and once with a break before its last line.
 */

/** One face, two coats. */
const oneFace = (): Job => {
	const job = smallJob();
	return { ...job, parts: job.parts.slice(1), faces: job.faces.slice(2) };
};

/** A batch that stands, a cup that takes one coat, and work on the face before the second. */
const slowJob = (): Job => {
	const job = oneFace();
	const topcoat = job.materials.topcoat;
	if (!topcoat) throw new Error('the small job has a topcoat');
	return {
		...job,
		gun: { ...job.gun, cup_mL: 100 },
		materials: { topcoat: { ...topcoat, order: ['base', 'hardener', 'stand'], standing_min: 5 } },
		faces: job.faces.map(face => ({
			...face,
			coats: face.coats.map(coat => ({ ...coat, prep: [{ step: 'tack' as const, grit: null }] })),
		})),
	};
};

type Way = { job: Job; lines: readonly string[]; made: readonly (readonly Pair[])[] };

/** A shortest way to each pair that the lines of a job come to. */
function waysOf(job: Job): Map<Pair, Way> {
	const first = {
		...openingStand(job, smallLists(), start),
		status: 'active' as const,
		output: undefined,
		error: undefined,
	};
	const keys = new WeakMap<Stand, string>();
	const met = new Set<Pair>();
	/** A stand at which a pair is met for the first time is told from all others. */
	const keyOf = (at: Stand): string => {
		const known = keys.get(at);
		if (known !== undefined) return known;
		const fresh = at.made.filter(pair => !met.has(pair));
		for (const pair of fresh) met.add(pair);
		const key = [keyOfStand(at), ...fresh].join(' # ');
		keys.set(at, key);
		return key;
	};
	const model = new TestModel(
		{
			transition: (at: Stand & { status: 'active'; output: undefined; error: undefined }, line: Line) => ({
				...at,
				...taken(at, line),
			}),
			getInitialSnapshot: () => first,
			getPersistedSnapshot: at => at,
		},
		{ serializeState: keyOf, serializeEvent: ({ type }) => type, events: linesAt },
	);
	const ways = new Map<Pair, Way>();
	for (const { steps } of model.getShortestPaths())
		for (const [index, { state }] of steps.entries())
			for (const pair of state.made) {
				const lines = steps.slice(1, index + 1).map(({ event }) => event.type);
				const known = ways.get(pair);
				if (known && known.lines.length <= lines.length) continue;
				ways.set(pair, { job, lines, made: steps.slice(1, index + 1).map(step => step.state.made) });
			}
	return ways;
}

const ways = new Map([...waysOf(slowJob()), ...waysOf(oneFace())]);

const goneBy = (job: Job, lines: readonly string[]) => {
	const day = rehearsed({ job });
	day.send(...lines);
	return day;
};

test('the program takes every shortest way without an error, and its file passes the checker', () => {
	expect(ways.size).toBeGreaterThan(50);
	for (const [pair, { job, lines }] of ways)
		expect([pair, goneBy(job, lines).findings()]).toEqual([pair, []]);
});

test('with a break put in before its last line, every way stands in hold, and nothing unchecked follows', () => {
	for (const [pair, { job, lines }] of ways) {
		const day = goneBy(job, lines.slice(0, -1));
		if (day.line().ask === 'closed') continue;
		day.send('kill');
		expect([pair, day.line().ask]).toEqual([pair, 'hold']);
		day.send(lines.at(-1) ?? 'screen');
		expect([pair, day.line().state === 'spraying']).toEqual([pair, false]);
		day.until(({ ask }) => ask === 'go' || ask === 'closed');
		expect([pair, day.findings()]).toEqual([pair, []]);
	}
});
