import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { asTheyAre } from './machines.ts';
import { allMutants, type Caught, caughtBy } from './mutants.ts';
import type { Mutant } from './mutate.ts';
import { help, isHelper, sharedOut } from './pool.ts';
import { aloneProofs, largeDays, properties, smallDays, type Verdict } from './proofs.ts';
import type { Property } from './properties.ts';

/**
 * Every walk whole, and every mutant: `npm run prove`. The work is shared out among as many copies of this program as
 * there are cores. Exit 1 where a property falls or a mutant lives.
 */

/** The longest first, so that nothing long is left for the end. */
const proofs = [...largeDays.toReversed(), ...smallDays.toReversed(), ...Object.values(aloneProofs)];

type Result = { verdict: Verdict } | { caught: Caught | null };

const out = (line = '') => void process.stdout.write(`${line}\n`);
const count = (value: number) => value.toLocaleString('en').padStart(11);

function printWalks(verdicts: readonly Verdict[]) {
	out(`${'walk'.padEnd(72)}      states transitions     refused   cpu s  verdict`);
	for (const [index, verdict] of verdicts.entries())
		out(
			[
				(proofs[index]?.name ?? '').padEnd(72),
				count(verdict.states),
				count(verdict.transitions),
				count(verdict.refused),
				verdict.seconds.toFixed(1).padStart(7),
				verdict.found.length === 0 ? ' holds' : ' FALLS',
			].join(' '),
		);
}

/** Where a property is decided besides on each edge of every day. */
const alone: Partial<Record<Property, string>> = {
	3: ' and of faces alone',
	9: ' and of checks alone',
	11: ' and of checks alone',
	13: ' and of batches alone',
	14: ' and of faces alone',
};

function printProperties(verdicts: readonly Verdict[]): boolean {
	const sum = (pick: (verdict: Verdict) => number) =>
		verdicts.reduce((total, verdict) => total + pick(verdict), 0);
	const size = `${count(sum(({ states }) => states))} ${count(sum(({ transitions }) => transitions))} ${sum(
		one => one.seconds,
	)
		.toFixed(0)
		.padStart(7)}`;
	const days = smallDays.length + largeDays.length;
	out();
	out(`${'property'.padEnd(79)} ${'how it was checked'.padEnd(44)}      states transitions   cpu s  verdict`);
	let holds = true;
	for (const [key, says] of Object.entries(properties)) {
		const property = Number(key) as Property;
		const found = verdicts.flatMap(({ found: all }, index) =>
			all.filter(one => one.property === property).map(one => ({ ...one, in: proofs[index]?.name })),
		);
		const how =
			property === 7
				? `backwards from every goal of ${days} days`
				: `on each edge of ${days} days${alone[property] ?? ''}`;
		const verdict = found.length === 0 ? ' holds' : ' FALLS';
		out(`${key.padStart(2)} ${says.padEnd(76)} ${how.padEnd(44)} ${size} ${verdict}`);
		for (const one of found) out(`   in ${one.in}: ${one.says}\n      ${one.way.join(' › ')}`);
		holds &&= found.length === 0;
	}
	return holds;
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

async function prove() {
	const began = Date.now();
	const mutants = await allMutants();
	const verdicts: Verdict[] = [];
	const caught: (Caught | null)[] = [];
	const helpers = availableParallelism();
	const work = { count: proofs.length + mutants.length, helpers, memory_MB: 4096 };
	await sharedOut<Result>(fileURLToPath(import.meta.url), work, (number, result) => {
		if ('verdict' in result) verdicts[number] = result.verdict;
		else caught[number - proofs.length] = result.caught;
	});
	printWalks(verdicts);
	const holds = printProperties(verdicts);
	const allCaught = printMutants(mutants, caught);
	const minutes = ((Date.now() - began) / 60_000).toFixed(1);
	out();
	out(`${minutes} min on ${helpers} cores: ${holds && allCaught ? 'proven' : 'NOT proven'}`);
	process.exitCode = holds && allCaught ? 0 : 1;
}

if (isHelper()) {
	const mutants = allMutants();
	help(async (number): Promise<Result> => {
		const proof = proofs[number];
		if (proof) return { verdict: proof.run(asTheyAre) };
		const mutant = (await mutants)[number - proofs.length];
		if (!mutant) throw new Error(`there is no work ${number}`);
		return { caught: await caughtBy(mutant) };
	});
} else await prove();
