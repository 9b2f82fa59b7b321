import { expect, test } from 'vitest';
import type { DayRecord } from '../../src/day/records.ts';
import { standardLists } from '../model/by-chance/sheets.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { codes, spotKey } from './causes.ts';
import { ceilingOf } from './ceiling.ts';
import { causesOf, type PlantedDay, plantedDay } from './day.ts';
import { effectsFor } from './effects.ts';
import { freshPot, type Pass, wrongWith } from './hidden.ts';
import { scored } from './score.ts';

const lists = await standardLists();
const days: readonly PlantedDay[] = Array.from({ length: 20 }, (_, seed) => plantedDay(seed, lists));
const caused = days.filter(({ truth }) => truth.length > 0);

const startsOf = ({ records }: PlantedDay) =>
	records.filter((one): one is DayRecord & { type: 'face.started' } => one.type === 'face.started');

test('every planted day is one that the program writes: the independent checker has nothing against it, closing and marks included', () => {
	for (const { bytes, records } of days) {
		expect(checkDayFile(bytes)).toEqual([]);
		expect(records.some(({ type }) => type === 'day.closed')).toBe(true);
		expect(records.at(-1)?.type).not.toBe('day.closed');
	}
});

test('what was planted is all that was wrong, on the passes that the hidden world says, in the form that was drawn', () => {
	for (const { passes, truth, seed } of days) {
		const drawn = causesOf(seed);
		expect(truth.map(({ cause }) => cause)).toEqual(drawn);
		for (const pass of passes)
			for (const wrong of wrongWith(pass)) {
				const own = truth.find(({ cause }) => cause.code === wrong.code);
				expect(own?.cause.form, `seed ${seed}, ${wrong.code}`).toBe(wrong.form);
				expect(own?.extent.map(spotKey)).toContain(spotKey(pass));
			}
		for (const { extent } of truth) expect(extent.length).toBeGreaterThan(0);
	}
});

test('a cause of a batch has every pass that the records give that batch, and no other', () => {
	const mixed: readonly string[] = [
		'no-hardener',
		'wrong-ratio',
		'wrong-can',
		'viscosity-off',
		'not-stood',
		'dirt-in-paint',
	];
	const found = days.flatMap(day =>
		day.truth
			.filter(({ cause }) => mixed.includes(cause.code))
			.map(({ extent }) => ({ day, own: extent.map(spotKey) })),
	);
	expect(found.length).toBeGreaterThan(3);
	for (const { day, own } of found) {
		const starts = startsOf(day);
		const letters = starts.filter(one => own.includes(spotKey(one))).map(({ cup }) => cup);
		const allOf = (letter: string) => new Set(starts.filter(({ cup }) => cup.includes(letter)).map(spotKey));
		const shared = letters[0]?.filter(letter => letters.every(cup => cup.includes(letter))) ?? [];
		expect(shared.map(allOf)).toContainEqual(new Set(own));
	}
});

test('the coats that the records count are those of the hidden world, but for the missed and the doubled', () => {
	for (const { passes, records } of days) {
		const ended = records.filter(one => one.type === 'face.ended' && one.extent === 'all');
		expect(new Set(ended.map(one => spotKey(one as DayRecord & { type: 'face.ended' })))).toEqual(
			new Set(passes.map(spotKey)),
		);
	}
});

test('at least half of the days with a cause have no record that says it', () => {
	const silent = caused.filter(({ truth }) => truth.every(({ saidBy }) => saidBy === null));
	expect(silent.length).toBeGreaterThanOrEqual(caused.length / 2);
	expect(silent.length).toBeLessThan(caused.length);
});

test('one day in ten has two causes, one in ten none, and every code comes as often as another', () => {
	const drawn = Array.from({ length: 6000 }, (_, seed) => causesOf(seed));
	const share = (count: number) => drawn.filter(({ length }) => length === count).length / drawn.length;
	expect(share(0)).toBeCloseTo(0.1, 1.5);
	expect(share(2)).toBeCloseTo(0.1, 1.5);
	const all = drawn.flat();
	for (const code of codes) {
		const times = all.filter(one => one.code === code).length / all.length;
		expect(times * codes.length, code).toBeGreaterThan(0.8);
		expect(times * codes.length, code).toBeLessThan(1.2);
	}
});

test('the same seed gives the same bytes, the same truth and the same question', () => {
	for (const seed of [4]) {
		const again = plantedDay(seed, lists);
		expect(Buffer.from(again.bytes).equals(Buffer.from(days[seed]?.bytes ?? []))).toBe(true);
		expect(again.truth).toEqual(days[seed]?.truth);
		expect(again.question).toEqual(days[seed]?.question);
	}
});

test('the eye at inspection passes some over, and names some wrongly', () => {
	const key = ({ face, coat, kind }: { face: string; coat: number; kind: string }) =>
		`${face} ${coat} ${kind}`;
	const passedOver = days.flatMap(({ shown, marks }) =>
		shown.filter(one => !marks.some(({ face }) => face === one.face)),
	);
	const wrongly = days.flatMap(({ shown, marks }) =>
		marks.filter(mark => !shown.some(one => key(one) === key(mark))),
	);
	expect(passedOver.length).toBeGreaterThan(0);
	expect(wrongly.length).toBeGreaterThan(0);
	expect(wrongly.length).toBeLessThan(days.flatMap(({ marks }) => marks).length / 2);
});

test('every cause in every form shows as something in both tables, and each line says where it is from', () => {
	for (const by of ['faa', 'tm'] as const) {
		const effects = effectsFor(by);
		for (const seed of Array.from({ length: 400 }, (_, nth) => nth))
			for (const cause of causesOf(seed)) {
				expect(effects(cause).length, `${cause.code} ${cause.form}`).toBeGreaterThan(0);
				for (const { source } of effects(cause))
					expect(source).toMatch(/FAA-H-8083-31|TM 43-0139|common practice/);
			}
	}
});

/** A pass as the records alone have it. */
const bare = ({ face, coat, at, nth, letters }: Pass): Pass => ({
	...{ face, coat, at, nth, letters, pots: letters.map(freshPot) },
	bench: { horns: 'as told', pattern: 'even', pressure: 1, airLine: 'dry', air: { C: 20, humidity: 0.5 } },
	...{ distance: 1, film: 1, under: 'ready', isClean: true, wasTouched: false, times: 1 },
});

test('the ceiling is worked out from records and marks: blind to the hidden world it answers the same', () => {
	const effects = effectsFor('faa');
	for (const day of days.slice(0, 4)) {
		const blind = { ...day, passes: day.passes.map(bare), truth: [], shown: [] };
		expect(ceilingOf(blind, effects)).toEqual(ceilingOf(day, effects));
	}
});

test('an answer is first, among three, absent, or told and wrong by the codes that were planted', () => {
	const day = caused[0] ?? expect.fail('no day has a cause');
	const own = day.truth.map(({ cause }) => cause.code);
	const others = codes.filter(code => !own.includes(code));
	const of = (answered: readonly string[], told: boolean) => scored(day, { codes: answered, told });
	expect(of([...own, ...others], true)).toMatchObject({
		first: true,
		three: true,
		absent: false,
		toldWrong: false,
	});
	expect(of([...others.slice(0, 2), ...own], true)).toMatchObject({
		first: false,
		three: true,
		toldWrong: true,
	});
	expect(of([...others.slice(0, 3), ...own], false)).toMatchObject({
		three: false,
		absent: false,
		toldWrong: false,
	});
	expect(of(others, false)).toMatchObject({ first: false, absent: true });
});
