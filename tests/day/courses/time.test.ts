import { expect, test } from 'vitest';
import { foldAll } from '../../../src/day/state.ts';
import { coats, dayOf } from './sheets.ts';

/** Clocks that jump, a machine that sleeps, a painter who does not answer: what the screens then say, one after the other. */

type Day = Awaited<ReturnType<typeof dayOf>>;
const minute_ms = 60_000;
const outside = 'hatch/outside';

/** Into the wait for the second coat. */
async function inFlash() {
	const day = await dayOf({ stages: coats(3) });
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	return day;
}
/** What hold says is left of the wait that it found. */
const leftIn = (day: Day) => /You were in a wait, (.*) left\./.exec(day.line().lines.join('\n'))?.[1];
const broken = (day: Day) => day.ofType('break.began').map(({ kind }) => kind);

test('while the coat flashes no window is said to close', async () => {
	const day = await inFlash();
	const its = day.line().timers.filter(({ face }) => face === outside);
	expect(its.map(({ code }) => code)).toEqual(['opens']);
	expect(JSON.stringify(day.line())).not.toMatch(/closes/i);
});

test('asleep for longer than the flash: hold says that the wait is over, and no wait follows', async () => {
	const day = await inFlash();
	day.send('sleep 25 min');
	expect(day.line().lines).toContain('You were in a wait. It is over.');
	day.pick('back');
	expect(day.line()).toMatchObject({ ask: 'touch' });
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('asleep for a part of the flash: hold and the wait after it say the same time', async () => {
	const day = await inFlash();
	day.send('sleep 11 min');
	const left = leftIn(day);
	expect(left).toMatch(/^\d min/);
	day.pick('back');
	expect(day.line().say).toContain(`Wait ${left},`);
});

test('asleep in the last hour of an open window: what is left of it is offered, never the wait after it', async () => {
	const windows =
		'wait: 0 to 20 min, spray: 20 min to 75 min, wait: 75 min to 195 min, spray: 195 min to 12 h, sand: from 12 h';
	const day = await dayOf({ primer: { longestFlash: '60 min', windows }, stages: coats(3), parts: 'shelf' });
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	const ended = Date.parse(day.ofType('face.ended')[0]?.at ?? '');
	day.send('sleep 60 min');
	expect(day.line().lines).toContain('You were in a wait. It is over.');
	day.pick('back');
	const { state } = day.until(line => line.state === 'ready' || line.state === 'wait');
	expect(state).toBe('ready');
	day.toState('spraying');
	const [, start] = day.ofType('face.started');
	expect(start?.window).toBe('spray');
	expect(Date.parse(start?.at ?? '') - ended).toBeLessThan(75 * minute_ms);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('the clock set back in the flash and said to be right: the wait goes on where it was, and ends once', async () => {
	const day = await inFlash();
	const [timer] = day.line().timers;
	day.send('wait 5 min', 'clock -1 h', 'wait 5 min');
	expect(day.line().timers[0]?.left_s).toBe((timer?.left_s ?? 0) - 600);
	const left = leftIn(day);
	day.pick('back');
	expect(day.line().state).toBe('hold.clock');
	day.pick('clock-right');
	expect(day.line().say).toContain(`Wait ${left},`);
	expect(day.line().timers[0]?.left_s).toBe((timer?.left_s ?? 0) - 600);
	day.until(({ state }) => state !== 'wait');
	expect(day.line().ask).toBe('touch');
	expect(day.ofType('wait.began').filter(({ coat }) => coat === 2)).toHaveLength(2);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('minutes of silence inside the gun check are a break: the gear may have been put away', async () => {
	const day = await dayOf({ stages: coats(1) });
	day.until(({ state }) => state === 'gunCheck.pattern');
	day.send('wait 55 min');
	expect(broken(day)).toEqual(['silence']);
	expect(day.line().ask).toBe('hold');
	day.toState('ready');
	expect(day.ofType('check.began').filter(({ size }) => size === 'full')).toHaveLength(2);
});

test('minutes of silence at ready are a break', async () => {
	const day = await dayOf({ stages: coats(1) });
	day.toState('ready');
	day.send('wait 19 min');
	expect(broken(day)).toEqual(['silence']);
	expect(day.line().ask).toBe('hold');
	day.toState('ready');
	expect(day.ofType('check.began').filter(({ size }) => size === 'full')).toHaveLength(2);
});

test('a clock that went on by itself is asked about: was it set, or did the machine sleep?', async () => {
	const jumped = async (answer: string) => {
		const day = await inFlash();
		day.send('clock +30 min');
		expect(day.line().say).toMatch(/^The clock jumped/);
		day.pick('back');
		expect(day.line()).toMatchObject({ state: 'hold.jump', ask: 'choose' });
		day.pick(answer);
		return day;
	};
	const lifeOf = (day: Day) => day.line().timers.find(({ code }) => code === 'pot-life')?.left_s ?? 0;
	const sleptThrough = await jumped('slept');
	const wasSet = await jumped('set');
	const notSure = await jumped('not-sure');
	expect(sleptThrough.line().ask).toBe('touch');
	expect(wasSet.line().ask).toBe('wait');
	expect(notSure.line().say).toBe(wasSet.line().say);
	expect(lifeOf(wasSet) - lifeOf(sleptThrough)).toBe(1800);
	expect(lifeOf(notSure)).toBe(lifeOf(sleptThrough));
	for (const day of [sleptThrough, wasSet, notSure]) {
		day.toEnd();
		expect(day.findings()).toEqual([]);
		expect(foldAll(day.records())).toEqual(day.state());
	}
});
