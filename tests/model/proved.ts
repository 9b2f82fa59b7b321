import type { Failed } from '../day/each-call.ts';
import { addedUp, count } from './added-up.ts';
import { neverAnswered } from './any-answers/by-chance.ts';
import type { AnyAnswers } from './any-answers/interviews.ts';
import type { AnyJobs } from './any-job/proof.ts';
import type { Tally } from './erring/days.ts';
import { type Evidence, walked } from './evidence.ts';
import type { Caught } from './mutants.ts';
import type { Mutant } from './mutate.ts';
import type { Agreed } from './now-and-day.ts';
import { days, erringDays, type Keys, proofs, type Result } from './pieces.ts';
import { properties, type Verdict } from './proofs.ts';
import type { Property } from './properties.ts';
import type { Fuzzed } from './readers/fuzz.ts';
import { noneRight, type Right } from './right-clocks/days.ts';
import { evidenceOf, noLines, type Transcript } from './transcript.ts';

/** What a proof says at its end, a section each; true where it holds. */

export const out = (line = '') => void process.stdout.write(`${line}\n`);

export function printWalks(verdicts: readonly Verdict[]) {
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

export function evidence(verdicts: readonly Verdict[], transcripts: readonly Transcript[]): Evidence[] {
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
		...evidenceOf(addedUp(noLines, transcripts)),
	];
}

/** Random keys, a painter who errs, and `now` beside the day, in one line each beside the properties. */
export function printPlayed(
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
export function printRight(
	rights: readonly Right[],
	caught: readonly (Result & { kind: 'time' })[],
): boolean {
	const sum = addedUp(noneRight, rights);
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
export function printRules(caught: readonly (Result & { kind: 'rule' })[]): boolean {
	out();
	out('Changes of a rule, each caught on any job by one property alone');
	for (const { mutant, says } of caught)
		out(
			`${mutant.property} ${mutant.file} ${mutant.what} → ${says?.slice(0, 120) ?? 'ALIVE, or caught by others too'}`,
		);
	return caught.every(({ says }) => says !== null);
}

/** Files changed and made up by chance, and a disk whose every call fails, in one line each. */
export function printFiles(fuzzed: readonly Fuzzed[], failed: readonly Failed[]): boolean {
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

/** Sheets that were asked for, whatever was answered, in one line; and the ways that nobody took. */
export function printAnswers({ interviews, questions, sheets, ways, says }: AnyAnswers): boolean {
	const never = neverAnswered(new Set(ways)).map(way => `never answered: ${way}`);
	const wrong = [...says, ...never];
	out();
	out(
		`${count(sheets)} sheets that the questions made pass check: ${count(interviews)} interviews, ${count(questions)} answers, ${count(new Set(ways).size)} ways of answering: ${wrong.length === 0 ? 'holds' : 'FALLS'}`,
	);
	for (const line of wrong.slice(0, 10)) out(`      ${line}`);
	return wrong.length === 0;
}

export function printMutants(mutants: readonly Mutant[], caught: readonly (Caught | null)[]): boolean {
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
