import type { Proof } from '../proof.ts';
import { daysOf, type Tally, tableOf, ways } from './days.ts';

const withGuard = ['patterns', 'cards', 'shown'];

/**
 * Days of an erring painter, the same slips before every kind of list.
 * @param days of each way, at least 1
 * @returns fails where a face was sprayed unchecked; what wrong passes each way let through is said beside it, and proves nothing
 */
export function proveErring(days: number): Proof & { tallies: Tally[] } {
	const tallies = ways.map(way => daysOf(way, days));
	const findings = tallies.flatMap(({ findings: found }) => found);
	const guarded = tallies.filter(({ way }) => withGuard.includes(way));
	const keys = guarded.reduce((sum, tally) => sum + tally.keys, 0);
	const passes = guarded.reduce((sum, tally) => sum + tally.passes, 0);
	return {
		property: 'no face is sprayed unchecked by a painter who errs',
		how: 'every day file read by the checker; the same seeds and slips for every way',
		size: `${days} days a way, ${passes} passes and ${keys} keys with the guard`,
		verdict: findings.length === 0 ? 'holds' : 'fails',
		says: [...findings.slice(0, 10), ...tableOf(tallies).split('\n')],
		tallies,
	};
}
