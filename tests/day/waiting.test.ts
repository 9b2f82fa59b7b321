import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

const codes = (day: ReturnType<typeof rehearsed>) =>
	Object.values(day.line().corners).map(({ code }) => code);

/** The small job with a material that stands 15 min before it is sprayed. */
function standingJob() {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const order = ['stir', 'base', 'hardener', 'reducer', 'stir', 'stand', 'stir', 'strain', 'cup'] as const;
	return { ...job, materials: { topcoat: { ...topcoat, order: [...order], standing_min: 15 } } };
}

test('no reason shortens the standing of a batch', () => {
	const day = rehearsed({ job: standingJob() });
	day.toState('wait');
	expect(codes(day)).not.toContain('sooner');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a flash may be cut short with a reason; the standing and the wet tab after it still hold', () => {
	const day = rehearsed({ job: standingJob() });
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	day.pick('sooner');
	day.pick('test-piece');
	expect(day.line().ask).toBe('touch');
	day.pick('strings');
	expect(day.line().state).toBe('wait');
	expect(codes(day)).not.toContain('sooner');
	day.toEnd();
	expect(day.ofType('override.given').map(({ rule, reason }) => [rule, reason])).toEqual([
		['window', 'tested on scrap'],
	]);
	expect(day.findings()).toEqual([]);
});

test('a clock set forward shortens no flash, not even when the program is started again after it', () => {
	const leftAfter = (...lines: string[]) => {
		const day = rehearsed();
		day.until(({ state, coat }) => state === 'wait' && coat === 2);
		day.send('clock +1 h', ...lines);
		day.pick('back');
		day.until(({ state }) => state === 'wait' || state === 'spraying');
		const { say } = day.line();
		day.toEnd();
		expect(day.findings()).toEqual([]);
		return say;
	};
	expect(leftAfter()).toMatch(/^Wait 4\d min/);
	expect(leftAfter('kill')).toBe(leftAfter());
	expect(leftAfter('kill', 'kill')).toBe(leftAfter());
});

test('a clock set back lengthens no pot life, not even when the program is started again after it', () => {
	const lifeAfter = (...lines: string[]) => {
		const day = rehearsed();
		day.until(({ state, coat }) => state === 'wait' && coat === 2);
		day.send('clock -20 min', ...lines);
		day.until(({ state }) => state === 'wait');
		return day.line().timers.find(({ code }) => code === 'pot-life')?.left_s;
	};
	expect(Math.abs((lifeAfter('kill') ?? 0) - (lifeAfter() ?? 0))).toBeLessThan(60);
});

test('a tape tab speaks for no face that was laid long after it: that one is asked for at its own time', () => {
	const day = rehearsed();
	day.until(({ state, face, coat }) => state === 'ready' && face === 'right door/flat' && coat === 1);
	day.send('hold', 'wait 40 min');
	day.pick('back');
	day.toEnd();
	const touched = day.ofType('reading.taken').filter(({ feature }) => feature === 'touch');
	expect(touched.map(({ faces }) => faces)).toEqual([
		['left door/edges', 'left door/flat'],
		['right door/flat'],
	]);
	expect(day.findings()).toEqual([]);
});

test('faces laid one after the other share one tape tab', () => {
	const day = rehearsed();
	day.toEnd();
	const touched = day.ofType('reading.taken').filter(({ feature }) => feature === 'touch');
	expect(touched.map(({ faces }) => faces?.length)).toEqual([3]);
});

test('a day carried on the next morning goes through the list before spraying again, from its first item', () => {
	const day = rehearsed();
	day.until(({ state, face, coat }) => state === 'ready' && face === 'right door/flat' && coat === 1);
	day.send('kill', 'wait 23 h');
	day.pick('back');
	expect(day.line().say).toBe('Left door edges; left door flat: coat 2 missed.');
	day.pick('later');
	const lists = () => day.ofType('check.began').filter(({ list }) => list === 'before-spraying').length;
	expect(day.line().state).toBe('list.before-spraying.mask');
	day.send('hold');
	day.pick('back');
	expect(day.line().state).toBe('list.before-spraying.mask');
	day.toState('spraying');
	expect(lists()).toBe(3);
	day.toEnd();
	expect(lists()).toBe(3);
	expect(day.findings()).toEqual([]);
});

test('in a wait too another amount is keyed, and one that the marks cannot give is mixed under a reason', () => {
	const day = rehearsed({ settings: { units: 'us' } });
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	day.pick('mix');
	day.pick('amount');
	expect(day.line().state).toBe('mix.amount');
	day.send('number 1.8');
	expect(day.line().state).toBe('mix.marks');
	day.pick('finer');
	day.pick('finer-cup');
	expect(day.line().state).toBe('mix.stir');
	expect(day.ofType('batch.started').at(-1)?.make_mL).toBeCloseTo(53.2, 1);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

/** The line of a wait about what is left to do, so many minutes before its end. */
function soonLine(day: ReturnType<typeof rehearsed>, minutes: number): string | undefined {
	const left_s = day.line().timers[0]?.left_s ?? 0;
	day.send(`wait ${left_s - minutes * 60} s`);
	expect(day.line().state).toBe('wait');
	return day.line().lines.find(line => /^Suit up|^Be back/.test(line));
}

test('in a wait that paint must be mixed in, it is said as early as the batch has to stand, and 8 min', () => {
	const day = rehearsed({ job: standingJob() });
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	expect(codes(day)).toContain('mix');
	expect(soonLine(day, 24)).toBeUndefined();
	expect(soonLine(day, 22)).toBe('Suit up, mix: the batch takes 23 min.');
});

test('in a wait with nothing left to mix nobody is told to', () => {
	const day = rehearsed();
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	day.pick('mix');
	day.until(({ state }) => state === 'wait');
	expect(day.ofType('batch.ready').length).toBe(2);
	expect(soonLine(day, 5)).toBe('Suit up, ear plugs in.');
});

test('while a batch stands there is nothing to mix and nobody to dress', () => {
	const day = rehearsed({ job: standingJob() });
	day.toState('wait');
	expect(soonLine(day, 5)).toBe('Be back at the pot: it has nearly stood.');
});
