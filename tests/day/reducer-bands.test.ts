import { describe, expect, test } from 'vitest';
import { parseJob } from '../../src/job/load.ts';
import { changed, like } from '../model/checker/draft.ts';
import { readLines } from '../model/checker/lines.ts';
import { foundIn } from '../model/checker/mutilated.ts';
import { coats, sheetOf, standardLists } from './courses/sheets.ts';
import { rehearsed } from './rehearsed.ts';

/** Reducers by the temperature of the surface: the one read picks the can. */

const bands = '[10% slow at 25 to 32 °C, 10% fast at 12 to 18 °C, 10% medium at 18 to 23 °C]';
const sheet = (reducer = bands, air = 21) =>
	sheetOf({
		primer: { reducer, order: 'stir, base, hardener, reducer, cup' },
		stages: coats(1),
		parts: 'shelf',
	}).replace('air: 21 °C, humidity: 50%', `air: ${air} °C, humidity: 50%`);
const says = (text: string): string[] => {
	const loaded = parseJob(text, 'hatch.yaml');
	return loaded.ok ? [] : loaded.errors.map(error => error.says);
};
function jobOf(text: string) {
	const loaded = parseJob(text, 'hatch.yaml');
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	return loaded.job;
}
const lists = await standardLists();
function dayAt(C: number) {
	const day = rehearsed({ job: jobOf(sheet()), lists, settings: { by: 'face' } });
	Object.assign(day.painter.world.air, { C, surface_C: C, humidity: 0.4 });
	return day;
}

describe('reducers by bands', () => {
	test('are one share, from the coldest on', () => {
		const { reducer_parts, reducers, ...primer } = jobOf(sheet()).materials.primer ?? {};
		expect(reducers).toEqual([
			{ name: 'fast', from_C: 12, to_C: 18 },
			{ name: 'medium', from_C: 18, to_C: 23 },
			{ name: 'slow', from_C: 25, to_C: 32 },
		]);
		expect({ reducer_parts, ...primer }).toEqual(jobOf(sheet('10%')).materials.primer);
	});

	test.each([
		[
			'[10% fast at 12 to 18 °C, 10% slow at 17 to 25 °C]',
			21,
			/reducer: two of them hold for one temperature/,
		],
		[
			'[10% fast at 12 to 18 °C, 15% slow at 18 to 25 °C]',
			21,
			/reducer: one share for all of them is wanted/,
		],
		[
			'[10% at 12 to 25 °C]',
			21,
			/allowed in a list: a share, which, and for what surface, as in "10% medium/,
		],
		[bands, 24, /reducer: primer has no reducer for 24 °C: fast 12–18 °C, medium 18–23 °C, slow 25–32 °C$/],
	])('%s at %s °C is refused', (reducer, air, pattern) => {
		expect(says(sheet(reducer, air))).toEqual([expect.stringMatching(pattern)]);
	});

	test.each([
		[16, 'fast'],
		[18, 'fast'],
		[21, 'medium'],
		[27, 'slow'],
	])('a surface of %s °C picks the %s one, told where its mark is read', (C, name) => {
		const day = dayAt(C);
		day.until(({ state, say }) => state === 'mix.can' && say.toLowerCase().includes('reducer'));
		expect(day.line().lines).toContain(`By the surface as read: the ${name} one.`);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('nothing is sprayed on a surface between two of them', () => {
		const day = dayAt(24);
		day.until(({ state }) => state.startsWith('air.'));
		day.until(() => day.ofType('air.read').length > 0);
		expect(day.ofType('air.read')[0]?.spray).toBe(false);
		expect(JSON.stringify(day.line())).toContain('Primer has no reducer for 24 °C');
	});

	const cansOf = (day: ReturnType<typeof dayAt>) =>
		(day.ofType('day.opened')[0]?.cans ?? []).filter(({ material }) => material === 'primer');

	test('have a can each, with a mark of its own, taped before anything is poured', () => {
		const day = dayAt(21);
		const cans = cansOf(day);
		expect(cans.map(({ component, name }) => name ?? component)).toEqual([
			...['base', 'hardener'],
			...['fast', 'medium', 'slow'],
		]);
		expect(new Set(cans.map(({ mark }) => mark)).size).toBe(5);
		day.toState('mix.begin');
		const told = cans.map(({ component, name, mark }) => `${name ?? component} ${mark}`).join(', ');
		expect(day.line().lines).toContain(`Tape cans: ${told}.`);
	});

	test('the mark of another one is a wrong can: nothing of it goes in', () => {
		const day = dayAt(21);
		const toReducer = () =>
			day.until(({ state, say }) => state === 'mix.can' && say.toLowerCase().includes('reducer'));
		const markOf = (name: string) => cansOf(day).find(can => can.name === name)?.mark ?? '';
		const shown = Object.values(toReducer().corners).map(({ code }) => code);
		const other = ['fast', 'slow'].map(markOf).find(mark => shown.includes(mark)) ?? '';
		expect(day.pick(other).state).toBe('mix.wrong-can');
		day.toEnd();
		const poured = day.ofType('batch.poured').filter(({ component }) => component === 'reducer');
		expect(poured.map(({ can }) => can)).toEqual(poured.map(() => markOf('medium')));
		expect(day.findings()).toEqual([]);
	});

	test('a pour from the can for another surface does not pass the checker', () => {
		const day = dayAt(16);
		day.toEnd();
		const slow = cansOf(day).find(({ name }) => name === 'slow')?.mark ?? '';
		const raw = readLines(day.bytes()).lines.map(({ raw }) => raw);
		const spoilt = changed(raw, like('batch.poured', { component: 'reducer' }), { can: slow });
		expect(foundIn(spoilt)).toContainEqual({
			...{ property: 22, line: expect.any(Number) },
			says: `batch A: reducer from can ${slow}, slow, on a surface of 16 °C`,
		});
	});
});
