import { expect, test } from 'vitest';
import type { Job, Material } from '../../src/job/job.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** The small job with another mixing ratio, and nothing to thin it. */
function mixedAs(ratio: Material['ratio'], more: Partial<Material> = {}): Job {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has a topcoat');
	const coats = { full: { dry_um: 40, reducer_parts: 0 } };
	return {
		...job,
		materials: {
			topcoat: { ...topcoat, ratio, coats, order: ['stir', 'base', 'hardener'], cup: null, ...more },
		},
	};
}
const of50 = () => mixedAs({ by: 'volume', base: 50, hardener: 1 });
const byWeight = () =>
	mixedAs(
		{ by: 'weight', base: 100, hardener: 18 },
		{ density_kg_per_L: { base: 1.2, hardener: 1, reducer: 0.9 } },
	);

type Day = ReturnType<typeof rehearsed>;
const makes = (day: Day, amount: number) => {
	day.toState('mix.begin');
	day.pick('amount');
	day.send(`number ${amount}`);
};
const toPour = (day: Day, component: string) =>
	Number(
		day.until(({ state, say }) => state === 'mix.pour' && say.toLowerCase().startsWith(component)).do[0]?.to,
	);
const foundAs = (day: Day, component: string) =>
	day
		.ofType('batch.poured')
		.filter(one => one.component === component)
		.map(({ found }) => found);

test.each([
	['metric', 300],
	['us', 11.7],
] as const)(
	'a level that has not risen is no pour of hardener, however little of it is wanted: %s',
	(units, amount) => {
		const day = rehearsed({ job: of50(), settings: { units } });
		makes(day, amount);
		const base = toPour(day, 'base');
		const level = toPour(day, 'hardener');
		day.toState('mix.level.hardener');
		day.send(`number ${base}`);
		expect(foundAs(day, 'hardener')).toEqual(['short']);
		expect(day.line().lines.join(' ')).toContain('Pour on');
		day.pick('done');
		day.send(`number ${level}`);
		expect(foundAs(day, 'hardener')).toEqual(['short', 'right']);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	},
);

test('a level that has not risen is no pour of hardener, though so little is wanted that no mark shows it', () => {
	const day = rehearsed({ job: of50(), settings: { units: 'us' } });
	makes(day, 1.7);
	const base = toPour(day, 'base');
	day.toState('mix.level.hardener');
	day.send(`number ${base}`);
	expect(foundAs(day, 'hardener')).toEqual(['short']);
});

test('how far a pour may be off goes by what is poured, not by all that is in the pot', () => {
	const day = rehearsed({ job: byWeight() });
	makes(day, 432);
	const base = toPour(day, 'base');
	const hardener = toPour(day, 'hardener') - base;
	day.toState('mix.level.hardener');
	day.send(`number ${base + Math.round(hardener * 0.89)}`);
	expect(foundAs(day, 'hardener')).toEqual(['short']);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('what is poured on after too little may be off by as much as the whole part', () => {
	const day = rehearsed();
	day.toState('mix.level.base');
	day.send('number 140');
	day.pick('done');
	day.send('number 147');
	expect(foundAs(day, 'base')).toEqual(['short', 'right']);
});

test('a little hardener poured before a break is found, and not taken for the level of before', () => {
	const day = rehearsed({ job: of50() });
	makes(day, 510);
	const base = toPour(day, 'base');
	toPour(day, 'hardener');
	day.send('hold');
	day.pick('back');
	day.send(`number ${base + 4}`);
	expect(day.ofType('batch.found').map(({ found }) => found)).toEqual(['short']);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('after a break with no can in the hand a level read a little off is the level of before', () => {
	const day = rehearsed({ job: of50() });
	makes(day, 510);
	const base = toPour(day, 'base');
	day.until(({ state, say }) => state === 'mix.can' && say.startsWith('Hardener'));
	day.send('hold');
	day.pick('back');
	day.send(`number ${base + 2}`);
	expect(day.ofType('batch.found').map(({ found }) => found)).toEqual(['before']);
});

test('too little for the marks: it is said before the mixing, and the level told is one that can be read', () => {
	const day = rehearsed({ job: of50(), settings: { units: 'us' } });
	expect(day.toState('mix.begin').lines.join(' ')).toMatch(/Hardener: .* fl oz is little for these marks/);
	makes(day, 1.7);
	const base = toPour(day, 'base');
	expect(toPour(day, 'hardener')).toBeGreaterThan(base);
	expect(day.line().lines.join(' ')).toContain('little for these marks');
	day.toState('ready');
	const [batch] = [...day.state().book.batches.values()];
	expect((batch?.amounts.base ?? 0) / (batch?.amounts.hardener ?? 0)).toBeCloseTo(50, -1);
});

test('enough for the marks: nothing is said of them', () => {
	const day = rehearsed();
	expect(day.toState('mix.begin').lines.join(' ')).not.toContain('marks');
	expect(day.toState('mix.pour').lines.join(' ')).not.toContain('marks');
});

test.each([
	[0.1, 'right'],
	[-0.1, 'right'],
	[0.2, 'over'],
	[-0.2, 'short'],
])(
	'hardener of 4 fl oz read %d fl oz off is found %s: one mark beside it, within 5 %%, is as near as an eye reads',
	(off, found) => {
		const day = rehearsed({
			job: mixedAs({ by: 'volume', base: 2, hardener: 1 }),
			settings: { units: 'us' },
		});
		makes(day, 12);
		const level = toPour(day, 'hardener');
		day.toState('mix.level.hardener');
		day.send(`number ${(level + off).toFixed(1)}`);
		expect(foundAs(day, 'hardener')).toEqual([found]);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	},
);
