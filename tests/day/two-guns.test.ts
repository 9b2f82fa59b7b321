import { beforeAll, describe, expect, test } from 'vitest';
import type { DayRecord } from '../../src/day/records.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import { rehearsed } from './rehearsed.ts';
import { twoGuns } from './two-guns-job.ts';

/** A day of two guns. What is asked of the painter here follows the trade's order of work: common practice, no source. */

type Day = ReturnType<typeof rehearsed>;
let given: Awaited<ReturnType<typeof twoGuns>>;
beforeAll(async () => {
	given = await twoGuns();
});

/** The records from one on, up to another. */
const between = (day: Day, from: (one: DayRecord) => boolean, to: (one: DayRecord) => boolean) => {
	const rest = day.records().slice(day.records().findLastIndex(from));
	return rest.slice(0, rest.findIndex(to));
};
const starts = (coat: number) => (one: DayRecord) => one.type === 'face.started' && one.coat === coat;
const types = (records: readonly DayRecord[]) => records.map(({ type }) => type);
const isFull = (one: DayRecord) => one.type === 'check.began' && one.size === 'full';

describe('a day whose coats want two guns', () => {
	let day: Day;
	const lines: Line[] = [];
	beforeAll(() => {
		day = rehearsed({ ...given, watch: line => lines.push(line) });
		day.toEnd();
	});
	const toColour = () => between(day, starts(1), starts(2));

	test('is played to its end, and the independent checker finds it sound', () => {
		expect(day.ofType('face.started')).toHaveLength(12);
		expect(day.findings()).toEqual([]);
	});

	test('the first gun is poured off, what is left asked, before anybody waits for the next coat', () => {
		const made = types(toColour());
		expect(made.indexOf('cup.emptied')).toBeGreaterThan(0);
		expect(made.indexOf('cup.emptied')).toBeLessThan(made.indexOf('wait.began'));
		expect(toColour().find(({ type }) => type === 'cup.emptied')).toMatchObject({
			why: 'flushed',
			read: true,
		});
		expect(lines.find(({ state }) => state === 'left')?.say).toBe(
			'Gun large: air shut, bled. Pour it off: how much?',
		);
	});

	test('the other one is checked in full, by the name on its tape, then in its own set-up', () => {
		const check = toColour().slice(toColour().findIndex(isFull));
		expect(check[0]).toMatchObject({ items: ['gun', 'mask', 'extractor', 'batch', 'gauge', 'pattern'] });
		expect(check[1]).toMatchObject({ feature: 'gun', value: 'small', wanted: 'small', matched: true });
		const sets = check.flatMap(one => (one.type === 'gun.set' ? [one] : []));
		expect(sets).toMatchObject([{ horns: 'level', fanHeight_mm: 150 }, { fluid: '120.0 mL/min' }]);
		const gauge = check.find(one => one.type === 'reading.taken' && one.feature === 'gauge');
		expect(gauge).toMatchObject({ wanted: expect.closeTo(172.37, 1) });
	});

	test('its gauge is asked in its own unit', () => {
		const asked = lines.filter(({ state }) => state === 'gunCheck.gauge').map(({ unit }) => unit);
		expect(asked).toEqual(['bar', 'psi', 'psi']);
		// Both coats of the small gun come out of one pot.
		expect(lines.flatMap(({ state, lines: said }) => (state === 'mix.stir' ? said : []))).toEqual([
			'Gun large: 2 bar, trigger pulled.',
			'Gun small: 25 psi, trigger pulled.',
		]);
	});

	test('the name on the tape is asked without being shown', () => {
		const asked = lines.filter(({ state }) => state === 'gunCheck.gun');
		expect(asked).toHaveLength(3);
		for (const { say, lines: said, corners } of asked) {
			expect(`${say} ${said.join(' ')}`).not.toMatch(/large|small/i);
			expect(Object.values(corners).map(({ code }) => code)).toEqual(['another', 'large', 'small']);
		}
	});

	test('fills each cup as large as it is, and notes whose it is', () => {
		expect(day.ofType('batch.loaded').map(({ ofGun }) => ofGun)).toEqual(['large', 'small', 'small']);
	});
});

test('another gun in the hand is put back, and the tape read again', () => {
	const day = rehearsed(given);
	day.until(({ state, coat }) => state === 'gunCheck.gun' && coat === 2);
	const fix = day.pick('large');
	expect(fix).toMatchObject({ state: 'gunCheck.gun.differs', say: 'Gun: take up the one taped small.' });
	expect(day.pick('done').state).toBe('gunCheck.gun');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

const colour = '  - { spray: moss green, gun: small, coats: 2 full }\n';
const edges = (gun: string) => `  - { spray: grey epoxy, gun: ${gun}, coats: 1 full, only: [edges] }\n`;
const fronts = (text: string) =>
	text.replace('gun: large, coats: 1 full', 'gun: large, coats: 1 full, only: [front]');

test('the same paint goes into the cup of the other gun: none is sprayed from the first one, and none is lost from its pot', async () => {
	const job = await twoGuns(text => fronts(text).replace(colour, edges('small')));
	const day = rehearsed(job);
	day.toEnd();
	const [, second] = day.ofType('batch.loaded');
	expect(second).toMatchObject({ ofGun: 'small', refill: false });
	const turned = between(day, one => one.type === 'face.ended' && one.face === 'rail 2/front', isFull);
	expect(types(turned)).toContain('cup.emptied');
	expect(day.findings()).toEqual([]);
});

/** The large gun measured with a wide fan for the primer, and with a narrow one for a thin coat of it. */
const setUps = (text: string) =>
	fronts(text)
		.replace('  - wipe, tack\n', '')
		.replace('coats: { full: { film: 30 um } }', 'coats: { tack: { film: 15 um }, full: { film: 30 um } }')
		.replace(colour, edges('large').replace('1 full', '[tack]'))
		.replace(
			'    cup: 600 mL gravity\n',
			`    cup: 600 mL gravity
    set-ups:
      - { for: grey epoxy, pressure: 2 bar, fan: 25 cm, paint: 100 mL in 30 s }
      - { for: grey epoxy, coat: tack, pressure: 1.6 bar, fan: 12 cm, paint: 60 mL in 30 s }
`,
		);

test('another set-up of one gun: its cup stays, its tape is not asked, all else is checked in full', async () => {
	const job = await twoGuns(setUps);
	const day = rehearsed(job);
	day.toState('mix.begin');
	day.pick('amount');
	day.send('number 500');
	day.until(({ face, state }) => state === 'ready' && face?.endsWith('edges') === true);
	const turned = between(day, one => one.type === 'face.ended' && one.face === 'rail 2/front', starts(9));
	expect(types(turned)).not.toContain('cup.emptied');
	expect(types(turned)).not.toContain('batch.started');
	// Nothing but the gun itself ends what was known of it: no other work, no wait, no refill.
	expect(types(turned).slice(0, 5)).toEqual([
		...['face.ended', 'window.set', 'day.planned'],
		...['gun.unknown', 'check.began'],
	]);
	expect(turned.find(({ type }) => type === 'check.began')).toMatchObject({
		size: 'full',
		items: expect.not.arrayContaining(['gun']),
	});
	expect(turned.find(one => one.type === 'reading.taken' && one.feature === 'gauge')).toMatchObject({
		wanted: 160,
	});
	day.toEnd();
	expect(day.findings()).toEqual([]);
});
