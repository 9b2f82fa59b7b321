import { writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { addedUp } from './added-up.ts';
import { noAnswers } from './any-answers/interviews.ts';
import { noJobs } from './any-job/proof.ts';
import { noneTold } from './as-told/days.ts';
import { tableOf as talliesAsTable } from './erring/days.ts';
import { tableOf } from './evidence.ts';
import { figuresFile, figuresText } from './figures.ts';
import { keptPieces, sumOf, sumOfProgram } from './kept-pieces.ts';
import { noneAgreed } from './now-and-day.ts';
import { noPaint } from './one-paint/days.ts';
import { paintProved } from './one-paint/proved.ts';
import { erringDays, isQuick, lineOf, mutantsToTry, proofs, type Result, workOf } from './pieces.ts';
import { help, isHelper, sharedOut } from './pool.ts';
import { largeDays } from './proofs.ts';
import {
	evidence,
	out,
	printAnswers,
	printFiles,
	printMutants,
	printPlayed,
	printRight,
	printRules,
	printWalks,
} from './proved.ts';

/**
 * Every walk whole, every transcript, every key, every mutant: `npm run prove`. The work is shared out among as many
 * copies of this program as there are cores; a run that was stopped is gone on with, unless a file that it rests on is another:
 * walks and mutants rest on the charts and on themselves alone.
 * Exit 1 where a property falls, a mutant lives, or a painter sprays unchecked. `QUICK=1` leaves out the largest days and
 * most of the rest, to see the table; a whole run in which everything holds keeps its figures.
 */

/** What a piece rests on, besides this program as bundled: mutants and lists are read from their files. */
const restsOn = ['machines', 'src', 'checklists', 'package-lock.json'];
/** … and a walk, or a mutant put through the walks. */
const walks = { program: 'tests/model/mutants.ts', restOn: ['machines', 'package-lock.json'] };

/** A piece that was done, and how long it took. */
type Done = { result: Result; took_s: number };

async function prove() {
	const mutants = await mutantsToTry();
	const program = fileURLToPath(import.meta.url);
	const pieces = [...workOf(mutants).keys()];
	const helpers = availableParallelism();
	const keptUnder = (sum: string) => keptPieces<Done>(dirname(program), `${isQuick ? 'quick-' : ''}${sum}`);
	const kept = {
		walks: keptUnder(`walks-${sumOfProgram(walks.program, walks.restOn)}`),
		rest: keptUnder(sumOf([program, ...restsOn])),
	};
	const isMutant = (number: number) => number >= pieces.length - mutants.length;
	/** Where a piece is kept, by which number: mutants are counted from the end, whatever is played before them. */
	const placeOf = (number: number) => {
		const isWalked = number < proofs.length || isMutant(number);
		return {
			at: isWalked ? kept.walks : kept.rest,
			as: isMutant(number) ? number - pieces.length : number,
		};
	};
	const done: Done[] = [];
	for (const number of pieces) {
		const { at, as } = placeOf(number);
		const one = at.done.get(as);
		if (one) done[number] = one;
	}
	const left = pieces.filter(number => done[number] === undefined);
	/** The mutants first: where one lives, the rest need not be waited for. */
	const numbers = [...left.filter(isMutant), ...left.filter(number => !isMutant(number))];
	const failures: string[] = [];
	const tell = (line: string) => {
		const count = done.filter(Boolean).length + failures.length;
		process.stderr.write(`${count} of ${pieces.length}: ${line}\n`);
	};
	if (left.length < pieces.length) tell('taken as they were, from runs before this one');
	await sharedOut<Done>(
		program,
		{ numbers, helpers, memory_MB: 6144 },
		(number, one) => {
			done[number] = one;
			const { at, as } = placeOf(number);
			at.keep(as, one);
			tell(lineOf(number, one.result, mutants));
		},
		(number, error) => {
			failures.push(`work ${number} FAILED: ${error}`);
			tell(failures.at(-1) ?? '');
		},
	);
	const results = done.map(({ result }) => result);
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
	const answered = printAnswers(
		addedUp(
			noAnswers,
			of('answers').map(({ answers }) => answers),
		),
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
		failures.length === 0 &&
		table.holds &&
		played &&
		read &&
		answered &&
		timed &&
		ruled &&
		paint.holds &&
		allCaught;
	const minutes = done.reduce((sum, { took_s }) => sum + took_s, 0) / 60 / helpers;
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
	help(async (number): Promise<Done> => {
		const piece = (await work)[number];
		if (!piece) throw new Error(`there is no work ${number}`);
		const began = performance.now();
		const result = await piece();
		return { result, took_s: (performance.now() - began) / 1000 };
	});
} else await prove();
