import { expect, test } from 'vitest';
import { standardSettings } from '../../src/day/standard-settings.ts';
import type { Face } from '../../src/job/job.ts';
import { facesInOrder } from '../../src/words/say.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** As the settings come: faces that follow each other with nothing to touch between. */

/** So many flats, one a part, each sprayed for so long. */
function flats(parts: readonly string[], spray_s: number) {
	const job = smallJob();
	const flat = job.faces.find(({ name }) => name === 'flat');
	if (!flat) throw new Error('the small job has a flat face');
	const coats = flat.coats.map(coat => ({ ...coat, spray_s, volume_mL: 20 }));
	const faces = parts.map((part): Face => ({ ...flat, id: `${part}/flat`, part, after: [], coats }));
	return { ...job, parts: parts.map(name => ({ name, place: null })), faces };
}
const seats = (count: number) => Array.from({ length: count }, (_, nth) => `seat ${nth + 1}`);
const auto = { by: standardSettings.by };

/** Faces that one START begins. */
function startedAtOnce(day: ReturnType<typeof rehearsed>) {
	day.toState('spraying');
	return day.ofType('face.started').map(({ face }) => face);
}

test('as the settings come one key starts eight equal faces, and their name says them all', () => {
	const day = rehearsed({ job: flats(seats(8), 20), settings: auto });
	expect(startedAtOnce(day)).toEqual(seats(8).map(part => `${part}/flat`));
	expect(day.line().say).toBe('Seat 1 to 8 flat: coat 1.');
	day.toEnd();
	expect(day.ofType('face.ended').length).toBe(16);
	expect(day.findings()).toEqual([]);
});

test('equal faces are one stretch for four minutes, not longer', () => {
	expect(startedAtOnce(rehearsed({ job: flats(seats(8), 60), settings: auto })).length).toBe(4);
});

test('faces that are not alike are six at most', () => {
	const lids = ['lid', 'rail', 'flap', 'drawer', 'shelf', 'post', 'hatch', 'tray'];
	expect(startedAtOnce(rehearsed({ job: flats(lids, 20), settings: auto })).length).toBe(6);
});

test('with a helper at the keys each face is started by itself', () => {
	expect(startedAtOnce(rehearsed({ job: flats(seats(8), 20), settings: { by: 'face' } })).length).toBe(1);
});

test('broken off, the last of eight is asked by its number; one that was not among them is not taken', () => {
	const day = rehearsed({ job: flats(seats(8), 20), settings: auto });
	day.toState('spraying');
	day.send('wait 70 s', 'hold');
	day.pick('back');
	expect(day.line()).toMatchObject({ ask: 'which-face', unit: 'seat', min: 1, max: 8, corners: {} });
	expect(day.send('number 9').accepted).toBe(false);
	day.send('number 4');
	day.pick('none');
	expect(day.ofType('face.ended').map(({ extent }) => extent)).toEqual([
		...['all', 'all', 'all'],
		...['none', 'none', 'none', 'none', 'none'],
	]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('equal parts are named together, in the order in which they are sprayed', () => {
	const tops = (...numbers: number[]) => numbers.map(number => `seat ${number}/top`);
	expect(facesInOrder(tops(1, 2, 3, 5))).toBe('seat 1 to 3, 5: top');
	expect(facesInOrder(tops(2, 1, 3))).toBe('seat 2, 1, 3: top');
	expect(facesInOrder(['left door/edges', 'left door/outside', 'right door/edges'])).toBe(
		'left door: edges, outside; right door: edges',
	);
});

test('edges and top of eight equal seats are one stretch, part by part; broken off, its face is asked behind the number', () => {
	const job = flats(seats(8), 10);
	const faces = job.faces.flatMap((face): Face[] => [
		{ ...face, id: `${face.part}/edges`, name: 'edges', area_m2: 0.1 },
		face,
	]);
	const day = rehearsed({ job: { ...job, faces }, settings: auto });
	expect(startedAtOnce(day)).toEqual(seats(8).flatMap(part => [`${part}/edges`, `${part}/flat`]));
	expect(day.line().say).toBe('Seat 1 to 8 edges, flat: coat 1.');
	day.send('wait 70 s', 'hold');
	day.pick('back');
	day.send('number 4');
	day.pick('seat 4/flat');
	day.pick('all');
	expect(day.ofType('face.ended').filter(({ extent }) => extent === 'all').length).toBe(8);
});
