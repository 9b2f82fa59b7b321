import { expect, test } from 'vitest';
import { unsureOf } from '../../src/film/learning.ts';
import { quantile } from '../../src/film/normal.ts';
import { enoughFor_mL, noUse, unsureAt, withUse } from '../../src/film/odds.ts';
import { faces, inch_mm, setting, shape, sprayed, ten } from './world.ts';

/** Even numbers in 0…1, the same in every run: a linear congruence, from memory. */
function drawn(seed: number): () => number {
	let state = seed >>> 0;
	return () => {
		state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
		return (state + 0.5) / 2 ** 32;
	};
}

const days = 20_000;

/** Share of days on which a batch runs short inside some face of its row. */
function shortDays(
	uses: readonly number[],
	batch_mL: number,
	common: number,
	own: number,
	seed: number,
): number {
	const draw = drawn(seed);
	let short = 0;
	for (let day = 0; day < days; day++) {
		const shared = Math.exp(common * quantileOf(draw()));
		let used = 0;
		for (const use of uses) used += use * shared * Math.exp(own * quantileOf(draw()));
		if (used > batch_mL) short += 1;
	}
	return short / days;
}

/** The same to four figures, from a table: twenty thousand days ask it often. */
const steps = 4096;
const table = Array.from({ length: steps }, (_, at) => quantile((at + 0.5) / steps));
const quantileOf = (share: number): number => table[Math.floor(share * steps)] ?? 0;

test.each([
	[
		'the ten faces of the example',
		ten.map(name => sprayed(shape(faces[name][0] * inch_mm, faces[name][1] * inch_mm)).emitted_mL),
		0.05,
	],
	[
		'two faces, a gun that nobody measured',
		[60, 20].map(high => sprayed(shape(600, high * 10), setting({ transfer: 0.5 })).emitted_mL),
		0.1,
	],
	['one face', [90], 0.05],
] as const)(
	'%s: a painter who sprays as told runs short inside a face as often as the risk says',
	(_, uses, tolerance) => {
		const common = unsureOf(tolerance === 0.1 ? 0.5 : 0.65, tolerance);
		const risk = 0.02;
		const batch = enoughFor_mL(uses.reduce(withUse, noUse), unsureAt(common, risk));
		const error = Math.sqrt((risk * (1 - risk)) / days);
		expect(Math.abs(shortDays(uses, batch, common, 0.1, 42) - risk)).toBeLessThan(3 * error);
	},
);
