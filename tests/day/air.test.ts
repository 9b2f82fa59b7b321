import { expect, test } from 'vitest';
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
