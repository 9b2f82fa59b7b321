import { expect, test } from 'vitest';
import type { DayEvent } from '../../src/day/records.ts';
import { transact } from '../../src/day/transact.ts';
import { learn } from '../../src/plan/rates.ts';
import { batchRows } from '../../src/report/tables/batches.ts';
import { dayOf } from '../../src/report/tables/day.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/**
 * The letter on the cup is not the one that was filled in: what the painter pours away is what hangs there, and no batch
 * that the program thought was in it.
 */

/** A day whose cup holds a batch, at the reading of its letter. */
function atLetter(cup: string, seed = 0) {
	const day = rehearsed({ job: smallJob(), seed });
	day.until(({ state }) => state === 'gunCheck.batch' && day.state().machine.context.cup.join() === cup);
	return day;
}

const pot = (day: ReturnType<typeof rehearsed>, letter: string) =>
	day.state().book.batches.get(letter)?.pot_mL;

test('emptied of a cup of another letter, the batch that was thought to be in it is asked about', () => {
	const day = atLetter('A');
	const { cup_mL } = day.state().book;
	const before = pot(day, 'A') ?? 0;
	day.pick('another');
	expect(day.line().corners.topLeft?.code).toBe('empty-cup');
	day.pick('empty-cup');
	expect(day.line()).toMatchObject({
		ask: 'choose',
		say: 'Batch A: still there, in its pot or another cup?',
		lines: ['Only what is in this cup is thrown away.'],
		corners: { topLeft: { text: 'NOT THERE' }, topRight: { text: 'STILL THERE' } },
	});
	expect(day.ofType('cup.emptied')).toEqual([]);
	day.pick('still-there');
	expect(day.line()).toMatchObject({ ask: 'hold' });
	expect(cup_mL).toBeGreaterThan(100);
	expect(pot(day, 'A')).toBeCloseTo(before + cup_mL);
	expect(day.state().machine.context).toMatchObject({ cup: [] });
});

test('its record says how much went, and of which batch, only as far as that was read', () => {
	const day = atLetter('A');
	day.pick('another');
	day.pick('empty-cup');
	day.pick('not-there');
	const [emptied] = day.ofType('cup.emptied');
	expect(emptied).toMatchObject({ why: 'wrong batch' });
	for (const unread of ['volume_mL', 'read', 'batch', 'kept']) expect(emptied).not.toHaveProperty(unread);
	expect(pot(day, 'A')).toBeCloseTo(0);
});

test('still there, it is filled in from its pot again, and nothing is mixed anew', () => {
	const day = atLetter('A');
	day.pick('another');
	day.pick('empty-cup');
	day.pick('still-there');
	day.until(({ state }) => state === 'load' || state.startsWith('mix'));
	expect(day.line()).toMatchObject({ state: 'load' });
	expect(day.line().say).toMatch(/^Cup: fill to \d+ mL from the/);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('not there, no paint of it is counted any more: the next pot is mixed', () => {
	const day = atLetter('A');
	day.pick('another');
	day.pick('empty-cup');
	day.pick('not-there');
	day.until(({ state }) => state === 'load' || state.startsWith('mix'));
	expect(day.line().state).toMatch(/^mix/);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

/** The second batch in the cup, since the first died in a long wait, and the letter of the first among those shown. */
function afterFirst() {
	for (let seed = 0; seed < 12; seed++) {
		const day = rehearsed({ job: smallJob(), seed });
		day.toAsk('wait');
		day.send('wait 130 min');
		day.until(({ state }) => state === 'gunCheck.batch' && day.state().machine.context.cup.join() === 'B');
		if (Object.values(day.line().corners).some(({ code }) => code === 'A')) return day;
	}
	throw new Error('the letter of the first batch is never among those shown');
}

test('the letter read is the batch that is thrown away, in log and report', () => {
	const day = afterFirst();
	day.pick('A');
	day.pick('empty-cup');
	day.pick('still-there');
	const [emptied] = day.ofType('cup.emptied').slice(-1);
	expect(emptied).toMatchObject({ why: 'wrong batch', batch: 'A', kept: 'B' });
	expect(emptied).not.toHaveProperty('volume_mL');
	const rows = batchRows(dayOf(day.records()));
	expect(rows.find(({ batch }) => batch === 'A')?.emptied).not.toBeNull();
	expect(rows.find(({ batch }) => batch === 'B')?.emptied).toBeNull();
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('of the pot that the wrong cup was filled from, what the cup was filled with is not counted any more', () => {
	const job = smallJob();
	const day = rehearsed({ job: { ...job, gun: { ...job.gun, cup_mL: 200 } } });
	day.toState('gunCheck.batch');
	const rest_mL = pot(day, 'A') ?? 0;
	expect(rest_mL).toBeGreaterThan(50);
	const potAfter = (batch?: string) => {
		const state = day.state();
		const events: DayEvent[] = [
			{ type: 'break.began', kind: 'trouble', by: 'painter' },
			{ type: 'cup.emptied', why: 'wrong batch', ...(batch && { batch }) },
		];
		return transact(state, events, state.book.now).state.book.batches.get('A')?.pot_mL;
	};
	expect(potAfter()).toBeCloseTo(rest_mL);
	expect(potAfter('A')).toBeCloseTo(Math.max(0, rest_mL - day.state().book.cupSince.loaded_mL));
	expect(potAfter('A')).toBeLessThan(rest_mL);
});

test('a cup that was not the one it was taken for teaches the shop no rate', () => {
	const day = atLetter('A');
	day.pick('another');
	day.pick('empty-cup');
	day.pick('not-there');
	const real = day
		.records()
		.map(one => (one.type === 'day.opened' ? { ...one, clock: 'real' as const } : one));
	expect(learn([real], smallJob())).toEqual({});
});
