import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { allMutants, caughtBy, files } from './mutants.ts';
import { applied, mutantsOf } from './mutate.ts';
import { smallDays } from './proofs.ts';

/** The checks checked, on a sample; `npm run prove` puts every mutant through every walk. */

const mutants = await allMutants();
const sampled = mutants.filter((_, index) => index % 36 === 7);
const named = sampled.map(mutant => [`${mutant.file}:${mutant.line} ${mutant.what}`, mutant] as const);

test.each(named)(
	'a property catches %s',
	async (_, mutant) => {
		expect(await caughtBy(mutant)).not.toBeNull();
	},
	600_000,
);

test('machines with nothing changed in them are caught by nothing', async () => {
	const unchanged = { file: 'day.ts', line: 1, what: 'nothing', from: 0, to: 0, text: '' };
	expect(await caughtBy(unchanged, smallDays.slice(0, 3))).toBeNull();
});

test('each named guard of each machine is inverted, and left out wherever it is used', () => {
	for (const file of files) {
		const source = readFileSync(`machines/${file}`, 'utf8');
		if (!source.includes('createMachine(')) continue;
		const made = mutantsOf(file, source);
		const named = source.slice(source.indexOf('guards: {'), source.indexOf('actions: {'));
		const names = [...named.matchAll(/^\t\t(\w+)[:,]/gm)].map(([, name]) => name);
		expect(names.length).toBeGreaterThan(0);
		for (const name of names)
			expect(
				made.some(({ what }) => what.startsWith('guard inverted') && what.includes(`: ${name}`)),
				`${file} ${name}`,
			).toBe(true);
		const used = [...source.matchAll(/\bguard: /g)].length;
		expect(made.filter(({ what }) => what.startsWith('guard left out')).length).toBe(used);
	}
});

test('a mutant changes its one place and nothing else', () => {
	for (const mutant of sampled) {
		const source = readFileSync(`machines/${mutant.file}`, 'utf8');
		const changed = applied(source, mutant);
		expect(changed).not.toBe(source);
		expect(changed.slice(0, mutant.from)).toBe(source.slice(0, mutant.from));
		expect(changed.endsWith(source.slice(mutant.to))).toBe(true);
	}
});
