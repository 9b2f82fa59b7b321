import type { Line } from '../../src/day/rehearsal.ts';
import type { DayState } from '../../src/day/state.ts';
import type { Job } from '../../src/job/job.ts';
import type { World } from '../../src/painter/world.ts';
import { batchScheme } from './batch-schemes.ts';
import { betweenScheme } from './between-schemes.ts';
import type { Cause } from './causes.ts';
import { gunScheme } from './gun-schemes.ts';
import { handScheme } from './hand-schemes.ts';
import type { Bench, Pass, Pot } from './hidden.ts';
import type { Lots } from './lots.ts';

/** How one cause gets into a day: what it changes of what is, and what is keyed for it. The guard is asked like anybody else. */
export type Scheme = {
	/** A pass is about to be entered: what is there changes now, or how this pass goes. */
	begins?(pass: Pass, bench: Bench, pots: ReadonlyMap<string, Pot>): void;
	/** The next batch of the day is begun; the first is 0. */
	batch?(pot: Pot, nth: number): void;
	/** What is keyed at a screen in place of what a careful painter keys: codes of corners, or whole lines; null: the same. */
	keys?(line: Line, floor: Floor): readonly string[] | null;
};

/** What a scheme sees of the day. */
export type Floor = {
	/** What the painter believes, and reads from. */
	believed: World;
	bench: Bench;
	state: DayState;
	/** Passes begun so far. */
	passes: readonly Pass[];
	/** The component that is asked for, and how many batches were begun before its own. */
	mixing: { component: string; nth: number } | null;
};

/** What a scheme is drawn from. */
export type Plan = {
	cause: Cause;
	lots: Lots;
	job: Job;
	/** Passes that the sheet asks for. */
	count: number;
	believed: World;
};

const schemers: readonly ((plan: Plan) => Scheme | null)[] = [
	gunScheme,
	batchScheme,
	handScheme,
	betweenScheme,
];

/** @throws Error where no way is known for the cause */
export function schemeFor(plan: Plan): Scheme {
	for (const schemer of schemers) {
		const scheme = schemer(plan);
		if (scheme) return scheme;
	}
	throw new Error(`no way for ${plan.cause.code}`);
}
