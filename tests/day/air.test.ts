import { expect, test } from 'vitest';
import { enter } from '../../src/day/enter.ts';
import { historyAfter } from '../../src/day/history.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** A sealer and a topcoat on one day; the topcoat bears less humidity. */
function twoMaterials() {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const [row] = topcoat.recoat;
	const sealer = { ...topcoat, id: 'sealer', name: 'sealer', isocyanate: false, recoat: [] };
	const drier = {
		...topcoat,
		limits: { ...topcoat.limits, humidity_max: 0.6 },
		recoat: [{ under: 'sealer', rows: row?.rows ?? [] }],
	};
	const names = ['sealer', 'topcoat'];
	return {
		...job,
		materials: { sealer, topcoat: drier },
		stages: names.map(name => ({
			kind: 'coats' as const,
			name,
			material: name,
			coats: ['full' as const],
		})),
		faces: job.faces.map(face => ({
			...face,
			coats: face.coats.map((coat, stage) => ({
				...coat,
				stage,
				material: names[stage] ?? '',
				ofStage: [1, 1] as [number, number],
			})),
		})),
	};
}

test('air read for one material is judged again for the next: topcoat is stopped by air that let the sealer on', () => {
	const day = rehearsed({ job: twoMaterials() });
	const { air } = day.painter.world;
	air.humidity = 0.7;
	const screen = day.toState('air.no');
	expect(day.ofType('air.read').map(({ spray }) => spray)).toEqual([true]);
	expect(screen.lines.join()).toMatch(/humid/i);
	const sealed = day.ofType('face.started');
	expect(sealed.map(({ coat }) => coat)).toEqual([1, 1, 1]);
	expect(sealed.every(({ facts }) => facts?.air === 'ok')).toBe(true);
	day.pick('go-on');
	day.pick('test-piece');
	day.until(({ state, coat }) => state === 'spraying' && coat === 2);
	expect(day.ofType('face.started').at(-1)).toMatchObject({ facts: { air: 'out' }, overrides: ['air'] });
	expect(day.findings()).toEqual([]);
});

test('a hold of 40 minutes asks for the air again, whatever the clock on the wall was set to in it', () => {
	const day = rehearsed();
	day.toState('ready');
	day.send('hold', 'wait 20 min', 'clock -1 h', 'wait 20 min');
	day.pick('back');
	day.pick('clock-right');
	expect(day.line().state).toBe('air.airC');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('air that has become dry enough for the topcoat lets it on with no reason asked', () => {
	const day = rehearsed({ job: twoMaterials() });
	const { air } = day.painter.world;
	air.humidity = 0.7;
	day.toState('air.no');
	air.humidity = 0.5;
	day.pick('read-again');
	day.until(({ state, coat }) => state === 'spraying' && coat === 2);
	expect(day.ofType('face.started').at(-1)).toMatchObject({ facts: { air: 'ok' }, overrides: [] });
	expect(day.findings()).toEqual([]);
});

/** The first coat is on; after a hold the surface is read so warm that nothing may go on, and once more after so many minutes. */
function readTwice(minutes: number) {
	const day = rehearsed();
	const { air } = day.painter.world;
	day.until(({ state }) => state === 'wait' && day.ofType('face.ended').length === 3);
	day.send('hold', 'wait 31 min');
	day.pick('back');
	air.surface_C = 45;
	day.toState('finish');
	const slip = day.ofType('window.set').at(-1);
	day.send(`wait ${minutes} min`);
	air.surface_C = 21;
	day.pick('read-again');
	day.until(() => day.ofType('air.read').length === 3);
	return { day, slip, stands: day.ofType('window.set').at(-1) };
}

test('a surface reading that is read again at once governs no window: the record stays, the second holds', () => {
	const { day, slip, stands } = readTwice(1);
	expect(slip?.surfaceC).toBe(45);
	expect(stands?.surfaceC).toBe(21);
	expect(day.ofType('air.read').map(({ surfaceC }) => surfaceC)).toEqual([21, 45, 21]);
	expect(historyAfter(day.records()).faces['left door/edges']?.coats[0]?.surfaceC).toBe(21);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a surface read too warm stays the warmest where the next reading comes a quarter of an hour later', () => {
	expect(readTwice(15).stands?.surfaceC).toBe(45);
});

test('a reading that a face was sprayed under is not taken back by the next', () => {
	const day = rehearsed();
	day.painter.world.air.surface_C = 30;
	day.toState('ready');
	day.until(() => day.ofType('face.ended').length === 1);
	expect(day.state().book.airs.map(({ surfaceC }) => surfaceC)).toEqual([30]);
	const [read] = day.ofType('air.read');
	if (!read) throw new Error('the air was read');
	const later = { ...read, surfaceC: 20, seq: 0, at: day.line().at, run: 0, mono: day.state().book.now.mono };
	expect(enter(day.state().book, later, 'bench').airs.map(({ surfaceC }) => surfaceC)).toEqual([30, 20]);
});

test('air read too warm and read again at once takes nothing off the pot life', () => {
	const day = rehearsed();
	day.toState('ready');
	day.send('hold', 'wait 31 min');
	day.pick('back');
	const { air } = day.painter.world;
	air.C = 36;
	day.toState('air.no');
	air.C = 21;
	day.pick('read-again');
	day.toState('ready');
	const left_s = day.line().timers.find(({ code }) => code === 'pot-life')?.left_s ?? 0;
	expect(left_s).toBeGreaterThan(3600);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('the air is read from a hold by two keys more: from a wait, from ready, and from trouble', () => {
	for (const state of ['wait', 'ready', 'trouble']) {
		const day = rehearsed();
		day.until(line => line.state === (state === 'trouble' ? 'spraying' : state));
		if (state === 'trouble') day.pick('trouble');
		day.send('hold');
		for (const code of ['put-right', 'read-air']) day.pick(code);
		expect(day.line().state).toBe('air.airC');
		day.send('number 24', 'number 60', 'number 22');
		expect(day.ofType('air.read').at(-1)).toMatchObject({ airC: 24, surfaceC: 22 });
		expect(day.line().state).toBe('hold');
		day.toEnd();
		expect(day.findings()).toEqual([]);
	}
});

test('air that was read in a long hold is not asked for again at its end', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 31 min');
	for (const code of ['put-right', 'read-air']) day.pick(code);
	day.send('number 21', 'number 50', 'number 21');
	day.pick('back');
	const read = day.ofType('air.read').length;
	day.toState('spraying');
	expect(day.ofType('air.read')).toHaveLength(read);
});
