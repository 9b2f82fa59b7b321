import { describe, expect, test } from 'vitest';
import { nowAfter } from '../../src/day/now.ts';
import type { Material, MixStep } from '../../src/job/job.ts';
import { trace } from '../../src/trace/trace.ts';
import { builtIn } from '../trace/built-in.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** A sheet that lists its times at temperatures: each process is clocked by them and by what was read. Sums by hand. */

/** The small job, its coats by the flash alone, with points. */
function withClocks(clocks: NonNullable<Material['clocks']>, coats: Material['coats'] | null = null) {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	return {
		...job,
		materials: {
			topcoat: {
				...topcoat,
				flash: { ...topcoat.flash, at_C: 20 },
				recoat: [],
				clocks,
				...(coats && { coats }),
			},
		},
	};
}
const flash = (from: [number, number][], to: [number, number][] | null = null) => {
	const points = (given: [number, number][]) => given.map(([at_C, hours]) => ({ at_C, hours }));
	return { flash: { from: points(from), to: to && points(to) } };
};
const flashes = flash([
	[10, 1.5],
	[20, 0.75],
	[30, 0.5],
]);

type Day = ReturnType<typeof rehearsed>;
const edges = 'left door/edges';
/** The air was read at 08:00, and the first face ended at 08:01. */
const flashing = (day: Day) => day.until(({ state, coat }) => state === 'wait' && coat === 2);

/** Some minutes on, the air is read again. */
function readAir(day: Day, minutes: number, C: number) {
	day.send('hold', `wait ${minutes} min`);
	Object.assign(day.painter.world.air, { C, surface_C: C });
	const read = day.ofType('air.read').length;
	for (const code of ['put-right', 'read-air']) day.pick(code);
	day.until(() => day.ofType('air.read').length > read);
}

const windowsOf = (day: Day) =>
	day.ofType('window.set').findLast(({ face }) => face === edges)?.windows ?? [];
const clockOf = (iso: string | null | undefined) => (iso ?? '').slice(11, 19);
const opensAt = (day: Day) => clockOf(windowsOf(day).find(({ does }) => does === 'spray')?.from);

describe('a flash by its points', () => {
	test('lies between two of them by the surface read', () => {
		const day = rehearsed({ job: withClocks(flashes) });
		flashing(day);
		expect(opensAt(day)).toBe('08:44:12');
		expect(day.ofType('wait.began')[0]?.due).toMatch(/T08:44:12/);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('a cold reading counts from the one before it, and a warm one from itself', () => {
		const day = rehearsed({ job: withClocks(flashes) });
		flashing(day);
		readAir(day, 18, 12);
		expect(opensAt(day)).toBe('09:19:20');
		readAir(day, 20, 30);
		expect(opensAt(day)).toBe('08:55:41');
		day.pick('back');
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('a reading an hour old may be off: 20 °C read once, four hours there, open later than that', () => {
		const slow = flash([
			[7, 6],
			[20, 4],
			[30, 3],
		]);
		const day = rehearsed({ job: { ...withClocks(slow), shop: { ...smallJob().shop, air_C: 20 } } });
		day.until(() => windowsOf(day).length > 0);
		expect(opensAt(day)).toBe('12:15:07');
	});

	test('a cold reading shuts again what had opened, for the day and for "now" alike', () => {
		const day = rehearsed({ job: withClocks(flashes) });
		flashing(day);
		day.until(({ state }) => state !== 'wait');
		const moved = () => day.ofType('window.moved').filter(({ face }) => face === edges);
		expect(moved().at(-1)?.to).toBe('spray');
		readAir(day, 1, 12);
		expect(moved().at(-1)?.to).toBe('wait');
		const now = nowAfter(day.records(), Date.parse(day.line().at)).find(({ face }) => face === edges);
		expect(now?.next).toMatchObject({ may: 'wait', coat: 2 });
		day.pick('back');
		day.until(({ state }) => state === 'spraying');
		expect(day.ofType('face.started').at(-1)?.at.slice(11, 16) ?? '').toMatch(/^09:(19|2)/);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('its most counts from the start of the face, and ends by the warmest', () => {
		const day = rehearsed({ job: withClocks(flash([[20, 0.5]], [[20, 1]])) });
		flashing(day);
		const shut = windowsOf(day).find(({ does }) => does === 'sand');
		expect(clockOf(shut?.from)).toBe('08:53:45');
	});

	test('where nothing is given for so cold a surface it is waited for, and no end is made up', () => {
		const day = rehearsed({ job: withClocks(flash([[40, 0.5]])) });
		day.until(({ face, state }) => face === edges && state === 'spraying');
		Object.assign(day.painter.world.air, { C: 18, surface_C: 18 });
		readAir(day, 1, 18);
		day.pick('back');
		day.until(() => windowsOf(day).length > 0);
		expect(windowsOf(day)).toEqual([{ does: 'wait', from: windowsOf(day)[0]?.from, until: null }]);
	});

	test('a kind of coat has its own', () => {
		const own = { from: [{ at_C: 21, hours: 0.25 }], to: null };
		const day = rehearsed({
			job: withClocks(flashes, { full: { dry_um: 40, reducer_parts: 1, flash: own } }),
		});
		flashing(day);
		expect(opensAt(day)).toBe('08:16:00');
	});
});

describe('a pot life by its points', () => {
	const lives = {
		potLife: [
			{ at_C: 10, hours: 4 },
			{ at_C: 20, hours: 2 },
			{ at_C: 30, hours: 1 },
		],
	};
	const ends = (day: Day) => clockOf(day.line().timers.find(({ code }) => code === 'pot-life')?.due);
	const cool = () => ({ ...withClocks(lives), shop: { ...smallJob().shop, air_C: 20 } });

	test('20 °C read once is an hour of it and then warmer, and the pot a kelvin above', () => {
		const day = rehearsed({ job: cool() });
		flashing(day);
		expect(ends(day)).toBe('09:49:45');
	});

	test('paint read warmer than its air at the flow cup goes by that', () => {
		const day = rehearsed({ job: cool() });
		day.toState('mix.cup.temperature');
		day.send('number 28');
		flashing(day);
		expect(ends(day)).toBe('09:04:18');
	});

	test('a warm reading counts from the one before it: the pot dies when its share is used up', () => {
		const day = rehearsed({ job: cool() });
		flashing(day);
		readAir(day, 27, 30);
		day.pick('back');
		expect(ends(day)).toBe('08:53:45');
		day.send('hold', 'wait 31 min');
		day.pick('back');
		expect(day.toState('empty').say).toContain('Cup');
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});
});

describe('a recoat table of several rows', () => {
	const row = (from_C: number, to_C: number, opens_h: number, shuts_h: number) => ({
		from_C,
		to_C,
		windows: [
			{ does: 'wait' as const, from_h: 0, until_h: opens_h },
			{ does: 'spray' as const, from_h: opens_h, until_h: shuts_h },
			{ does: 'sand' as const, from_h: shuts_h, until_h: null },
		],
	});
	function tabled(C: number) {
		const job = withClocks({});
		const recoat = [{ under: 'topcoat', rows: [row(15, 20, 2, 8), row(21, 35, 1, 4)] }];
		const day = rehearsed({ job: { ...job, materials: { topcoat: { ...job.materials.topcoat, recoat } } } });
		Object.assign(day.painter.world.air, { C, surface_C: C });
		flashing(day);
		return day;
	}
	const ms = (iso: string | null | undefined) => Date.parse(iso ?? '');
	const ended = (day: Day) =>
		ms(
			day.ofType('face.ended').find(({ face }) => face === edges)?.ended ??
				day.ofType('face.ended').find(({ face }) => face === edges)?.at,
		);
	const edge_h = (day: Day, does: string) =>
		(ms(windowsOf(day).find(one => one.does === does)?.from) - ended(day)) / 3_600_000;
	const read_h = (day: Day) => (ms(day.ofType('air.read').at(-1)?.at) - ended(day)) / 3_600_000;

	test('a warm reading opens nothing for the cool time before it, and ends it by the row of the highest', () => {
		const day = tabled(18);
		expect(edge_h(day, 'spray')).toBeGreaterThanOrEqual(2);
		readAir(day, 30, 25);
		expect(edge_h(day, 'spray')).toBeCloseTo(read_h(day) + 1 - read_h(day) / 2, 3);
		expect(edge_h(day, 'sand')).toBeLessThanOrEqual(4);
		day.pick('back');
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('a cold reading shuts again what had opened', () => {
		const day = tabled(25);
		day.until(({ state }) => state !== 'wait');
		const moved = () => day.ofType('window.moved').filter(({ face }) => face === edges);
		expect(moved().at(-1)?.to).toBe('spray');
		readAir(day, 1, 18);
		expect(moved().at(-1)?.to).toBe('wait');
		expect(edge_h(day, 'spray')).toBeGreaterThanOrEqual(2);
	});
});

describe('a standing by its points', () => {
	const stands = {
		standing: [
			{ at_C: 10, hours: 0.5 },
			{ at_C: 20, hours: 0.25 },
		],
	};
	/** Stood from its last pour on, in air and paint of a temperature. */
	function standingIn(
		C: number,
		order: readonly MixStep[] = ['stir', 'base', 'hardener', 'stand', 'strain'],
	) {
		const job = withClocks(stands);
		const { topcoat } = job.materials;
		const day = rehearsed({
			job: {
				...job,
				shop: { ...job.shop, air_C: 21 },
				materials: { topcoat: { ...topcoat, reducer_parts: 0, order: [...order], standing_min: 15 } },
			},
		});
		Object.assign(day.painter.world.air, { C, surface_C: C });
		return day;
	}
	const stood_min = (day: Day) => {
		day.until(({ state }) => state === 'wait');
		const due = Date.parse(day.ofType('wait.began').findLast(({ why }) => why === 'stand')?.due ?? '');
		const poured = Date.parse(day.ofType('batch.poured').at(-1)?.at ?? '');
		return (due - poured) / 60_000;
	};

	test.each([
		['between two of them by the air read', 15, 15 * Math.SQRT2],
		['never shorter by warmth than its warmest point', 26, 15],
		['longer by the rule of thumb in the cold', 12, 15 * 2 ** 0.8],
	])('%s', (_, C, wanted_min) => {
		const day = standingIn(C);
		expect(stood_min(day)).toBeCloseTo(wanted_min, 0);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('paint read colder than its air at the flow cup stands by that', () => {
		const day = standingIn(20, ['stir', 'base', 'hardener', 'cup', 'stand', 'strain']);
		day.toState('mix.cup.temperature');
		day.send('number 10');
		expect(stood_min(day)).toBeGreaterThan(29);
	});

	test('a colder reading while it stands makes it stand longer', () => {
		const day = standingIn(20);
		stood_min(day);
		readAir(day, 11, 10);
		day.pick('back');
		day.until(({ state }) => state === 'wait');
		expect(stood_min(day)).toBeCloseTo(30, 0);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('the trace asks for what the day asked for', () => {
		const day = standingIn(15);
		day.toEnd();
		const found = trace({ days: [day.records()], fault: 'stays-soft', face: edges, coat: 1 }, builtIn);
		expect(JSON.stringify(found)).not.toContain('it stood');
	});
});

describe('looking back', () => {
	const doubts = (day: Day, fault: string) =>
		JSON.stringify(trace({ days: [day.records()], fault, face: edges, coat: 2 }, builtIn));

	test('the trace counts a flash as the day did', () => {
		const day = rehearsed({ job: withClocks(flashes) });
		flashing(day);
		readAir(day, 18, 12);
		day.pick('back');
		day.until(({ state }) => state === 'wait');
		day.send('wait 20 min');
		day.pick('sooner');
		day.pick('data-sheet');
		day.until(() => day.ofType('face.ended').length > 3);
		expect(doubts(day, 'solvent-pop')).toContain('of 78 min');
	});

	test('… and a flash that was waited for is no doubt', () => {
		const day = rehearsed({ job: withClocks(flashes) });
		flashing(day);
		readAir(day, 18, 12);
		day.pick('back');
		day.toEnd();
		expect(doubts(day, 'solvent-pop')).not.toContain('it waited');
	});
});
