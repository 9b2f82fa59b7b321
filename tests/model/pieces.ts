import { type Failed, failEachCall, happenings, type State, states } from '../day/each-call.ts';
import { count } from './added-up.ts';
import { type AnyAnswers, interviewsOn } from './any-answers/interviews.ts';
import { caughtAlone, foundUnder, type RuleMutant, ruleMutants } from './any-job/mutants.ts';
import { type AnyJobs, anyJobsOf } from './any-job/proof.ts';
import { type AsTold, asToldOn } from './as-told/days.ts';
import { sheets, standardLists } from './by-chance/sheets.ts';
import { daysOf, type Tally, ways } from './erring/days.ts';
import { proveKeys } from './keys/prove.ts';
import { asTheyAre } from './machines.ts';
import { allMutants, type Caught, caughtBy } from './mutants.ts';
import type { Mutant } from './mutate.ts';
import { type Agreed, agreedOn } from './now-and-day.ts';
import { type OnePaint, onePaintOn } from './one-paint/days.ts';
import { onePaintWith, type PaintMutant, paintMutants, sheetsToCatch } from './one-paint/mutants.ts';
import { aloneProofs, largeDays, smallDays, type Verdict } from './proofs.ts';
import type { Fuzzed } from './readers/fuzz.ts';
import { type Right, rightOn } from './right-clocks/days.ts';
import { daysToCatch, rightOnWith, type TimeMutant, timeMutants } from './right-clocks/mutants.ts';
import { type Transcript, transcriptOf } from './transcript.ts';

/** The pieces of the proof: what is walked, played and changed, each to be done by itself. */

export const isQuick = process.env.QUICK === '1';
export const erringDays = isQuick ? 20 : 2000;

/** The longest first, so that nothing long is left for the end. */
export const days = [...(isQuick ? [] : largeDays.toReversed()), ...smallDays.toReversed()];
export const proofs = [...days, ...aloneProofs];

export type Keys = {
	keys: number;
	answers: number;
	days: number;
	faces: number;
	restarts: number;
	says: string[];
};
export type Result =
	| { kind: 'walk'; verdict: Verdict }
	| { kind: 'erring'; tally: Tally }
	| { kind: 'keys'; keys: Keys }
	| { kind: 'transcript'; transcript: Transcript }
	| { kind: 'now'; agreed: Agreed }
	| { kind: 'any'; any: AnyJobs }
	| { kind: 'right'; right: Right }
	| { kind: 'time'; mutant: TimeMutant; says: string | null }
	| { kind: 'paint'; paint: OnePaint }
	| { kind: 'paint mutant'; mutant: PaintMutant; says: string | null }
	| { kind: 'told'; told: AsTold }
	| { kind: 'rule'; mutant: RuleMutant; says: string | null }
	| { kind: 'readers'; fuzzed: Fuzzed }
	| { kind: 'answers'; answers: AnyAnswers }
	| { kind: 'disk'; failed: Failed }
	| { kind: 'mutant'; caught: Caught | null };

type Work = () => Result | Promise<Result>;

/** Every call of a day that stands in a state, failing once and for good, whatever happens without a key. */
function failingDisk(state: State): Failed {
	const each = (isQuick ? happenings.slice(0, 1) : happenings).flatMap(happening =>
		[false, true].map(lasting => failEachCall(state, happening, lasting, isQuick ? 2 : undefined)),
	);
	return {
		cases: each.reduce((total, one) => total + one.cases, 0),
		says: each.flatMap(one => one.says),
	};
}

/** Shares of a play by chance, each with its number. */
const inShares = (shares: number, piece: (share: number) => Result | Promise<Result>): Work[] =>
	Array.from({ length: isQuick ? 1 : shares }, (_, share) => () => piece(share));

/** Changes to be caught, each by itself. */
const each = <Change>(changes: readonly Change[], piece: (change: Change) => Promise<Result>): Work[] =>
	(isQuick ? changes.slice(0, 1) : changes).map(change => () => piece(change));

/** Days, jobs, sheets, keys or cases of one share. */
const inAShare = (whole: number, quick: number): number => (isQuick ? quick : whole);

const played: Work[] = [
	...inShares(20, share => ({ kind: 'keys', keys: proveKeys(inAShare(50_000, 5000), 1 + share * 10_000) })),
	...inShares(10, share => {
		const days = inAShare(20, 4);
		return { kind: 'transcript', transcript: transcriptOf(1 + share * days, days) };
	}),
	...inShares(20, async share => {
		const given = { jobs: sheets(), lists: await standardLists() };
		const days = inAShare(100, 4);
		return { kind: 'now', agreed: agreedOn(given, share * days, days) };
	}),
	/** Some three days a job: a thousand in all. */
	...inShares(20, async share => {
		const jobs = inAShare(18, 2);
		return { kind: 'any', any: anyJobsOf(await standardLists(), share * jobs, jobs) };
	}),
	...inShares(20, share => {
		const days = inAShare(50, 4);
		return { kind: 'right', right: rightOn(share * days, days) };
	}),
	...inShares(20, async share => {
		const sheets = inAShare(50, 4);
		return { kind: 'paint', paint: onePaintOn(await standardLists(), share * sheets, sheets) };
	}),
	...inShares(20, async share => {
		const days = inAShare(50, 4);
		return { kind: 'told', told: asToldOn(await standardLists(), share * days, days) };
	}),
	...inShares(20, async share => {
		const { fuzzReaders } = await import('./readers/fuzz.ts');
		return { kind: 'readers', fuzzed: fuzzReaders(inAShare(10_000, 2000), 1 + share) };
	}),
	...inShares(20, share => ({ kind: 'answers', answers: interviewsOn(share, inAShare(100, 60)) })),
];

const changed: Work[] = [
	...each(timeMutants, async mutant => {
		const play = await rightOnWith(mutant);
		return { kind: 'time', mutant, says: play(0, daysToCatch, 1).says[0] ?? null };
	}),
	...each(ruleMutants, async mutant => {
		const says = await foundUnder(mutant, await standardLists());
		return { kind: 'rule', mutant, says: caughtAlone(mutant, says) };
	}),
	...each(paintMutants, async mutant => {
		const play = await onePaintWith(mutant);
		const { says } = play(await standardLists(), 0, sheetsToCatch, 1);
		return { kind: 'paint mutant', mutant, says: says[0] ?? null };
	}),
];

/** Every piece of work, in its order. */
export const workOf = (mutants: readonly Mutant[]): Work[] => [
	...proofs.map(
		(proof): Work =>
			() => ({ kind: 'walk', verdict: proof.run(asTheyAre) }),
	),
	...ways.map(
		(way): Work =>
			() => ({ kind: 'erring', tally: daysOf(way, erringDays) }),
	),
	...played,
	...changed,
	...states.map(
		(state): Work =>
			() => ({ kind: 'disk', failed: failingDisk(state) }),
	),
	...mutants.map(
		(mutant): Work =>
			async () => ({ kind: 'mutant', caught: await caughtBy(mutant) }),
	),
];

/** Every mutant; a few of them to see the table. */
export const mutantsToTry = async () =>
	(await allMutants()).filter((_, index) => !isQuick || index % 40 === 7);

/** A piece of work that is done, in one line, for whoever waits. */
export function lineOf(number: number, result: Result, mutants: readonly Mutant[]): string {
	switch (result.kind) {
		case 'walk': {
			const { states, transitions, seconds, found } = result.verdict;
			const size = `${count(states)} states, ${count(transitions)} transitions, ${seconds.toFixed(0)} s`;
			return `${proofs[number]?.name}: ${size}, ${found.length === 0 ? 'holds' : 'FALLS'}`;
		}
		case 'erring':
			return `erring painter, ${result.tally.way}: ${result.tally.passes} passes, ${result.tally.findings.length} findings`;
		case 'keys':
			return `${result.keys.keys} random keys: ${result.keys.says.length} findings`;
		case 'transcript':
			return `${result.transcript.lines} lines: ${result.transcript.found.length} findings`;
		case 'now':
			return `now on ${result.agreed.days} days: ${result.agreed.says.length} findings`;
		case 'any':
			return `${result.any.days} days of any job: ${result.any.says.length} findings`;
		case 'right':
			return `${result.right.days} days beside the true time: ${result.right.says.length} findings`;
		case 'time':
			return `${result.mutant.file} ${result.mutant.what}: ${result.says ? 'caught' : 'ALIVE'}`;
		case 'paint':
			return `paint of ${result.paint.sheets} sheets: ${result.paint.says.length} findings`;
		case 'paint mutant':
			return `${result.mutant.file} ${result.mutant.what}: ${result.says ? 'caught' : 'ALIVE'}`;
		case 'told':
			return `${result.told.days} days as told: ${result.told.short} of ${result.told.batches} batches short`;
		case 'rule':
			return `${result.mutant.file} ${result.mutant.what}: ${result.says ? 'caught' : 'ALIVE'}`;
		case 'readers':
			return `${result.fuzzed.cases} spoilt files: ${result.fuzzed.says.length} findings`;
		case 'answers':
			return `${result.answers.sheets} sheets asked for: ${result.answers.says.length} findings`;
		case 'disk':
			return `${result.failed.cases} calls that fail: ${result.failed.says.length} findings`;
		case 'mutant': {
			const mutant = mutants[number - (workOf(mutants).length - mutants.length)];
			return `${mutant?.file}:${mutant?.line} ${mutant?.what}: ${result.caught ? 'caught' : 'ALIVE'}`;
		}
	}
}
