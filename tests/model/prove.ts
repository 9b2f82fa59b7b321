import { availableParallelism } from 'node:os';
import { asTheyAre } from './machines.ts';
import { allMutants, caughtBy } from './mutants.ts';
import { aloneProofs, largeDays, type Proof, properties, smallDays, type Verdict } from './proofs.ts';
import type { Property } from './properties.ts';

/** Every walk whole, and every mutant: `npm run prove`. Exit 1 where a property falls or a mutant lives. */

const out = (line = '') => void process.stdout.write(`${line}\n`);
const count = (value: number) => value.toLocaleString('en').padStart(11);

type Done = { proof: Proof; verdict: Verdict };

const row = ({ proof, verdict }: Done) =>
	[
		proof.name.padEnd(72),
		count(verdict.states),
		count(verdict.transitions),
		count(verdict.refused),
		verdict.seconds.toFixed(1).padStart(7),
		verdict.found.length === 0 ? '  holds' : '  FALLS',
	].join(' ');

function walkAll(): Done[] {
	out(`${'walk'.padEnd(72)}      states transitions     refused     cpu s  verdict`);
	return [...Object.values(aloneProofs), ...smallDays, ...largeDays].map(proof => {
		const done = { proof, verdict: proof.run(asTheyAre) };
		out(row(done));
		return done;
	});
}

/** Where each property is decided: on each edge of every day, and by some charts alone. */
const alone: Partial<Record<Property, string>> = {
	3: ', face alone',
	9: ', gun check alone',
	11: ', gun check alone',
	13: ', batch alone',
	14: ', face alone',
};

function table(done: readonly Done[]): boolean {
	const sum = (pick: (verdict: Verdict) => number) =>
		done.reduce((total, { verdict }) => total + pick(verdict), 0);
	const size = `${count(sum(({ states }) => states))} ${count(sum(({ transitions }) => transitions))}`;
	const seconds = sum(one => one.seconds).toFixed(0);
	out();
	out(
		`${'property'.padEnd(84)} how checked                                   states transitions  cpu s  verdict`,
	);
	let holds = true;
	for (const [key, says] of Object.entries(properties)) {
		const property = Number(key) as Property;
		const found = done.flatMap(({ proof, verdict }) =>
			verdict.found.filter(one => one.property === property).map(one => ({ ...one, in: proof.name })),
		);
		const how =
			property === 7
				? 'backwards from each goal'
				: `each edge of ${smallDays.length + largeDays.length} days${alone[property] ?? ''}`;
		out(
			`${key.padStart(2)} ${says.padEnd(81)} ${how.padEnd(40)} ${size} ${seconds.padStart(6)}  ${found.length === 0 ? 'holds' : 'FALLS'}`,
		);
		for (const one of found) out(`   in ${one.in}: ${one.says}\n      ${one.way.join(' › ')}`);
		holds &&= found.length === 0;
	}
	return holds;
}

async function mutants(): Promise<boolean> {
	const all = await allMutants();
	out();
	out(`${all.length} mutants: each guard, condition and clearing action deleted or inverted`);
	let alive = 0;
	for (const mutant of all) {
		const caught = await caughtBy(mutant);
		if (caught === null) alive++;
		const by = caught === null ? 'ALIVE' : `${caught.by} (${caught.in})`;
		out(`${mutant.file}:${mutant.line} ${mutant.what} → ${by}`);
	}
	out(`${all.length - alive} caught, ${alive} alive`);
	return alive === 0;
}

const began = Date.now();
const holds = table(walkAll());
const caught = await mutants();
out();
out(
	`${((Date.now() - began) / 60_000).toFixed(1)} min on ${availableParallelism()} cores: ${holds && caught ? 'proven' : 'NOT proven'}`,
);
process.exitCode = holds && caught ? 0 : 1;
