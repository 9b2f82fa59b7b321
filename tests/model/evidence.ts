import { count } from './added-up.ts';
import { cases } from './at-stake.ts';
import { properties, type Verdict } from './proofs.ts';
import type { Property } from './properties.ts';

/** What `npm run prove` prints of the properties: for each, everything that decided it, over how much, and what came of it. */

export type Numbered = Property | 10 | 12 | 19 | 22;

/** One thing that decides some properties: how, over how much, and what it found against them. */
export type Evidence = {
	for: readonly Numbered[];
	how: string;
	size: string;
	found: readonly { property: Numbered; says: string }[];
};

export const says: Readonly<Record<Numbered, string>> = {
	...properties,
	10: 'the wanted reading on no screen before it is keyed; what is instructed is not read',
	12: 'the same log gives the same state, on any machine, in any time zone',
	19: 'minutes of silence are a break; no dust beside a wet coat or a checked gun',
	22: 'no batch that cannot live, or whose parts the marks do not give',
};

/** What walks say of a property: how often it was put to the test in them, and where it fell. */
export function walked(
	property: Property,
	walks: readonly { name: string; verdict: Verdict }[],
	alone: boolean,
): Evidence {
	const judged = walks.reduce((sum, { verdict }) => sum + (verdict.judged[property] ?? 0), 0);
	const sum = (pick: (verdict: Verdict) => number) =>
		walks.reduce((total, { verdict }) => total + pick(verdict), 0);
	const states = `${count(sum(one => one.states))} states`;
	const what = alone
		? `${states}, ${count(judged)} cases`
		: property === 7
			? `${states} searched backwards, ${count(judged)} ${cases[7]}`
			: `${count(judged)} ${cases[property]}`;
	return {
		for: [property],
		how: alone
			? `search: ${walks.map(({ name }) => name).join(', ')} alone, whole`
			: property === 7
				? `search: ${walks.length} days, whole, backwards from every goal`
				: `search: every edge of ${walks.length} days, whole`,
		size: what,
		found: walks.flatMap(({ name, verdict }) =>
			verdict.found
				.filter(one => one.property === property)
				.map(({ says: text, way }) => ({ property, says: `${name}: ${text} — ${way.join(' › ')}` })),
		),
	};
}

/** The table of the properties, in the order of their numbers, and whether all of them hold. */
export function tableOf(evidence: readonly Evidence[]): { text: string; holds: boolean } {
	const lines = [
		`${'property'.padEnd(86)} ${'how it was checked'.padEnd(62)} ${'size of the search'.padEnd(72)} verdict`,
	];
	let holds = true;
	for (const property of Object.keys(says).map(Number)) {
		const key = property as Numbered;
		const own = evidence.filter(one => one.for.includes(key));
		const wrong = own.flatMap(({ found }) => found.filter(one => one.property === key));
		const fails = wrong.length > 0 || own.length === 0;
		holds &&= !fails;
		const rows = own.length > 0 ? own : [{ how: 'nothing decided it', size: '', found: [] }];
		for (const [index, { how, size, found }] of rows.entries()) {
			const falls = own.length === 0 || found.some(one => one.property === key);
			const name = index === 0 ? `${String(property).padStart(2)} ${says[key]}` : '';
			lines.push(`${name.padEnd(86)} ${how.padEnd(62)} ${size.padEnd(72)} ${falls ? 'FALLS' : 'holds'}`);
		}
		for (const { says: text } of wrong.slice(0, 5)) lines.push(`      ${text}`);
	}
	return { text: lines.join('\n'), holds };
}
