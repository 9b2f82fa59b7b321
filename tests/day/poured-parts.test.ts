import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Job, Material } from '../../src/job/job.ts';
import { planDay } from '../../src/plan/day-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
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
	makes(day, 2.04);
	day.pick('finer');
	day.pick('syringe');
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
	makes(day, 5.1);
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

/** A small job that wants little paint at a time. */
const small = (ratio: Material['ratio'], reducer_parts: number, more: Partial<Material> = {}) => {
	const thinned = reducer_parts > 0 ? (['reducer'] as const) : [];
	const job = mixedAs(ratio, {
		...more,
		coats: { full: { dry_um: 40, reducer_parts } },
		order: ['stir', 'base', 'hardener', ...thinned],
	});
	const faces = job.faces.map(face => ({
		...face,
		coats: face.coats.map(coat => ({ ...coat, volume_mL: 12 })),
	}));
	return { ...job, faces };
};
const tenToOne = () => small({ by: 'volume', base: 10, hardener: 1 }, 0.55);

/** The share by which hardener differs from what the base in the pot wants, and reducer from what both do. */
const partsOff = (day: Day) => {
	const batch = [...day.state().book.batches.values()].at(-1);
	const { base = 0, hardener = 0, reducer = 0 } = batch?.amounts ?? {};
	const { ratio = { base: 1, hardener: 0, reducer: 0 } } = batch ?? {};
	const thinner = ((base + hardener) * ratio.reducer) / (ratio.base + ratio.hardener);
	return {
		hardener: Math.abs(hardener / ((base * ratio.hardener) / ratio.base) - 1),
		reducer: thinner === 0 ? 0 : Math.abs(reducer / thinner - 1),
	};
};

const density_kg_per_L = { base: 1.4, hardener: 1, reducer: 0.87 };
test.each([
	['us', { by: 'volume', base: 10, hardener: 1 }, 0.55, {}],
	['us', { by: 'volume', base: 4, hardener: 1 }, 1, {}],
	['us', { by: 'volume', base: 50, hardener: 1 }, 0, {}],
	['metric', { by: 'volume', base: 10, hardener: 1 }, 0.55, {}],
	['metric', { by: 'volume', base: 100, hardener: 1 }, 0, {}],
	['metric', { by: 'weight', base: 100, hardener: 3 }, 0, { density_kg_per_L }],
	['us', { by: 'weight', base: 100, hardener: 18 }, 15, { density_kg_per_L }],
] as const)(
	'the mix offered, poured to the marks told, is right, and has its parts within 5 %%: %s, %o and %d',
	(units, ratio, reducer, more) => {
		// The bound is the project's own: no source.
		const day = rehearsed({ job: small(ratio, reducer, more), settings: { units } });
		day.toState('ready');
		expect(new Set(day.ofType('batch.poured').map(({ found }) => found))).toEqual(new Set(['right']));
		expect(partsOff(day).hardener).toBeLessThanOrEqual(0.05 + 1e-9);
		expect(partsOff(day).reducer).toBeLessThanOrEqual(0.05 + 1e-9);
		expect(day.findings()).toEqual([]);
	},
);

test('half a mark beside the level is not right where that is over 5 % of its part', () => {
	const day = rehearsed({ job: tenToOne(), settings: { units: 'us' } });
	makes(day, 8.1);
	day.toState('mix.level.hardener');
	day.send('number 7.65');
	expect(foundAs(day, 'hardener')).toEqual(['short']);
	expect(day.line().lines[0]).toBe('Read 7.65 fl oz. Wanted 7.7 fl oz. Pour on.');
});

test('an amount whose parts the marks cannot give is not mixed: the least from there on is offered', () => {
	const day = rehearsed({ job: tenToOne(), settings: { units: 'us' } });
	makes(day, 1.7);
	expect(day.line()).toMatchObject({
		state: 'mix.marks',
		say: 'Pot: its marks cannot give the parts of 1.7 fl oz.',
		lines: ['From there on they give 8.1 fl oz.'],
	});
	expect(day.ofType('batch.started')).toEqual([]);
	day.pick('mix');
	expect(day.ofType('batch.started').map(({ make_mL }) => (make_mL / 29.5735).toFixed(2))).toEqual(['8.10']);
});

test('less is mixed under a reason, by finer marks: what is sprayed from it is marked, and no part is further off', () => {
	const day = rehearsed({ job: tenToOne(), settings: { units: 'us' } });
	makes(day, 1.7);
	day.pick('finer');
	expect(day.ofType('batch.started')).toEqual([]);
	day.pick('syringe');
	expect(day.ofType('override.given').map(({ rule, reason, batch }) => [rule, reason, batch])).toEqual([
		['marks', 'measured with a syringe', 'A'],
	]);
	expect(toPour(day, 'base')).toBe(1.47);
	expect(toPour(day, 'hardener')).toBe(1.62);
	day.toAsk('spraying');
	expect(day.ofType('face.started').map(({ overrides }) => overrides)).toEqual([['marks']]);
	expect(partsOff(day).hardener).toBeLessThan(0.05);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a base poured over leaves a hardener that no mark gives: the next mark is told, and the base is topped up to it', () => {
	const day = rehearsed({ job: tenToOne(), settings: { units: 'us' } });
	makes(day, 8.1);
	day.toState('mix.level.base');
	day.send('number 7.4');
	expect(toPour(day, 'hardener')).toBe(8.2);
	expect(day.line().lines[0]).toBe('These marks give no less: the rest is worked out again.');
	day.toState('mix.level.hardener');
	day.send('number 8.2');
	day.pick('holds');
	expect(foundAs(day, 'hardener')).toEqual(['over']);
	expect(toPour(day, 'base')).toBe(8.8);
	day.toState('ready');
	expect(partsOff(day).hardener).toBeLessThanOrEqual(0.05);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a part too little in any pot, by finer marks too, is not mixed', () => {
	const day = rehearsed({ job: small({ by: 'volume', base: 1000, hardener: 1 }, 0.001) });
	day.toState('mix.marks');
	expect(Object.values(day.line().corners).map(({ code }) => code)).toEqual(['amount']);
	expect(day.line().lines).toEqual(['One of them is too little in any pot.']);
});

test('the plan mixes what the marks of the pot give', () => {
	const job: Job = { ...tenToOne(), units: 'us' };
	const [batch] = planDay(job, orderFor(job, 0)).batches;
	const amount = (batch?.volume_mL ?? 0) / 29.5735;
	const hardener_marks = (amount / 11.55) * 10;
	expect(Math.abs(Math.round(hardener_marks) / hardener_marks - 1)).toBeLessThanOrEqual(0.05);
	const day = rehearsed({ job });
	makes(day, Number(amount.toFixed(3)));
	expect(day.line().state).toBe('mix.stir');
});

const ratios = fc.oneof(
	fc.record({
		by: fc.constant('volume' as const),
		base: fc.integer({ min: 1, max: 12 }),
		hardener: fc.constant(1),
	}),
	fc.record({
		by: fc.constant('weight' as const),
		base: fc.constant(100),
		hardener: fc.integer({ min: 3, max: 60 }),
	}),
);

test('whatever is poured too much or too little, a batch that comes to the cup has its hardener within 5 %', () => {
	const units = fc.constantFrom('us' as const, 'metric' as const);
	const reducer = fc.constantFrom(0, 0.05, 0.3);
	/** Shares by which one pour after the other misses its level. */
	const misses = fc.array(fc.double({ min: -0.12, max: 0.12, noNaN: true }), { maxLength: 8 });
	fc.assert(
		fc.property(ratios, units, reducer, misses, (ratio, unit, share, offs) => {
			const job = small(ratio, share * (ratio.base + ratio.hardener), { density_kg_per_L });
			const day = rehearsed({ job, settings: { units: unit } });
			const left = [...offs];
			let stood = 0;
			for (let count = 0; day.line().state !== 'ready'; count++) {
				expect(count, `stands in ${day.line().state}: ${day.line().lines}`).toBeLessThan(300);
				const { state, do: steps } = day.line();
				if (state === 'mix.begin') stood = 0;
				if (state === 'mix.pour' && left.length > 0) {
					const told = Number(steps[0]?.to);
					const off = left.shift() ?? 0;
					day.pick('done');
					stood = Math.max(stood, Number((told + off * (told - stood)).toFixed(2)));
					day.send(`number ${stood}`);
				} else {
					if (state === 'mix.pour') stood = Number(steps[0]?.to);
					day.send(day.painter.answer(day.line()) ?? '');
				}
			}
			const { hardener } = partsOff(day);
			expect(hardener).toBeLessThanOrEqual(1 / 0.95 - 1 + 1e-9);
			expect(day.findings()).toEqual([]);
		}),
		{ numRuns: 25 },
	);
});

describe('a base poured far over: the rest would make far more than the pot was taken for', () => {
	const poured = (level: string) => {
		const day = rehearsed({
			job: mixedAs({ by: 'volume', base: 2, hardener: 1 }),
			settings: { units: 'us' },
		});
		makes(day, 6.9);
		day.toState('mix.level.base');
		day.send(`number ${level}`);
		return day;
	};

	test('whether the pot holds it is asked before any level beyond its rim is told', () => {
		const day = poured('25');
		expect(day.line()).toMatchObject({
			state: 'mix.rim',
			say: 'Pot: does it hold 37.5 fl oz, below the rim?',
			lines: ['Read 25 fl oz. Wanted 4.6 fl oz.', 'With the rest to match it makes 37.5 fl oz.'],
		});
		expect(foundAs(day, 'base')).toEqual([]);
		day.pick('holds');
		expect(foundAs(day, 'base')).toEqual(['over']);
		expect(toPour(day, 'hardener')).toBe(37.5);
		day.toState('ready');
		expect(partsOff(day).hardener).toBeLessThan(0.05);
	});

	test('a level keyed wrong is read again, and nothing is told to be poured before', () => {
		const day = poured('25');
		day.pick('read-again');
		expect(day.line()).toMatchObject({ state: 'mix.level.base', do: [] });
		day.send('number 4.6');
		expect(foundAs(day, 'base')).toEqual(['right']);
	});

	test('too small: into a larger pot, or nothing of it goes on', () => {
		const day = poured('25');
		day.pick('larger');
		expect(day.line()).toMatchObject({
			state: 'mix.larger-pot',
			do: [{ code: 'larger-pot', to: '37.5 fl oz' }],
		});
		day.pick('none');
		expect(day.line().state).toBe('mix.rim');
		day.pick('larger');
		day.pick('done');
		expect(foundAs(day, 'base')).toEqual(['over']);
		const other = poured('25');
		other.pick('discard');
		other.pick('discard-it');
		expect(other.ofType('batch.discarded').map(({ why }) => why)).toEqual(['more than the pot holds']);
		expect(foundAs(other, 'base')).toEqual([]);
	});

	test('a little over is topped up without a question; a pot found far over after a break is asked about', () => {
		expect(poured('4.9').line().state).not.toBe('mix.rim');
		const day = rehearsed({
			job: mixedAs({ by: 'volume', base: 2, hardener: 1 }),
			settings: { units: 'us' },
		});
		makes(day, 6.9);
		day.toState('mix.level.base');
		day.send('hold');
		day.toState('mix.found');
		day.send('number 25');
		expect(day.line().state).toBe('mix.rim');
		day.pick('holds');
		expect(day.ofType('batch.found').map(({ found }) => found)).toEqual(['over']);
	});
});

test('finer marks that give a part no nearer than 5 % either are not offered: another amount is', () => {
	const day = rehearsed({
		job: small({ by: 'volume', base: 25, hardener: 1 }, 3.12),
		settings: { units: 'us' },
	});
	makes(day, 1.9);
	expect(day.line().state).toBe('mix.marks');
	expect(Object.values(day.line().corners).map(({ code }) => code)).toEqual(['amount', 'mix']);
	day.pick('amount');
	day.send('number 3.4');
	expect(Object.values(day.line().corners).map(({ code }) => code)).toContain('finer');
});
