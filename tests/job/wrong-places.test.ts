import { expect, test } from 'vitest';
import { type Alteration, altered, complaintsOf, placeOf } from './altered.ts';

const cases: Alteration[] = [
	[
		'a key written twice',
		'place: 3',
		'place: 3\n    place: 4',
		'place: 4\n    faces',
		/part left door, place: written twice/,
	],
	[
		'a material written twice',
		'  topcoat:\n    name',
		'  primer: {}\n  topcoat:\n    name',
		'primer: {}',
		/materials, primer: written twice/,
	],
	[
		'a part named twice',
		'- part: right door',
		'- part: Left door',
		'Left door',
		/part Left door: there is one of this name already/,
	],
	[
		'a face named twice',
		'- face: top',
		'- face: edges',
		'edges\n        attitude: flat',
		/face edges: there is one of this name already/,
	],
	[
		'a face without a size',
		'        size: 24 in x 20 in\n',
		'',
		'face: sides',
		/face sides, area is missing: write "area: 2 m2" or "size/,
	],
	[
		'flat work without a near edge',
		'        near edge: hinge edge\n',
		'',
		'face: top',
		/face top, near edge is missing/,
	],
	[
		'a near edge on upright work',
		'tilt: left',
		'near edge: floor\n        tilt: left',
		'floor',
		/near edge: only flat work has one/,
	],
	[
		'up and down on flat work',
		'stroke: to and fro',
		'stroke: up and down',
		'up and down\n        crosswise',
		/stroke: found "up and down" on flat work; allowed: side to side, to and fro$/,
	],
	[
		'to and fro on upright work',
		'stroke: up and down\n        tilt',
		'stroke: to and fro\n        tilt',
		'to and fro\n        tilt',
		/stroke: found "to and fro" on upright work/,
	],
	[
		'a stage of two works',
		'- sand: 400 grit',
		'- sand: 400 grit\n    wait: 1 h',
		'sand: 400 grit',
		/a stage does one thing: found wait and sand/,
	],
	[
		'a stage of no work',
		'- sand: 400 grit',
		'- name: nothing',
		'name: nothing',
		/a stage does one thing: found none/,
	],
	[
		'coats of a wait',
		'- wait: 2 d #',
		'- wait: 2 d\n    coats: [full] #',
		'[full] #',
		/only a spray stage has coats/,
	],
	[
		'a spray stage without coats',
		'    coats: [tack, medium, full]\n',
		'',
		'spray: topcoat',
		/stage, coats is missing/,
	],
	[
		'a coat without a film',
		'      tack: { film: 0.4 mil }\n',
		'',
		'tack, medium, full]',
		/topcoat gives no film for this coat; found "tack"; allowed: medium, full/,
	],
	[
		'reducer said twice',
		'isocyanate: yes',
		'isocyanate: yes\n    reducer: 10%',
		'10%\n',
		/reducer: the ratio names it already/,
	],
	[
		'a weight without densities',
		'1:1 by volume',
		'1:1 by weight',
		'name: Grey',
		/density is missing: a ratio by weight needs it/,
	],
	[
		'a coat past the last',
		'crosswise: [2, 4]',
		'crosswise: [2, 6]',
		'6]',
		/crosswise: found coat 6; the face gets 5$/,
	],
	[
		'a part with a slash',
		'- part: left door',
		'- part: left/door',
		'left/door',
		/part: found "left\/door"; a name has no "\/"$/,
	],
	[
		'a face left out that is not there',
		'  - sand: 400 grit',
		'  - sand: 400 grit\n    leave out: [counter lit]',
		'counter lit',
		/leave out: found "counter lit"; .*nearest: counter lid/,
	],
];

test.each(cases)('%s: the error stands at its place', (_what, from, to, mark, says) => {
	const text = altered(from, to);
	const said = complaintsOf(text);
	expect(said).toHaveLength(1);
	expect(said[0]).toMatch(says);
	expect(said[0]?.split(' ')[0]).toBe(placeOf(text, mark));
});
