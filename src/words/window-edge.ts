import type { Window } from '../job/job.ts';
import { clockOn } from './clock.ts';

/** A recoat window that opens, or one that is open and closes: what it lets be done, and what follows it. */
export type WindowEdge = {
	code: 'opens' | 'closes';
	/** ms since 1970. */
	due: number;
	does: Window;
	follows: Window;
};

const work = (does: Window): string => (does === 'spray' ? 'next coat' : does);

/**
 * An edge as it is said, with its time of day: `next coat from 09:03`, `sand until 17:00, then wait`.
 * @param at the moment it is said at, ms: a time of another day has its date
 */
export function edgeSaid({ code, due, does, follows }: WindowEdge, at: number, zone: string): string {
	const time = clockOn(due, at, zone);
	return code === 'opens'
		? `${work(does)} from ${time}`
		: `${work(does)} until ${time}, then ${work(follows)}`;
}
