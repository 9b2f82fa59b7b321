import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

/** A number that can hardly be meant is asked for once more before it becomes a record. */

type Day = ReturnType<typeof rehearsed>;

/** At the level of the base, with what it should be. */
function atBase(): { day: Day; wanted: number } {
	const day = rehearsed();
	const wanted = Number(day.toState('mix.pour').do?.[0]?.to);
	day.toState('mix.level.base');
	return { day, wanted };
}

test.each([10, 0.1])('a level %d times the one wanted is asked again, and the next one counts', factor => {
	const { day, wanted } = atBase();
	const slip = Math.round(wanted * factor);
	day.send(`number ${slip}`);
	expect(day.line()).toMatchObject({
		state: 'mix.level.base',
		lines: [`Read ${slip} mL? Look again, and key what you see.`],
	});
	expect(day.ofType('batch.poured')).toEqual([]);
	day.send(`number ${wanted}`);
	expect(day.ofType('batch.poured')).toMatchObject([{ level_mL: wanted, found: 'right' }]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a level that can hardly be meant is believed when it is read so twice; another is asked again', () => {
	const { day, wanted } = atBase();
	day.send('number 9', 'number 10');
	expect(day.ofType('batch.poured')).toEqual([]);
	day.send('number 10');
	expect(day.ofType('batch.poured')).toMatchObject([{ level_mL: 10, found: 'short' }]);
	expect(wanted).toBeGreaterThan(80);
});

test('a pot still empty is no slip', () => {
	const { day } = atBase();
	day.send('number 0');
	expect(day.ofType('batch.poured')).toMatchObject([{ level_mL: 0, found: 'short' }]);
});

test('a level found after a break is asked again where it is ten times what was in', () => {
	const { day, wanted } = atBase();
	day.send(`number ${wanted}`);
	day.toState('mix.can');
	day.send('hold', 'wait 1 min');
	day.pick('back');
	day.toState('mix.found');
	day.send(`number ${wanted * 10}`);
	expect(day.line().state).toBe('mix.found');
	expect(day.ofType('batch.found')).toEqual([]);
	day.send(`number ${wanted}`);
	expect(day.ofType('batch.found')).toMatchObject([{ found: 'before' }]);
});

test('a level found after a break that came in a pour is believed from what was in to what was to be reached', () => {
	const day = rehearsed();
	const wanted = Number(day.toState('mix.pour').do?.[0]?.to);
	day.send('hold', 'wait 1 min');
	day.pick('back');
	day.toState('mix.found');
	day.send(`number ${wanted}`);
	expect(day.ofType('batch.found')).toMatchObject([{ level_mL: wanted, found: 'right' }]);
});

test('a pattern height ten times too small is asked again', () => {
	const day = rehearsed();
	day.toState('gunCheck.pattern-height');
	day.send('number 25');
	expect(day.line().state).toBe('gunCheck.pattern-height');
	expect(day.ofType('reading.taken').filter(({ feature }) => feature === 'pattern-height')).toEqual([]);
	day.send('number 250');
	const [read] = day.ofType('reading.taken').filter(({ feature }) => feature === 'pattern-height');
	expect(read).toMatchObject({ value: 250, matched: true });
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test.each([
	['humidity', ['number 21', 'number 5'], ['number 50', 'number 21']],
	['surfaceC', ['number 21', 'number 50', 'number 37'], ['number 21']],
] as const)('air of a %s that is seldom met is asked again', (of, slip, then) => {
	const day = rehearsed();
	day.toState('air.airC');
	day.send(...slip);
	expect(day.line().state).toBe(`air.${of}`);
	expect(day.line().lines.join()).toMatch(/Look again/);
	day.send(...then);
	expect(day.ofType('air.read')).toMatchObject([{ airC: 21, humidity: 0.5, surfaceC: 21 }]);
});

test('air as dry as that is believed when it is read so twice', () => {
	const day = rehearsed();
	day.toState('air.airC');
	day.send('number 21', 'number 8', 'number 8', 'number 21');
	expect(day.ofType('air.read')).toMatchObject([{ humidity: 0.08, surfaceC: 21 }]);
});

test('more left in the cup than can be in it is asked again, with what can be; the same figure twice is believed', () => {
	for (const again of [300, 40]) {
		const day = rehearsed();
		day.toState('left');
		const { loaded_mL } = day.state().book.cupSince;
		const { cup_mL } = day.state().book;
		const most_mL = loaded_mL - 0.75 * (loaded_mL - cup_mL);
		expect(most_mL).toBeLessThan(299);
		expect(day.line().say).toMatch(/^Air shut, line bled\. Pour off the cup/);
		day.send('number 300');
		expect(day.ofType('cup.emptied')).toEqual([]);
		expect(day.line().lines[0]).toMatch(/^300 mL\? At most \d+ mL can be in it\.$/);
		day.send(`number ${again}`);
		expect(day.ofType('cup.emptied').map(({ volume_mL }) => volume_mL)).toEqual([again]);
	}
});
