import { expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import { parseJob } from '../../src/job/load.ts';
import { altered, complaintsOf, exampleText, placeOf } from './altered.ts';

/** What is changed in the example, the place where the error must stand, and what it says. */
type Case = [what: string, from: string, to: string, mark: string, says: RegExp];

const words: Case[] = [
	[
		'a misspelt key',
		'pot life: 4 h',
		'pot lief: 4 h',
		'pot lief',
		/found "pot lief"; allowed: .*; nearest: pot life$/,
	],
	[
		'a misspelt key at the top',
		'stages:',
		'stagse:',
		'stagse',
		/^\S+ key: found "stagse"; .*nearest: stages$/,
	],
	[
		'a misspelt key of a face',
		'attitude: upright #',
		'atitude: upright #',
		'atitude',
		/face front, key: .*nearest: attitude$/,
	],
	[
		'a misspelt word',
		'attitude: flat',
		'attitude: flatt',
		'flatt',
		/face top, attitude: found "flatt"; allowed: upright, flat, underside; nearest: flat$/,
	],
	[
		'a misspelt stroke',
		'stroke: to and fro',
		'stroke: too and fro',
		'too and',
		/stroke: found "too and fro".*nearest: to and fro$/,
	],
	['a misspelt unit', '29 psi', '29 pso', 'pso', /gun, pressure: .*unknown unit "pso".*nearest unit "psi"/],
	[
		'a misspelt mixing step',
		'hardener, reducer, stand',
		'hardner, reducer, stand',
		'hardner',
		/order: found "hardner"; .*nearest: hardener$/,
	],
	[
		'a misspelt coat',
		'coats: [medium, full]',
		'coats: [medium, ful]',
		'ful]',
		/stages, coats: found "ful"; .*nearest: full$/,
	],
	[
		'an unknown material',
		'spray: topcoat',
		'spray: topcaot',
		'topcaot',
		/stage, spray: found "topcaot"; allowed: primer, topcoat; nearest: topcoat$/,
	],
	[
		'an unknown material under',
		'- over: topcoat',
		'- over: topcot',
		'topcot',
		/recoat, over: found "topcot"; .*nearest: topcoat$/,
	],
	[
		'an unknown face in after',
		'after: [lip]',
		'after: [lips]',
		'lips',
		/face outside, after: found "lips"; .*nearest: lip$/,
	],
	[
		'an unknown part at the extractor',
		'at: canopy rail',
		'at: canopy rial',
		'canopy rial',
		/extractor at: found "canopy rial"; .*nearest: canopy rail$/,
	],
	[
		'an unknown stage',
		'  - wipe\n  - tack\n  - spray: primer',
		'  - wiep\n  - tack\n  - spray: primer',
		'wiep',
		/stages: found "wiep"; .*nearest: wipe$/,
	],
	[
		'a word for yes',
		'isocyanate: yes',
		'isocyanate: true',
		'true',
		/isocyanate: found "true"; allowed: yes, no/,
	],
];

const numbers: Case[] = [
	[
		'a bare number for a time',
		'wet edge: 3 min',
		'wet edge: 3',
		'\n    wet the tip: 20',
		/wet edge: found "3"; a unit is missing: write a time as in "45 min"$/,
	],
	[
		'a bare number for a length',
		'fan: 8 in #',
		'fan: 8 #',
		' # height of the fan',
		/gun, fan: found "8"; a unit is missing/,
	],
	[
		'a bare number for a film',
		'film: 1.3 mil',
		'film: 1.3',
		' }\n    sags above: 5',
		/film: found "1.3"; a unit is missing/,
	],
	[
		'a bare number in a size',
		'30 in x 14 in',
		'30 in x 14',
		'\n        after: [lip]',
		/size: found "30 in x 14"; a unit is missing/,
	],
	[
		'a negative area',
		'size: 24 in x 20 in',
		'area: -2 m2',
		'-2 m2',
		/area: found "-2 m2"; an area cannot be negative$/,
	],
	[
		'a zero area',
		'size: 24 in x 20 in',
		'area: 0 m2',
		'0 m2',
		/area: found "0 m2"; allowed: more than 0, up to 1000 m2$/,
	],
	['minus zero', 'size: 24 in x 20 in', 'area: -0 m2', '-0 m2', /area: found "-0 m2"; allowed: more than 0/],
	[
		'a number past all measure',
		'size: 24 in x 20 in',
		'area: 1e308 m2',
		'1e308',
		/area: found "1e308 m2"; allowed: more than 0, up to 1000 m2$/,
	],
	['a number past the machine', 'size: 24 in x 20 in', 'area: 1e999 m2', '1e999', /too large a number/],
	['no number', 'size: 24 in x 20 in', 'area: NaN', 'NaN', /area: found "NaN"; an area begins with a number/],
	[
		'not a number for YAML',
		'place: 3',
		'place: .nan',
		'.nan',
		/place: found ".nan"; allowed: a number from 1 to 10000$/,
	],
	['a number in another base', 'place: 3', 'place: 0x1F', '0x1F', /place: found "0x1F"; allowed: a number/],
	['a part of a place', 'place: 3', 'place: 7.25', '7.25', /place: found "7.25"; allowed: a whole number$/],
	['a decimal comma', '29 psi', '29,5 psi', ',5 psi', /decimals with a point/],
	[
		'nothing',
		'wet edge: 3 min',
		'wet edge:',
		'\n    wet the tip: 20',
		/wet edge: found nothing; one value is wanted$/,
	],
	[
		'a list for one value',
		'wet edge: 3 min',
		'wet edge: [3 min]',
		'[3 min]',
		/wet edge: found a list; one value is wanted$/,
	],
	[
		'a range that falls',
		'58 to 95 °F',
		'95 to 58 °F',
		'58 °F, hum',
		/limits, air: .*the second must be more/,
	],
	[
		'half a range',
		'58 to 95 °F',
		'58 °F',
		'58 °F, hum',
		/limits, air: .*a range is wanted, as in "60 °F to 75 °F"$/,
	],
	[
		'a life at no temperature',
		'4 h at 70 °F',
		'4 h',
		'4 h\n',
		/pot life: .*a time at a temperature is wanted/,
	],
	[
		'a life at a bare temperature',
		'4 h at 70 °F',
		'4 h at 70',
		'\n    standing: 15',
		/pot life: .*a unit is missing: write a temperature/,
	],
	[
		'a ratio in words',
		'1:1 by volume',
		'one to one',
		'one to one',
		/ratio: found "one to one"; allowed: base:hardener/,
	],
	['a ratio of nothing', '1:1 by volume', '1:0 by volume', '1:0', /ratio: found "1:0 by volume"; allowed/],
	[
		'reducer without a measure',
		'reducer: 15%',
		'reducer: 15',
		'15 #',
		/reducer: found "15"; allowed: a share of base and hardener as in "15%"/,
	],
	['a transfer of nothing', '65% ± 5%', '0% ± 5%', '0% ±', /transfer: found "0% ± 5%"; allowed: 5% to 100%$/],
	[
		'a share over all',
		'humidity: 50%',
		'humidity: 150%',
		'150%',
		/shop, humidity: found "150%"; allowed: 0% to 100%$/,
	],
	['one number of feather', 'fan depth: 2 in', 'feather: [3]', '[3]', /gun, feather: two numbers are wanted/],
];

const places: Case[] = [
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

test.each([...words, ...numbers, ...places])(
	'%s: the error stands at its place',
	(_what, from, to, mark, says) => {
		const text = altered(from, to);
		const said = complaintsOf(text);
		expect(said).toHaveLength(1);
		expect(said[0]).toMatch(says);
		expect(said[0]?.split(' ')[0]).toBe(placeOf(text, mark));
	},
);

test('more reducer than twice base and hardener is refused, and what it does to the film with it', () => {
	const said = complaintsOf(altered('reducer: 15%', 'reducer: 5 parts'));
	expect(said[0]).toMatch(
		/material primer, reducer: found 5 parts; allowed: up to 4, twice base and hardener$/,
	);
});

test('a missing key is said at the block that lacks it', () => {
	const text = altered('  flow: 7 fl oz/min\n', '');
	expect(complaintsOf(text)).toEqual([
		`${placeOf(text, 'pressure: 29')} gun, flow is missing: write "flow: …"`,
	]);
});

test('a speed without its time is told from a speed', () => {
	const text = altered('speed: 14 in/s', 'speed: 14 in');
	const said = complaintsOf(text);
	expect(said[0]).toMatch(/gun, speed: found "14 in"; "in" measures a length, but a speed is wanted/);
	expect(said[0]?.startsWith(placeOf(text, 'in\n  transfer'))).toBe(true);
});

test('one value where keys belong is refused', () => {
	const said = complaintsOf(altered('medium: { film: 1.0 mil }', 'medium: 1.0 mil'));
	expect(said[0]).toMatch(/coats, medium: found "1.0 mil"; keys with values are wanted$/);
});

test('mistakes of every kind in one sheet are all said at once, in the order of the file', () => {
	const mistakes: [string, string][] = [
		['units: us', 'units: imperial'],
		['pressure: 29 psi', 'pressure: 29'],
		['sags above: 5 mil', 'sags above: 1.5 mil'],
		['spray: topcoat', 'spray: topcaot'],
		['attitude: flat', 'atitude: flat'],
		['after: [lip]', 'after: [lips]'],
	];
	const text = mistakes.reduce((sheet, [from, to]) => sheet.replace(from, to), exampleText);
	const said = complaintsOf(text);
	expect(said.map(one => one.replace(/^\S+ /, '').slice(0, 30))).toEqual([
		'units: found "imperial"; allow',
		'gun, pressure: found "29"; a u',
		'material primer, coats, medium',
		'material primer, coats, full, ',
		'stage, spray: found "topcaot";',
		'part counter lid, face top, ke',
		'part wheel-arch cover, face ou',
	]);
	const lines = said.map(one => Number.parseInt(one, 10));
	expect(lines).toEqual(lines.toSorted((a, b) => a - b));
});

test('an error is one line that begins with file, line and column', () => {
	const loaded = parseJob(altered('units: us', 'units: imperial'), 'my cart.yaml');
	expect(loaded.ok || loaded.errors.map(errorLine)).toEqual([
		'my cart.yaml:8:8: units: found "imperial"; allowed: us, metric; nearest: metric',
	]);
});
