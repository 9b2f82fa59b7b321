import { expect, test } from 'vitest';
import type { DayEvent, DayRecord, EventOf } from '../../src/day/records.ts';
import { settingsSchema } from '../../src/day/settings.ts';
import { shownUse, unsureOf } from '../../src/film/learning.ts';
import type { Job } from '../../src/job/job.ts';
import { planDay } from '../../src/plan/day-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
import { paintOf_mL } from '../../src/plan/pace.ts';
import { learn, leastFaces, ratesOf } from '../../src/plan/rates.ts';
import { sketch } from './jobs.ts';

const parts = ['left door', 'right door', 'corner box', 'canopy rail', 'counter lid', 'wheel-arch cover'];
const job = sketch({ faces: parts.map(part => ({ part, name: 'front', horns: ['level'], area_m2: 0.5 })) });

const begun = Date.parse('2027-03-02T08:00:00.000Z');

/** A day of a few events, each at so many seconds. */
function day(
	events: [at_s: number, event: DayEvent][],
	clock: 'real' | 'moved' = 'real',
	sheet: Job = job,
): DayRecord[] {
	const opened: DayEvent = {
		...{ type: 'day.opened', v: 1, program: '0', job: job.name, sheet, lists: [], clock, zone: 'UTC' },
		...{ settings: settingsSchema.parse({}), cans: [], before: { faces: {}, letters: 0 } },
	};
	return [[0, opened] as const, ...events].map(([at_s, event], index) => ({
		...{ seq: index + 1, run: 1, at: new Date(begun + at_s * 1000).toISOString(), mono: at_s * 1000 },
		...event,
	}));
}

const started = (face: string): DayEvent => ({
	...{ type: 'face.started', face, coat: 1, cup: ['A'], check: 1, air: null, overrides: [] },
	...{ window: 'spray', from: 'start', spray_s: 30 },
});
const ended = (face: string, extent: 'all' | 'part' = 'all', estimated = false): DayEvent => ({
	...{ type: 'face.ended', face, coat: 1, extent, lastStroke: null, estimated },
});
const batch: [number, DayEvent][] = [
	[
		1,
		{
			type: 'batch.started',
			batch: 'A',
			material: 'topcoat',
			ratio: { base: 2, hardener: 1, reducer: 1 },
			by: 'volume',
			make_mL: 400,
		},
	],
	[2, { type: 'batch.loaded', batch: 'A', volume_mL: 400, refill: false }],
];
const emptied: [number, DayEvent] = [
	1000,
	{ type: 'cup.emptied', volume_mL: 40, why: 'end of the day', read: true },
];

/** Faces of half a square metre, 50 s each. */
const faces = (count: number, from = 0): [number, DayEvent][] =>
	job.faces.slice(from, from + count).flatMap(({ id }, at): [number, DayEvent][] => [
		[100 + 60 * at, started(id)],
		[150 + 60 * at, ended(id)],
	]);

test('time and paint as factors of the sheet’s come from faces sprayed whole, with how many', () => {
	const learned = learn([day([...batch, ...faces(6), emptied])], job);
	// Six faces of 30 s took 50 s each; of 400 mL 40 were left and 20 stayed in the gun, for six of 30 mL.
	expect(learned.topcoat).toEqual({
		time: 50 / 30,
		use: shownUse([{ emitted_mL: 180, used_mL: 340, weighed: false }], unsureOf(0.65, 0.05)),
		timed: 6,
	});
});

test('fewer faces than it takes change no time; paint is drawn to the sheet by what one cup is worth', () => {
	const { time, use } = learn([day([...batch, ...faces(leastFaces - 1), emptied])], job).topcoat ?? {};
	expect(time).toBeNull();
	expect(use?.cups).toBe(1);
	expect(use?.factor).toBeGreaterThan(1);
	expect(use?.factor).toBeLessThan(340 / 120);
});

test('faces broken off, broken into or shared out of a stretch are not timed; their cup is not measured', () => {
	const odd = (more: [number, DayEvent][]) =>
		learn([day([...batch, ...faces(5), ...more, emptied])], job).topcoat;
	const id = job.faces[5]?.id ?? '';
	expect(
		odd([
			[500, started(id)],
			[900, ended(id, 'all', true)],
		]),
	).toMatchObject({ timed: 5, use: { cups: 1 } });
	expect(
		odd([
			[500, started(id)],
			[600, { type: 'break.began', kind: 'hold', by: 'painter' }],
			[900, ended(id)],
		]),
	).toMatchObject({ timed: 5 });
	expect(
		odd([
			[500, started(id)],
			[900, ended(id, 'part')],
		]),
	).toMatchObject({ timed: 5, use: null });
});

test('a cup that ran out inside a face teaches nothing of paint, nor does the one that the rest of it came from', () => {
	const id = job.faces[5]?.id ?? '';
	const ranOut: [number, DayEvent] = [600, { type: 'cup.emptied', volume_mL: 0, why: 'ran out', read: true }];
	const broken: [number, DayEvent][] = [
		[500, started(id)],
		[590, { type: 'break.began', kind: 'hold', by: 'painter' }],
		ranOut,
		[610, ended(id, 'part')],
	];
	const rest: [number, DayEvent][] = [
		[700, { type: 'batch.loaded', batch: 'A', volume_mL: 400, refill: false }],
		...faces(5).map(([at, event]): [number, DayEvent] => [at + 700, event]),
		[1200, { ...started(id), from: 'part' } as DayEvent],
		[1250, ended(id)],
		[1300, { type: 'cup.emptied', volume_mL: 40, why: 'end of the day', read: true }],
	];
	expect(learn([day([...batch, ...faces(5), ...broken])], job).topcoat).toMatchObject({ use: null });
	expect(learn([day([...batch, ...rest])], job).topcoat).toMatchObject({ use: null });
});

test('a cup whose rest was not measured teaches nothing of paint; one that ran out was used up', () => {
	const end = (last: Partial<EventOf<'cup.emptied'>>) => {
		const emptied = { type: 'cup.emptied' as const, volume_mL: 40, why: 'end of the day', ...last };
		return learn([day([...batch, ...faces(6), [1000, emptied]])], job).topcoat;
	};
	expect(end({})).toMatchObject({ timed: 6, use: null });
	expect(end({ volume_mL: 0, why: 'ran out', read: true })?.use).toEqual(
		shownUse([{ emitted_mL: 180, used_mL: 380, weighed: false }], unsureOf(0.65, 0.05)),
	);
});

test('rehearsed days, and materials of another name, teach nothing', () => {
	const events: [number, DayEvent][] = [...batch, ...faces(6), emptied];
	expect(learn([day(events, 'moved')], job)).toEqual({});
	const other = {
		...job,
		materials: { topcoat: { ...job.materials.topcoat, name: 'red topcoat' } },
	} as typeof job;
	expect(learn([day(events)], other)).toEqual({});
});

test('learned rates replace the sheet’s in a plan', () => {
	const rates = ratesOf(learn([day([...batch, ...faces(6), emptied])], job));
	const plan = planDay(job, orderFor(job, 0), { rates });
	expect(plan.laid[0] && plan.laid[0].to_s - plan.laid[0].from_s).toBeCloseTo(50, 6);
	expect(plan.batches[0]?.needed_mL).toBeCloseTo(6 * 30 * (rates.topcoat?.paint ?? 0), 6);
});

test('what was learned keeps a tack coat thinner than a full one: never one mean for both', () => {
	const [first] = job.faces;
	const [lead] = first?.coats ?? [];
	if (!first || !lead) throw new Error('the sketch has no coat');
	const coats = [
		{ ...lead, kind: 'tack' as const, volume_mL: 20 },
		{ ...lead, kind: 'full' as const, volume_mL: 60 },
	];
	const rates = ratesOf(learn([day([...batch, ...faces(6), emptied])], job));
	const [tack, full] = coats.map(coat => paintOf_mL({ coat }, rates));
	expect((full ?? 0) / (tack ?? 1)).toBeCloseTo(3, 9);
});

test('a painter who uses what the sheet says is known by 1, whatever coats were measured', () => {
	const used: DayEvent = { ...emptied[1], volume_mL: 400 - 20 - 180 } as DayEvent;
	const learned = learn([day([...batch, ...faces(6), [1000, used]])], job);
	expect(learned.topcoat?.use?.factor).toBeCloseTo(1, 12);
});

test('cups of one day teach the same where they lie in two files', () => {
	const morning = [...batch, ...faces(2), emptied];
	const noon = [...batch, ...faces(4, 2), emptied];
	const later = noon.map(([at_s, event]): [number, DayEvent] => [at_s + 2000, event]);
	const whole = learn([day([...morning, ...later])], job);
	expect(whole.topcoat?.use?.cups).toBe(2);
	expect(learn([day(morning), day(noon)], job)).toEqual(whole);
});

test('bursts on paper are no face’s use', () => {
	const burst: [number, DayEvent] = [
		90,
		{
			...{ type: 'reading.taken', check: 1, face: job.faces[0]?.id ?? '', coat: 1, batch: null },
			...{ feature: 'pattern', value: 'tall', wanted: 'tall', matched: true, attempt: 1 },
		} as DayEvent,
	];
	const shown = (more: [number, DayEvent][]) =>
		learn([day([...batch, ...more, ...faces(6), emptied])], job).topcoat?.use?.factor ?? 0;
	const prior = unsureOf(0.65, 0.05);
	const used_mL = 340 - 200 / 60;
	expect(shown([burst])).toBeCloseTo(
		shownUse([{ emitted_mL: 180, used_mL, weighed: false }], prior).factor,
		12,
	);
	expect(shown([burst])).toBeLessThan(shown([]));
});

test('a day of older sums teaches nothing: what it expected was worked out otherwise', () => {
	const older = {
		...job,
		faces: job.faces.map(face => ({
			...face,
			coats: face.coats.map(({ capture: _, ...coat }) => coat),
		})),
	};
	expect(learn([day([...batch, ...faces(6), emptied], 'real', older)], job)).toEqual({});
});
