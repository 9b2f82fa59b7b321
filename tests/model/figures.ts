import { count } from './added-up.ts';
import { type Tally, tableOf } from './erring/days.ts';
import type { Size } from './proofs.ts';

/** What the last whole run of `npm run prove` came to: the only place where its figures stand. */

export const figuresFile = 'tests/model/figures.md';

export type Figures = {
	minutes: number;
	cores: number;
	/** The large days. */
	walks: readonly ({ name: string } & Pick<Size, 'states' | 'seconds'>)[];
	/** Mutants put to the proofs: every one of them was caught. */
	mutants: number;
	erring: { days: number; tallies: readonly Tally[] };
};

/** The figures in Markdown. */
export const figuresText = ({ minutes, cores, walks, mutants, erring }: Figures): string => `# What was proved

Written by a whole run of \`npm run prove\` in which everything held: ${minutes.toFixed(1)} min on ${cores} cores.

| the largest days walked whole | states | CPU, s |
| --- | ---: | ---: |
${walks.map(({ name, states, seconds }) => `| ${name} | ${count(states)} | ${seconds.toFixed(0)} |`).join('\n')}

${count(mutants)} mutants, each caught.

## What guards against whom

${count(erring.days)} days of a small job (3 faces × 2 coats) before each list, played by a painter who errs, with the same seeds
and the same slips. No face was sprayed unchecked in any of the day files. Wrong passes that were let through:

${tableOf(erring.tallies)}

*Turned since*: somebody turned the cap after the last time anything asked for it; no check can see that. *Stopped*: readings
in a check that differed. *Shown*: what a check would do that shows the wanted answer. Every rate behind it is an assumption
(\`erring/draws.ts\`), none is measured. It shows what each list *cannot* catch, not how many parts the guard saves in a shop, nor
by how much cards beat patterns: slips are drawn independently, and nobody in it grows tired, learns the questions or cheats.
`;
