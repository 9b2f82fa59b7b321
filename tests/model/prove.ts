import { writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { addedUp } from './added-up.ts';
import { noJobs } from './any-job/proof.ts';
import { noneTold } from './as-told/days.ts';
import { tableOf as talliesAsTable } from './erring/days.ts';
import { tableOf } from './evidence.ts';
import { figuresFile, figuresText } from './figures.ts';
import { keptPieces, sumOf } from './kept-pieces.ts';
import { noneAgreed } from './now-and-day.ts';
import { noPaint } from './one-paint/days.ts';
import { paintProved } from './one-paint/proved.ts';
import { erringDays, isQuick, lineOf, mutantsToTry, proofs, type Result, workOf } from './pieces.ts';
import { help, isHelper, sharedOut } from './pool.ts';
import { largeDays } from './proofs.ts';
import {
	evidence,
	out,
	printFiles,
	printMutants,
	printPlayed,
	printRight,
	printRules,
	printWalks,
} from './proved.ts';

/**
 * Every walk whole, every transcript, every key, every mutant: `npm run prove`. The work is shared out among as many
 * copies of this program as there are cores; a run that was stopped is gone on with, unless a file that it rests on is another.
 * Exit 1 where a property falls, a mutant lives, or a painter sprays unchecked. `QUICK=1` leaves out the largest days and
 * most of the rest, to see the table; a whole run in which everything holds keeps its figures.
 */

/** What a piece rests on, besides this program as bundled: mutants and lists are read from their files. */
const restsOn = ['machines', 'src', 'checklists', 'package-lock.json'];

async function prove() {
	const began = Date.now();
	const mutants = await mutantsToTry();
	const program = fileURLToPath(import.meta.url);
	const kept = keptPieces<Result>(
		dirname(program),
		`${isQuick ? 'quick-' : ''}${sumOf([program, ...restsOn])}`,
	);
	const pieces = [...workOf(mutants).keys()];
	const left = pieces.filter(number => !kept.done.has(number));
	/** The mutants first: where one lives, the rest need not be waited for. */
	const isMutant = (number: number) => number >= pieces.length - mutants.length;
	const numbers = [...left.filter(isMutant), ...left.filter(number => !isMutant(number))];
	const helpers = availableParallelism();
	const took_min = () => kept.minutes + (Date.now() - began) / 60_000;
	const results: Result[] = [];
	const failures: string[] = [];
	for (const [number, result] of kept.done) results[number] = result;
	const tell = (line: string) => {
		const done = results.filter(Boolean).length + failures.length;
		process.stderr.write(`${done} of ${pieces.length}: ${line}\n`);
	};
	if (kept.done.size > 0) tell('taken as they were, from a run that was stopped');
	await sharedOut<Result>(
		program,
		{ numbers, helpers, memory_MB: 6144 },
		(number, result) => {
			results[number] = result;
			kept.keep(number, result, took_min());
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
		addedUp(
			noneAgreed,
			of('now').map(({ agreed }) => agreed),
		),
		addedUp(
			noJobs,
			of('any').map(({ any }) => any),
		),
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
		addedUp(
			noPaint,
			of('paint').map(one => one.paint),
		),
		of('paint mutant'),
		addedUp(
			noneTold,
			of('told').map(({ told }) => told),
		),
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
	const minutes = took_min();
	if (isProven && !isQuick) {
		const walks = proofs.flatMap((proof, index) => {
			const verdict = verdicts[index];
			return verdict && largeDays.includes(proof) ? [{ ...verdict, name: proof.name }] : [];
		});
		const erring = { days: erringDays, tallies };
		const figures = { minutes, cores: helpers, walks, mutants: mutants.length, erring };
		writeFileSync(figuresFile, figuresText(figures));
	}
	out();
	out(`${minutes.toFixed(1)} min on ${helpers} cores: ${isProven ? 'proven' : 'NOT proven'}`);
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
