import { expect, test } from 'vitest';
import { learn, ratesOf } from '../../src/plan/rates.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** What the shop's own days have shown, and the day that begins with it. */

const half = { topcoat: { time: 0.5, paint: 0.5 } };

/** The rest of the cup at the end of the day, keyed in. */
const toRest = (day: ReturnType<typeof rehearsed>) => day.toState('left');

test('as much is mixed, and as long is allowed, as the shop’s own days have shown', () => {
	const amount = (day: ReturnType<typeof rehearsed>) => {
		day.toState('mix.begin');
		day.send('top-left');
		return day.ofType('batch.started')[0]?.make_mL;
	};
	expect(amount(rehearsed())).toBe(300);
	const own = rehearsed({ rates: half });
	expect(amount(own)).toBe(150);
	own.toAsk('spraying');
	expect(own.ofType('face.started')[0]?.spray_s).toBe(30);
	expect(checkDayFile(own.bytes())).toEqual([]);
});

test('the day mixes what runs short inside a face no oftener than the sheet’s risk, and what no face gets', () => {
	const job = smallJob();
	const losses = { strainer_mL: 10, pot_mL: 10, gun_mL: 20, burst_s: 1 };
	const unsure = { ...job, risk: 0.02, gun: { ...job.gun, transfer_tolerance: 0.1, losses } };
	const day = rehearsed({ job: unsure });
	day.toState('mix.begin');
	day.send('top-left');
	// Three faces of 90 mL, η 60 ± 10: σ² = (1/6)² + 0.05² + 0.1²/3, m = 0.1² ÷ 3; z of 2 % is 2.0537.
	const sure = Math.exp(0.01 / 3 + 2.0537 * Math.sqrt(1 / 36 + 0.0025 + 0.01 / 3));
	const bursts = (4 * 180) / 60;
	expect(day.ofType('batch.started')[0]?.make_mL).toBe(Math.ceil((270 * sure + 40 + bursts) / 10) * 10);
});

test('a face that would want more than the cup holds is sprayed from a full cup, and the day does not mix in a circle', () => {
	const day = rehearsed({ rates: { topcoat: { time: null, paint: 13 } } });
	day.toEnd();
	expect(day.ofType('face.ended').map(({ extent }) => extent)).toEqual(Array(6).fill('all'));
	expect(day.findings()).toEqual([]);
});

test('a pass is late after half its time more once rates are learned, after twice that before', () => {
	const lateAfter_s = (rates?: typeof half) => {
		const day = rehearsed(rates ? { rates } : {});
		day.toAsk('spraying');
		const [first] = day.ofType('face.started');
		day.send('wait 200 s');
		return (Date.parse(day.ofType('face.late')[0]?.at ?? '') - Date.parse(first?.at ?? '')) / 1000;
	};
	expect(lateAfter_s()).toBe(60 + 60);
	expect(lateAfter_s(half)).toBe(30 + 15);
});

test('what is learned from key to key is said to be the usual time, never the time to spray in', () => {
	const lines = (day: ReturnType<typeof rehearsed>) => day.toState('ready').lines.join(' ');
	expect(lines(rehearsed())).toContain('full coat, 60 s.');
	expect(lines(rehearsed({ rates: half }))).toContain('full coat, usually 30 s.');
});

test('the cup is poured off and read at the end of the day; not measured, it is worked out and teaches nothing', () => {
	const read = rehearsed();
	expect(toRest(read).ask).toBe('number');
	expect(read.line()).toMatchObject({ of: 'left', unit: 'mL', min: 0, max: 600 });
	read.send('number 35');
	expect(read.ofType('cup.emptied').at(-1)).toMatchObject({
		volume_mL: 35,
		why: 'end of the day',
		read: true,
	});
	expect(read.line().state).toMatch(/^list/);

	const unread = rehearsed();
	toRest(unread);
	unread.pick('unread');
	const emptied = unread.ofType('cup.emptied').at(-1);
	expect(emptied?.why).toBe('end of the day');
	expect(emptied).not.toHaveProperty('read');
	expect(unread.findings()).toEqual([]);
});

test('seen by eye the rest is one key, no more than can be left, and no reading', () => {
	for (const [code, share] of [
		['half', 1 / 2],
		['quarter', 1 / 4],
		['empty', 0],
	] as const) {
		const day = rehearsed();
		toRest(day);
		const { cup_mL, cupSince } = day.state().book;
		const most_mL = cupSince.loaded_mL - 0.75 * (cupSince.loaded_mL - cup_mL);
		day.pick(code);
		const [emptied] = day.ofType('cup.emptied');
		expect(emptied?.volume_mL).toBeCloseTo(Math.min(most_mL, share * day.job.gun.cup_mL), 6);
		expect(emptied).not.toHaveProperty('read');
		expect(day.line().state).toMatch(/^list/);
		expect(day.findings()).toEqual([]);
	}
});

test('a hold before the rest is read loses the question, not the paint', () => {
	const day = rehearsed();
	toRest(day);
	day.send('hold');
	expect(day.ofType('cup.emptied')).toEqual([]);
	toRest(day);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a shop that takes more than its sheet says wants more the next day', () => {
	const job = smallJob();
	const first = rehearsed({ job, settings: { by: 'face' } });
	toRest(first);
	const filled = first.ofType('batch.loaded').at(-1);
	const passes = first.ofType('face.ended').filter(({ seq }) => seq > (filled?.seq ?? 0)).length;
	first.send('number 12');
	first.toEnd();
	const day = first
		.records()
		.map(one => (one.type === 'day.opened' ? { ...one, clock: 'real' as const } : one));
	const rates = ratesOf(learn([day], job));
	// From where it was last seen how full the cup is.
	const used = ((filled?.to_mL ?? 0) - 12) / (passes * 90);
	// One cup: prior 0.05² (transfer ± 0), cup to cup 0.1², two readings of 5 mL.
	const weight = 0.0025 / (0.0025 + 0.01 + 50 / (passes * 90) ** 2);
	expect(rates.topcoat?.paint).toBeCloseTo(used ** weight, 6);
	expect(rates.topcoat?.cups).toBe(1);
	const next = rehearsed({ job, rates });
	const wants_mL = Math.round(90 * (rates.topcoat?.paint ?? 0));
	expect(wants_mL).toBeGreaterThan(90);
	expect(next.toState('ready').lines.join(' ')).toContain(`wants ${wants_mL} mL`);
});
