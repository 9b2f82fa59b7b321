import { describe, expect, test } from 'vitest';
import { loadLists } from '../../src/job/lists.ts';
import { parseJob } from '../../src/job/load.ts';
import { dayOf } from '../../src/report/tables/day.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { heldBack } from '../../src/report/tables/windows.ts';
import { timesOf } from '../../src/report/times.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { smallJob } from '../day/small-job.ts';
import { altered } from '../job/altered.ts';
import { makeCase } from '../trace/generator/case.ts';
import { added, cartDay } from './cart-day.ts';

describe('coats', () => {
	test('a face broken off half-way and finished is one coat of two passes, and the break counts no time', () => {
		const day = rehearsed();
		day.until(({ state, face }) => state === 'spraying' && face === 'left door/flat');
		day.send('wait 20 s', 'hold', 'wait 15 s');
		day.pick('back');
		day.pick('part');
		day.send('number 3');
		day.toEnd();
		const row = tablesOf(day.records()).coats.find(
			({ face, coat }) => face === 'left door/flat' && coat === 1,
		);
		expect(row?.passes.map(({ extent, took_s }) => [extent, took_s])).toEqual([
			['part', 20],
			// Three of seven strokes were on: four sevenths of a minute.
			['all', 34],
		]);
		expect(row).toMatchObject({ took_s: 54, extent: 'all' });
	});

	test('faces of a stretch have their share of it, marked as estimated', () => {
		const day = rehearsed({ settings: { by: 'stretch' } });
		day.until(({ ask, face }) => ask === 'go' && face === 'left door/flat');
		day.send('top-left', 'bottom-right', 'wait 90 s');
		day.pick('finished');
		const coats = tablesOf(day.records()).coats.slice(-2);
		expect(coats.map(({ took_s, estimated }) => [took_s, estimated])).toEqual([
			[45, true],
			[45, true],
		]);
	});

	test('with a trigger line only the seconds with the trigger pulled count', () => {
		const day = rehearsed();
		day.until(({ state }) => state === 'spraying');
		day.send('trigger on', 'wait 12 s', 'trigger off', 'wait 5 s', 'trigger on', 'wait 10 s', 'trigger off');
		day.pick('finished');
		expect(tablesOf(day.records()).coats[0]?.took_s).toBe(22);
	});
});

describe('film', () => {
	test('flow × transfer × time ÷ area, and the target from dry film, solids and reducer', () => {
		const day = rehearsed();
		day.toState('spraying');
		day.send('trigger on', 'wait 60 s', 'trigger off', 'wait 15 s');
		day.pick('finished');
		day.toEnd();
		const [row] = tablesOf(day.records()).film;
		// The film wanted × 60 s pulled ÷ 60 s planned.
		expect(row?.laid_wet_um).toBeCloseTo(row?.target_wet_um ?? 0, 6);
		// 40 µm dry of 50 % solids, reduced 1 to 3.
		expect(row?.target_wet_um).toBeCloseTo((40 * (1 + 1 / 3)) / 0.5, 6);
		expect(row).toMatchObject({
			pace: 'right',
			over_sag: false,
			wants_mL: 90,
			sag_um: smallJob().materials.topcoat?.sag_um,
		});
	});
});

describe('film of a pour that was off', () => {
	test('the dry film goes by the solids of the batch as it was poured, the target by those it was to have', () => {
		const day = rehearsed();
		day.toState('mix.level.reducer');
		const [{ make_mL: wanted } = { make_mL: 0 }] = day.ofType('batch.started');
		day.send(`number ${wanted - 1}`);
		day.toState('spraying');
		day.send('trigger on', 'wait 60 s', 'trigger off', 'wait 15 s');
		day.pick('finished');
		day.toEnd();
		const [row] = tablesOf(day.records()).film;
		const pours = day.ofType('batch.poured').filter(({ batch }) => batch === 'A');
		expect(pours.map(({ found }) => found)).toEqual(['right', 'right', 'right']);
		const [, hardener, all] = pours.map(({ level_mL }) => level_mL);
		// 50 % solids in base and hardener, none in the reducer.
		expect(row?.laid_dry_um).toBeCloseTo((row?.laid_wet_um ?? 0) * 0.5 * ((hardener ?? 0) / (all ?? 1)), 6);
		expect(row?.laid_dry_um).toBeGreaterThan(40 + 0.1);
		expect(row?.target_wet_um).toBeCloseTo((40 * (1 + 1 / 3)) / 0.5, 6);
	});
});

describe('breaks', () => {
	test('a machine that slept was away from when it last ran', () => {
		const day = rehearsed();
		day.toAsk('go');
		const last = day.records().at(-1)?.at;
		day.send('sleep 3 h');
		day.toEnd();
		expect(tablesOf(day.records()).breaks).toMatchObject([
			{ kind: 'suspend', began: last, lasted_s: 10_800 },
		]);
	});
});

describe('windows', () => {
	const ended = '2027-03-02T08:00:00.000Z';
	const windows = [
		{ does: 'wait' as const, from: ended, until: '2027-03-02T08:45:00.000Z' },
		{ does: 'spray' as const, from: '2027-03-02T08:45:00.000Z', until: '2027-03-02T11:00:00.000Z' },
		{ does: 'sand' as const, from: '2027-03-02T11:00:00.000Z', until: null },
	];

	test('a wait that the sheet asks for covers the windows before its end', () => {
		expect(heldBack(windows, ended, 0)).toEqual(windows);
		expect(heldBack(windows, ended, 2 * 3600).map(({ does, from }) => [does, from])).toEqual([
			['wait', ended],
			['spray', '2027-03-02T10:00:00.000Z'],
			['sand', '2027-03-02T11:00:00.000Z'],
		]);
		expect(heldBack(windows, ended, 24 * 3600).map(({ does, from }) => [does, from])).toEqual([
			['wait', ended],
			['sand', '2027-03-03T08:00:00.000Z'],
		]);
	});

	test('each coat says when the next one was laid on it, and only the last of a face is in force', () => {
		const day = rehearsed();
		day.toEnd();
		const rows = tablesOf(day.records()).windows.filter(({ face }) => face === 'left door/edges');
		expect(rows.map(({ coat, last, next }) => [coat, last, next?.coat, next?.window])).toEqual([
			[1, false, 2, 'spray'],
			[2, true, undefined, undefined],
		]);
	});

	test('a coat of an earlier day has its windows too', () => {
		const day = rehearsed().records();
		const [first] = day;
		if (first?.type !== 'day.opened') throw new Error('no day');
		const coats = [{ coat: 1, ended: '2027-03-01T08:00:00.000Z', cup: ['A'], surfaceC: 20 }];
		const before = { letters: 1, faces: { 'left door/flat': { coats, prep: [], aside: null } } };
		const [row] = tablesOf([{ ...first, before }]).windows;
		expect(row).toMatchObject({ face: 'left door/flat', coat: 1, last: true });
		expect(row?.windows[0]).toMatchObject({ does: 'wait', from: '2027-03-01T08:00:00.000Z' });
	});
});

test('a batch keeps its pours with what was wanted, its cup, its loads and the end of its life', async () => {
	const [batch, ...more] = tablesOf(await cartDay()).batches;
	expect(batch?.pours.map(({ component, found }) => [component, found])).toEqual([
		['base', 'right'],
		['hardener', 'right'],
		['reducer', 'right'],
	]);
	expect(batch?.pours.every(({ level_mL, wanted_mL }) => level_mL !== null && wanted_mL !== null)).toBe(true);
	// One pot for both coats; the gun is laid over for a face of the second: to three quarters, and once more.
	expect(more).toEqual([]);
	expect(batch?.loads.map(({ refill }) => refill)).toEqual([false, true, true]);
	// Four hours at 70 °F, by the sheet, and the air was read at 70 °F.
	const life_h = (Date.parse(batch?.lives_until ?? '') - Date.parse(batch?.hardened ?? '')) / 3_600_000;
	expect(life_h).toBeCloseTo(4, 1);
});

test('what is due after the primer: sanding when it is hard, then the topcoat; wiping is in no calendar', async () => {
	const { due } = tablesOf(await cartDay());
	expect(new Set(due.map(({ what }) => what))).toEqual(new Set(['sand', 'stage']));
	const [sand] = due.filter(({ face, what }) => face === 'canopy rail/front' && what === 'sand');
	const [stage] = due.filter(({ face, what }) => face === 'canopy rail/front' && what === 'stage');
	expect(sand && stage && sand.at <= stage.at).toBe(true);
});

test('tables of a day that no machine has gone through hold every coat begun in it', () => {
	for (let seed = 0; seed < 12; seed++)
		for (const day of makeCase(seed).days) {
			const begun = new Set(
				day.flatMap(record => (record.type === 'face.started' ? `${record.face} ${record.coat}` : [])),
			);
			const { coats, film, windows } = tablesOf(day);
			expect(new Set(coats.map(({ face, coat }) => `${face} ${coat}`))).toEqual(begun);
			expect(film.length).toBeLessThanOrEqual(coats.length);
			for (const { began, ended } of coats) expect(began <= ended).toBe(true);
			expect(windows.length).toBeGreaterThan(0);
		}
});

test('entries added the next morning stand in the tables and leave the hours of the day alone', async () => {
	const day = await cartDay();
	const { day: head, faults } = tablesOf(day);
	expect(head.closed).toBe(day.find(({ type }) => type === 'day.closed')?.at);
	expect(faults.at(-1)?.at.localeCompare(head.closed ?? '')).toBe(1);
	expect(tablesOf(added(day, 1, [])).faults).toEqual(faults);
});

test('records that begin with anything but day.opened are no day', () => {
	const [, second] = rehearsed().records();
	expect(() => dayOf(second ? [second] : [])).toThrow(/day.opened is missing/);
	expect(() => dayOf([])).toThrow(RangeError);
});

describe('instants in the zone of the day', () => {
	const opened = '2027-07-01T23:30:00.000Z';

	test.each([
		['UTC', '23:30', 0],
		['America/St_Johns', '21:00', -150],
		['Asia/Kathmandu', '05:15', 345],
	])('%s', (zone, clock, ahead) => {
		const times = timesOf(zone, opened);
		expect(times.clock(opened)).toBe(clock);
		expect(times.ahead_min(opened)).toBe(ahead);
	});

	test('another date is said with it, another year too', () => {
		const times = timesOf('UTC', opened);
		expect(times.moment('2027-07-02T08:05:00.000Z')).toBe('2 Jul 08:05');
		expect(times.moment('2028-07-01T08:05:00.000Z')).toBe('1 Jul 2028 08:05');
		expect(times.moment('2027-07-01T08:05:00.000Z')).toBe('08:05');
	});

	test('a zone that is not known becomes UTC, and says so', () => {
		const times = timesOf('Nowhere/Land', opened);
		expect(times.clock(opened)).toBe('23:30');
		expect(times.zone).toContain('Nowhere/Land, is not known here');
	});
});

test('a step that the sheet leaves a face out of is due on the others alone', async () => {
	const file = 'checklists/example/coffee-cart.yaml';
	const read = parseJob(
		altered('  - sand: 400 grit', '  - fill: yes\n    leave out: [canopy rail]\n  - sand: 400 grit'),
		file,
	);
	const lists = read.ok ? await loadLists(read.job, file) : read;
	if (!read.ok || !lists.ok) throw new Error('the altered example cannot be read');
	const day = rehearsed({ job: read.job, lists: lists.lists });
	day.toEnd();
	const filled = tablesOf(day.records()).due.flatMap(({ what, face }) => (what === 'fill' ? [face] : []));
	expect(filled).toContain('left door/outside');
	expect(filled.filter(face => face.startsWith('canopy rail'))).toEqual([]);
});
