import { expect, test } from 'vitest';
import { causesOf } from '../../src/trace/faults.ts';
import { trace } from '../../src/trace/trace.ts';
import { slow } from './brute-force.ts';
import { builtIn } from './built-in.ts';
import { random } from './generator/random.ts';
import { wildDays } from './random-days.ts';

const traced = Object.entries(builtIn.faults).filter(([, fault]) => fault.trace);
const line = (one: { code: string; from: number; to: number; exposed: string[] }) =>
	`${one.code} ${one.from} ${one.to} ${[...new Set(one.exposed)].sort().join(' ')}`;

function compare(seed: number): number {
	const days = wildDays(seed);
	const rng = random(seed + 7_000_000);
	const laid = days.flat().filter(record => record.type === 'face.started');
	if (laid.length === 0) return 0;
	const { face, coat } = rng.pick(laid);
	const [name, fault] = rng.pick(traced);
	const found = trace({ days, fault: name, face, coat }, builtIn);
	const under = fault.reach === 'under';
	const wanted = slow(days, { face, coat, under, codes: causesOf(fault) });
	const doubts = found.doubts.map(doubt => ({
		code: doubt.code,
		from: Date.parse(doubt.from),
		to: Date.parse(doubt.to),
		exposed: doubt.exposed.map(spot => `${spot.face}#${spot.coat}`),
	}));
	const asLine = `seed ${seed} ${name} ${face} ${coat}`;
	expect(doubts.map(line).sort(), asLine).toEqual(
		wanted.map(one => line({ ...one, from: Math.trunc(one.from) })).sort(),
	);
	const mine = laid.filter(one => one.face === face && (one.coat === coat || (under && one.coat < coat)));
	const union = new Set([
		...wanted.flatMap(one => one.exposed),
		...mine.map(one => `${one.face}#${one.coat}`),
	]);
	expect(found.exposed.map(spot => `${spot.face}#${spot.coat}`).sort(), asLine).toEqual([...union].sort());
	const lead = doubts.find(one => one.code === found.candidates[0]?.code);
	expect(found.candidates.length === 0 || lead !== undefined, asLine).toBe(true);
	return 1;
}

test('bracket and exposed list are those of a brute-force computation on 2,000 random jobs', () => {
	let compared = 0;
	for (let seed = 1; seed <= 2000; seed++) compared += compare(seed);
	expect(compared).toBeGreaterThan(1950);
});
