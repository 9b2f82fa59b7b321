import type { Question } from '../../../src/job/asking/question.ts';
import type { Answerer } from '../../job/asking/answered.ts';
import type { Chance } from '../keys/chance.ts';
import { chosen, films, typed } from './typed.ts';

/** Answers by chance, from the choices that a question gives and from what people type; of the program's rules it knows none. */

const useless = 'something else';

/** Every way to answer a question, those first that can be used. */
const waysOf = (kind: string, { choices = [], offered }: Question): readonly string[] => [
	...(offered === undefined ? [] : ['']),
	...choices,
	...choices.map((_, nth) => String(nth + 1)).slice(0, 2),
	...(kind === 'films' ? films : (typed[kind] ?? [])),
	...(offered === undefined ? [''] : []),
	...(choices.length > 0 ? [useless] : []),
	'back',
];

const written = (kind: string, way: string): string => `${kind}: ${way}`;

/** Ways that nobody has taken, of every question there is. */
export function neverAnswered(ways: ReadonlySet<string>): string[] {
	const all = [...Object.entries({ ...typed, films }), ...Object.entries(chosen)];
	const needed = all.flatMap(([kind, its]) =>
		[...its, '', 'back', ...(kind in chosen ? ['1', useless] : [])].map(way => written(kind, way)),
	);
	return [...new Set(needed)].filter(way => !ways.has(way));
}

/** Put at the end alone, so that a way not taken yet is taken then. */
const lateKinds = ['more coats', 'prep', 'change', 'write'];
/** After so many questions an interview is brought to its end. */
const longEnough = 60;

/**
 * Answers by chance: a way that was never taken before, or one of the first, which are the usable ones. From what was
 * refused too often it goes back, further each time.
 * @param ways taken so far; those taken are added
 */
export function byChance(chance: Chance, ways: Set<string>): Answerer {
	let [count, backs, refusals] = [0, 0, 0];
	let isOnSheet = false;
	return (question, tries) => {
		count++;
		if (backs-- > 0) return 'back';
		if (tries > 5) backs = 2 * ++refusals;
		if (tries > 5) return 'back';
		if (question.question === 'ratio') isOnSheet = true;
		if (question.question === 'isocyanate') isOnSheet = false;
		const kind = question.question === 'coats' && isOnSheet ? 'films' : question.question;
		const all = waysOf(kind, question);
		const fresh = all.find(one => !ways.has(written(kind, one)));
		const isLate =
			count > longEnough && (fresh === undefined || !lateKinds.includes(kind) || count > 3 * longEnough);
		if (isLate && (question.may || (kind === 'write' && question.offered))) return '';
		const isFresh = lateKinds.includes(kind) || (!isLate && chance.next() < 0.6);
		if (question.may && fresh === undefined && chance.next() < 0.4) return '';
		const isNew = kind.startsWith('new ') && chance.next() < 0.2;
		const given = isNew
			? `satin ${count}`
			: ((isFresh ? fresh : undefined) ?? all[Math.floor(chance.next() ** 5 * all.length)] ?? '');
		ways.add(written(kind, given));
		return given;
	};
}
