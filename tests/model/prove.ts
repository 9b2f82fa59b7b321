import { writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { type Failed, failEachCall, happenings, type State, states } from '../day/each-call.ts';
import { caughtAlone, foundUnder, type RuleMutant, ruleMutants } from './any-job/mutants.ts';
import { type AnyJobs, anyJobsOf, togetherJobs } from './any-job/proof.ts';
import { type AsTold, asToldOn, togetherTold } from './as-told/days.ts';
import { sheets, standardLists } from './by-chance/sheets.ts';
import { daysOf, type Tally, tableOf as talliesAsTable, ways } from './erring/days.ts';
import { type Evidence, tableOf, walked } from './evidence.ts';
import { figuresFile, figuresText } from './figures.ts';
import { proveKeys } from './keys/prove.ts';
import { asTheyAre } from './machines.ts';
import { allMutants, type Caught, caughtBy } from './mutants.ts';
import type { Mutant } from './mutate.ts';
import { type Agreed, agreedOn, togetherAgreed } from './now-and-day.ts';
import { type OnePaint, onePaintOn, togetherPaint } from './one-paint/days.ts';
import { onePaintWith, type PaintMutant, paintMutants, sheetsToCatch } from './one-paint/mutants.ts';
import { paintProved } from './one-paint/proved.ts';
import { help, isHelper, sharedOut } from './pool.ts';
import { aloneProofs, largeDays, properties, smallDays, type Verdict } from './proofs.ts';
import type { Property } from './properties.ts';
import type { Fuzzed } from './readers/fuzz.ts';
import { nothing, type Right, rightOn } from './right-clocks/days.ts';
import { daysToCatch, rightOnWith, type TimeMutant, timeMutants } from './right-clocks/mutants.ts';
import { evidenceOf, type Transcript, together, transcriptOf } from './transcript.ts';

/**
 * Every walk whole, every transcript, every key, every mutant: `npm run prove`. The work is shared out among as many
 * copies of this program as there are cores. Exit 1 where a property falls, a mutant lives, or a painter sprays
 * unchecked. `QUICK=1` leaves out the largest days and most of the rest, to see the table; a whole run in which everything
 * holds keeps its figures.
 */

const isQuick = process.env.QUICK === '1';
const keyShares = isQuick ? 1 : 20;
const keysOfShare = isQuick ? 5000 : 50_000;
const transcriptShares = isQuick ? 1 : 10;
const daysOfShare = isQuick ? 4 : 20;
const nowShares = isQuick ? 1 : 20;
const nowDaysOfShare = isQuick ? 4 : 100;
/** Some three days a job: a thousand in all. */
const anyShares = isQuick ? 1 : 20;
const jobsOfShare = isQuick ? 2 : 18;
const rightShares = isQuick ? 1 : 20;
const rightDaysOfShare = isQuick ? 4 : 50;
const paintShares = isQuick ? 1 : 20;
const sheetsOfShare = isQuick ? 4 : 50;
const toldShares = isQuick ? 1 : 20;
const toldDaysOfShare = isQuick ? 4 : 50;
const erringDays = isQuick ? 20 : 2000;
const readerShares = isQuick ? 1 : 20;
const casesOfShare = isQuick ? 2000 : 10_000;

/** The longest first, so that nothing long is left for the end. */
const days = [...(isQuick ? [] : largeDays.toReversed()), ...smallDays.toReversed()];
const alone = [...new Set(Object.values(aloneProofs))];
const proofs = [...days, ...alone];

type Keys = { keys: number; answers: number; days: number; faces: number; restarts: number; says: string[] };
type Result =
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

/** Every piece of work, in its order. */
const workOf = (mutants: readonly Mutant[]): Work[] => [
	...proofs.map(
		(proof): Work =>
			() => ({ kind: 'walk', verdict: proof.run(asTheyAre) }),
	),
	...ways.map(
		(way): Work =>
			() => ({ kind: 'erring', tally: daysOf(way, erringDays) }),
	),
	...Array.from(
		{ length: keyShares },
		(_, share): Work =>
			() => {
				return { kind: 'keys', keys: proveKeys(keysOfShare, 1 + share * 10_000) };
			},
	),
	...Array.from(
		{ length: transcriptShares },
		(_, share): Work =>
			() => {
				return { kind: 'transcript', transcript: transcriptOf(1 + share * daysOfShare, daysOfShare) };
			},
	),
	...Array.from(
		{ length: nowShares },
		(_, share): Work =>
			async () => {
				const given = { jobs: sheets(), lists: await standardLists() };
				return { kind: 'now', agreed: agreedOn(given, share * nowDaysOfShare, nowDaysOfShare) };
			},
	),
	...Array.from(
		{ length: anyShares },
		(_, share): Work =>
			async () => ({ kind: 'any', any: anyJobsOf(await standardLists(), share * jobsOfShare, jobsOfShare) }),
	),
	...Array.from(
		{ length: rightShares },
		(_, share): Work =>
			() => ({ kind: 'right', right: rightOn(share * rightDaysOfShare, rightDaysOfShare) }),
	),
	...(isQuick ? timeMutants.slice(0, 1) : timeMutants).map(
		(mutant): Work =>
			async () => {
				const play = await rightOnWith(mutant);
				return { kind: 'time', mutant, says: play(0, daysToCatch, 1).says[0] ?? null };
			},
	),
	...(isQuick ? ruleMutants.slice(0, 1) : ruleMutants).map(
		(mutant): Work =>
			async () => {
				const says = await foundUnder(mutant, await standardLists());
				return { kind: 'rule', mutant, says: caughtAlone(mutant, says) };
			},
	),
	...Array.from(
		{ length: paintShares },
		(_, share): Work =>
			async () => ({
				kind: 'paint',
				paint: onePaintOn(await standardLists(), share * sheetsOfShare, sheetsOfShare),
			}),
	),
	...(isQuick ? paintMutants.slice(0, 1) : paintMutants).map(
		(mutant): Work =>
			async () => {
				const play = await onePaintWith(mutant);
				const { says } = play(await standardLists(), 0, sheetsToCatch, 1);
				return { kind: 'paint mutant', mutant, says: says[0] ?? null };
			},
	),
	...Array.from(
		{ length: toldShares },
		(_, share): Work =>
			async () => ({
				kind: 'told',
				told: asToldOn(await standardLists(), share * toldDaysOfShare, toldDaysOfShare),
			}),
	),
	...Array.from(
		{ length: readerShares },
		(_, share): Work =>
			async () => {
				const { fuzzReaders } = await import('./readers/fuzz.ts');
				return { kind: 'readers', fuzzed: fuzzReaders(casesOfShare, 1 + share) };
			},
	),
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
const mutantsToTry = async () => (await allMutants()).filter((_, index) => !isQuick || index % 40 === 7);

const out = (line = '') => void process.stdout.write(`${line}\n`);
const count = (value: number) => value.toLocaleString('en');

function printWalks(verdicts: readonly Verdict[]) {
	out();
	out(`${'walked whole'.padEnd(72)}      states transitions     refused   cpu s  verdict`);
	for (const [index, verdict] of verdicts.entries()) {
		const sizes = [verdict.states, verdict.transitions, verdict.refused].map(size =>
			count(size).padStart(11),
		);
		const name = (proofs[index]?.name ?? '').padEnd(72);
		const seconds = verdict.seconds.toFixed(1).padStart(7);
		out([name, ...sizes, seconds, verdict.found.length === 0 ? ' holds' : ' FALLS'].join(' '));
	}
}

/** What decides each property besides the days: charts alone. */
const decidedAlone: Partial<Record<Property, string>> = {
	3: 'face',
	7: 'stops',
	9: 'gun check',
	11: 'gun check',
	13: 'batch',
	14: 'face',
	16: 'face',
};

function evidence(verdicts: readonly Verdict[], transcripts: readonly Transcript[]): Evidence[] {
	const named = proofs.flatMap(({ name }, index) => {
		const verdict = verdicts[index];
		return verdict ? [{ name, verdict }] : [];
	});
	const isDay = ({ name }: { name: string }) => days.some(day => day.name === name);
	return [
		...Object.keys(properties).flatMap(key => {
			const property = Number(key) as Property;
			const chart = decidedAlone[property];
			const others = named.filter(({ name }) => name === chart);
			return [
				walked(property, named.filter(isDay), false),
				...(chart ? [walked(property, others, true)] : []),
			];
		}),
		...evidenceOf(together(transcripts)),
	];
}

/** Random keys, a painter who errs, and `now` beside the day, in one line each beside the properties. */
function printPlayed(
	keys: readonly Keys[],
	tallies: readonly Tally[],
	agreed: Agreed,
	any: AnyJobs,
): boolean {
	const sum = (pick: (one: Keys) => number) => count(keys.reduce((total, one) => total + pick(one), 0));
	const wrongKeys = keys.flatMap(one => one.says);
	const found = tallies.flatMap(({ findings }) => findings);
	const guarded = tallies.filter(one => one.keys > 0);
	const passes = count(guarded.reduce((total, one) => total + one.passes, 0));
	const row = (what: string, how: string, size: string, holds: boolean) =>
		out(`${what.padEnd(86)} ${how.padEnd(62)} ${size.padEnd(72)} ${holds ? 'holds' : 'FALLS'}`);
	row(
		' – random keys: nothing unchecked, no error, at most one answer a key (1–9, 11, 13–17)',
		'keyboard, key guard, desk, day; each file read by the checker',
		`${sum(one => one.keys)} keys, ${sum(one => one.answers)} answers, ${sum(one => one.days)} days, ${sum(one => one.faces)} starts`,
		wrongKeys.length === 0,
	);
	row(
		' – a painter who errs: no face sprayed unchecked (1–4, 6, 8, 11, 13–17)',
		'each file read by the checker; the same seeds before every list',
		`${count(erringDays)} days a variant, ${passes} passes under the guard`,
		found.length === 0,
	);
	row(
		' – now and the day: on every face the same, at once, later on and between two days',
		'stops, timers and records of days by chance; days left and opened again',
		`${count(agreed.days)} days, ${count(agreed.asked + agreed.later + agreed.between)} faces, ${count(agreed.taken)} records, ${count(agreed.timers)} timers`,
		agreed.says.length === 0,
	);
	row(
		' – any job: sheets by chance, silence anywhere, days that follow each other (1–4, 6, 8, 11, 13–17, 19, 22)',
		'each file read by the checker, with the files before it',
		`${count(any.days)} days of ${count(any.jobs)} sheets, ${count(any.records)} records, ${count(any.starts)} starts, ${count(any.steps)} steps`,
		any.says.length === 0,
	);
	const wrong = [...wrongKeys, ...found, ...agreed.says, ...any.says];
	for (const line of wrong.slice(0, 10)) out(`      ${line}`);
	return wrong.length === 0;
}

/** Days beside the true time, and the changes of the rules of time that they catch. */
function printRight(rights: readonly Right[], caught: readonly (Result & { kind: 'time' })[]): boolean {
	const sum = rights.reduce(
		(total, one) => ({
			days: total.days + one.days,
			minimums: total.minimums + one.minimums,
			maximums: total.maximums + one.maximums,
			screens: total.screens + one.screens,
			jumps: total.jumps + one.jumps,
			says: [...total.says, ...one.says],
		}),
		nothing,
	);
	const alive = caught.filter(({ says }) => says === null);
	out();
	out(
		`18 no minimum early, no maximum late, screens that agree, beside the true time: ${count(sum.days)} days, ${count(sum.minimums)} minimums, ${count(sum.maximums)} maximums, ${count(sum.screens)} holds, ${count(sum.jumps)} jumps: ${sum.says.length === 0 ? 'holds' : 'FALLS'}`,
	);
	for (const line of sum.says.slice(0, 10)) out(`      ${line}`);
	for (const { mutant, says } of caught)
		out(`${mutant.file} ${mutant.what} → ${says?.slice(0, 90) ?? 'ALIVE'}`);
	return sum.says.length === 0 && alive.length === 0;
}

/** Changes of rules of the day that one property alone catches, on days by chance. */
function printRules(caught: readonly (Result & { kind: 'rule' })[]): boolean {
	out();
	out('Changes of a rule, each caught on any job by one property alone');
	for (const { mutant, says } of caught)
		out(
			`${mutant.property} ${mutant.file} ${mutant.what} → ${says?.slice(0, 120) ?? 'ALIVE, or caught by others too'}`,
		);
	return caught.every(({ says }) => says !== null);
}

/** Files changed and made up by chance, and a disk whose every call fails, in one line each. */
function printFiles(fuzzed: readonly Fuzzed[], failed: readonly Failed[]): boolean {
	const says = fuzzed.flatMap(one => one.says);
	const cases = fuzzed.reduce((total, one) => total + one.cases, 0);
	const by = Object.keys(fuzzed[0]?.by ?? {}).map(
		name => `${name} ${count(fuzzed.reduce((total, one) => total + (one.by[name] ?? 0), 0))}`,
	);
	const verdict = says.length === 0 ? 'holds' : 'FALLS';
	out();
	out(
		`${count(cases)} spoilt files: no reader throws, takes what was changed, or says it otherwise than in plain lines`,
	);
	out(`      ${by.join(', ')}: ${verdict}`);
	for (const line of says.slice(0, 10)) out(`      ${line}`);
	const harms = failed.flatMap(one => one.says);
	const calls = failed.reduce((total, one) => total + one.cases, 0);
	const stands = harms.length === 0 ? 'holds' : 'FALLS';
	out(
		`${count(calls)} calls of a disk that fail while nobody keys, in ${failed.length} states: the day stands and its file is whole: ${stands}`,
	);
	for (const line of harms.slice(0, 10)) out(`      ${line}`);
	return says.length === 0 && harms.length === 0;
}

function printMutants(mutants: readonly Mutant[], caught: readonly (Caught | null)[]): boolean {
	out();
	out(`${mutants.length} mutants: each guard, condition and clearing action deleted or inverted in turn`);
	for (const [index, { file, line, what }] of mutants.entries()) {
		const by = caught[index];
		out(`${file}:${line} ${what} → ${by ? `${by.by} (${by.in}: ${by.says.slice(0, 90)})` : 'ALIVE'}`);
	}
	const alive = caught.filter(one => one === null).length;
	out(`${mutants.length - alive} caught, ${alive} alive`);
	return alive === 0;
}

/** A piece of work that is done, in one line, for whoever waits. */
function lineOf(number: number, result: Result, mutants: readonly Mutant[]): string {
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
		case 'disk':
			return `${result.failed.cases} calls that fail: ${result.failed.says.length} findings`;
		case 'mutant': {
			const mutant = mutants[number - (workOf(mutants).length - mutants.length)];
			return `${mutant?.file}:${mutant?.line} ${mutant?.what}: ${result.caught ? 'caught' : 'ALIVE'}`;
		}
	}
}

async function prove() {
	const began = Date.now();
	const mutants = await mutantsToTry();
	const work = { count: workOf(mutants).length, helpers: availableParallelism(), memory_MB: 6144 };
	const results: Result[] = [];
	const failures: string[] = [];
	const tell = (line: string) => {
		const done = results.filter(Boolean).length + failures.length;
		process.stderr.write(`${done} of ${work.count}: ${line}\n`);
	};
	await sharedOut<Result>(
		fileURLToPath(import.meta.url),
		work,
		(number, result) => {
			results[number] = result;
			tell(lineOf(number, result, mutants));
		},
		(number, error) => {
			failures.push(`work ${number} FAILED: ${error}`);
			tell(failures.at(-1) ?? '');
		},
	);
	const of = <Kind extends Result['kind']>(kind: Kind) =>
		results.filter((one): one is Extract<Result, { kind: Kind }> => one.kind === kind);
	const verdicts = of('walk').map(({ verdict }) => verdict);
	const transcripts = of('transcript').map(({ transcript }) => transcript);
	const tallies = of('erring').map(({ tally }) => tally);
	const table = tableOf(evidence(verdicts, transcripts));
	out(table.text);
	const played = printPlayed(
		of('keys').map(({ keys }) => keys),
		tallies,
		togetherAgreed(of('now').map(({ agreed }) => agreed)),
		togetherJobs(of('any').map(({ any }) => any)),
	);
	const read = printFiles(
		of('readers').map(({ fuzzed }) => fuzzed),
		of('disk').map(({ failed }) => failed),
	);
	const timed = printRight(
		of('right').map(({ right }) => right),
		of('time'),
	);
	const paint = paintProved(
		togetherPaint(of('paint').map(one => one.paint)),
		of('paint mutant'),
		togetherTold(of('told').map(({ told }) => told)),
	);
	for (const line of paint.lines) out(line);
	const ruled = printRules(of('rule'));
	printWalks(verdicts);
	const allCaught = printMutants(
		mutants,
		of('mutant').map(({ caught }) => caught),
	);
	out();
	out('Wrong passes that each list lets through (rates are assumptions: erring/draws.ts)');
	out(talliesAsTable(tallies));
	for (const failure of failures) out(failure);
	const isProven =
		failures.length === 0 && table.holds && played && read && timed && ruled && paint.holds && allCaught;
	const minutes = (Date.now() - began) / 60_000;
	if (isProven && !isQuick) {
		const walks = proofs.flatMap((proof, index) => {
			const verdict = verdicts[index];
			return verdict && largeDays.includes(proof) ? [{ ...verdict, name: proof.name }] : [];
		});
		const erring = { days: erringDays, tallies };
		const figures = { minutes, cores: work.helpers, walks, mutants: mutants.length, erring };
		writeFileSync(figuresFile, figuresText(figures));
	}
	out();
	out(`${minutes.toFixed(1)} min on ${work.helpers} cores: ${isProven ? 'proven' : 'NOT proven'}`);
	process.exitCode = isProven ? 0 : 1;
}

if (isHelper()) {
	const work = mutantsToTry().then(workOf);
	help(async (number): Promise<Result> => {
		const piece = (await work)[number];
		if (!piece) throw new Error(`there is no work ${number}`);
		return piece();
	});
} else await prove();
