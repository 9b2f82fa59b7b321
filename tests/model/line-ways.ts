import { TestModel } from '@xstate/test';
import type { Settings } from '../../src/day/settings.ts';
import type { Job } from '../../src/job/job.ts';
import { start } from '../day/rehearsed.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import {
	keyOfStand,
	type Line,
	linesAt,
	openingStand,
	type Pair,
	type Stand,
	taken,
	wantedAt,
} from './line-model.ts';

/** The shortest ways, line by line, to every pair of a state of the day and a type of record made in it. */

/** One face, two coats. */
const oneFace = (): Job => {
	const job = smallJob();
	return { ...job, parts: job.parts.slice(1), faces: job.faces.slice(2) };
};

/** Two faces under the same fan, from a cup of a size. */
const twoFaces = (cup_mL: number, coats = 1): Job => {
	const job = smallJob();
	const faces = job.faces.slice(1).map(face => ({ ...face, after: [], coats: face.coats.slice(0, coats) }));
	return { ...job, gun: { ...job.gun, cup_mL }, faces };
};

/** A batch that stands, and work before each coat. */
const slowJob = (job: Job): Job => {
	const topcoat = job.materials.topcoat;
	if (!topcoat) throw new Error('the small job has a topcoat');
	const coats = { full: { dry_um: 40, reducer_parts: 0 } };
	const order = ['base', 'hardener', 'stand'] as const;
	return {
		...job,
		materials: { topcoat: { ...topcoat, order: [...order], reducer_parts: 0, coats, standing_min: 5 } },
		faces: job.faces.map(face => ({
			...face,
			coats: face.coats.map(coat => ({ ...coat, prep: [{ step: 'tack' as const, grit: null }] })),
		})),
	};
};

export type Way = {
	job: Job;
	settings: Partial<Settings>;
	lines: readonly string[];
	made: readonly (readonly Pair[])[];
};

/** Lines one after the other, and what each makes: a model holds stands of one key for one, a way goes through its own. */
function madeBy(first: Stand, lines: readonly string[]): (readonly Pair[])[] {
	let at = first;
	return lines.map(type => {
		at = taken(at, { type });
		return at.made;
	});
}

type Options = Partial<Settings> & { lines?: (at: Stand) => Line[] };

function waysOf(job: Job, { lines: events = linesAt, ...settings }: Options = {}): Map<Pair, Way> {
	const first = {
		...openingStand(job, smallLists(), start, settings),
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
			transition: (at: typeof first, line: Line) => ({ ...at, ...taken(at, line) }),
			getInitialSnapshot: () => first,
			getPersistedSnapshot: at => at,
		},
		{ serializeState: keyOf, serializeEvent: ({ type }) => type, events },
	);
	const ways = new Map<Pair, Way>();
	const gone = new Set<string>();
	for (const { steps } of model.getShortestPaths())
		for (const [index, { state }] of steps.entries()) {
			const key = keyOf(state);
			if (!key.includes(' # ') || gone.has(key)) continue;
			gone.add(key);
			const lines = steps.slice(1, index + 1).map(({ event }) => event.type);
			const made = madeBy(first, lines);
			for (const pair of made.at(-1) ?? first.made) {
				const known = ways.get(pair);
				if (!known || known.lines.length > lines.length) ways.set(pair, { job, settings, lines, made });
			}
		}
	return ways;
}

/** Every line but those that only break the day off. */
const quiet = (at: Stand) => linesAt(at).filter(({ type }) => !/kill|hangup|clock|trigger/.test(type));

/** A coat that flashes in half a minute: its window opens while another face is sprayed. */
const quickJob = (job: Job): Job => {
	const topcoat = job.materials.topcoat;
	if (!topcoat) throw new Error('the small job has a topcoat');
	const windows = [
		{ does: 'wait' as const, from_h: 0, until_h: 0.01 },
		{ does: 'spray' as const, from_h: 0.01, until_h: 8 },
	];
	const recoat = [{ under: 'topcoat', rows: [{ from_C: 15, to_C: 30, windows }] }];
	const flash = { ...topcoat.flash, min_min: 0.5 };
	return { ...job, materials: { topcoat: { ...topcoat, recoat, flash } } };
};

/** What is wanted, and passes that run late. */
const slowly = (at: Stand) =>
	at.view.ask === 'spraying'
		? [...wantedAt(at), { type: 'wait 200 s' }]
		: at.view.ask === 'go'
			? [...wantedAt(at), { type: 'wait 40 s' }]
			: wantedAt(at);

/** The ways of five small days together. */
export const allWays = (): ReadonlyMap<Pair, Way> =>
	new Map([
		...waysOf(twoFaces(100), { lines: wantedAt }),
		...waysOf(twoFaces(600), { lines: wantedAt, by: 'stretch' }),
		...waysOf(quickJob(twoFaces(600, 2)), { lines: slowly, by: 'stretch' }),
		...waysOf(slowJob(twoFaces(200, 2)), { lines: quiet, by: 'stretch' }),
		...waysOf(slowJob(oneFace())),
		...waysOf(oneFace()),
	]);
