import { expect, test } from 'vitest';
import { type Alteration, altered, complaintsOf, placeOf } from './altered.ts';

const windows: Alteration[] = [
	[
		'a flash that no window allows',
		'flash: { from: 45 min, to: 3 h',
		'flash: { from: 4 h, to: 6 h',
		'4 h, to: 6 h',
		/material topcoat, flash: no window of topcoat over topcoat says spray then/,
	],
	[
		'a flash that ends before it begins',
		'from: 45 min, to: 3 h',
		'from: 45 min, to: 30 min',
		'30 min, at',
		/material topcoat, flash: ends \(to\) before it begins/,
	],
	[
		'windows that overlap',
		'          - spray: 5 h to 8 h',
		'          - spray: 4 h to 8 h',
		'spray: 4 h',
		/recoat, windows: begins at 4 h, before the one above it ends at 5 h$/,
	],
	[
		'windows with a gap',
		'          - spray: 5 h to 8 h',
		'          - spray: 6 h to 8 h',
		'spray: 6 h',
		/recoat, windows: nothing is said of 5 h to 6 h/,
	],
	[
		'windows that begin late',
		'          - wait: 0 to 5 h',
		'          - wait: 1 h to 5 h',
		'wait: 1 h',
		/recoat, windows: nothing is said of 0 h to 1 h/,
	],
	[
		'a window after one without an end',
		'          - scuff: 8 h to 24 h',
		'          - scuff: from 8 h',
		'sand: from 24 h',
		/recoat, windows: follows a window without an end/,
	],
	[
		'a window that ends before it begins',
		'- wait: 3 h to 16 h',
		'- wait: 3 h to 2 h',
		'2 h # it would',
		/windows, wait: found "3 h to 2 h"; it ends before it begins$/,
	],
	[
		'two rows for one temperature',
		'      - over: topcoat\n        surface: 60 to 80 °F',
		'      - over: primer\n        surface: 75 to 90 °F\n        windows:\n          - wait: from 0 h\n      - over: topcoat\n        surface: 60 to 80 °F',
		'over: primer\n        surface: 75',
		/recoat: its surface temperatures overlap/,
	],
	[
		'a topcoat over a primer without windows for it',
		'      - over: primer\n        surface: 60 to 80 °F\n        windows:\n          - wait: 0 to 5 h',
		'      - over: topcoat\n        surface: 85 to 90 °F\n        windows:\n          - wait: 0 to 5 h',
		'topcoat\n    coats: [tack',
		/stage, spray: on canopy rail\/front, no recoat windows are given for topcoat over primer; add them/,
	],
	[
		'a wait after which the windows want sanding that nobody does',
		'  - sand: 400 grit\n',
		'',
		'topcoat\n    coats: [tack',
		/48 h on, no window of topcoat over primer is open with what is done before it/,
	],
	[
		'a time to sand given twice for one temperature',
		'24 h at 80 °F, 84 h',
		'24 h at 65 °F, 84 h',
		'[48 h at',
		/sand after: two times at one temperature/,
	],
];

const faces: Alteration[] = [
	[
		'a face that comes after itself',
		'after: [lip]',
		'after: [outside]',
		'outside]',
		/after goes in a circle: wheel-arch cover\/outside after wheel-arch cover\/outside/,
	],
	[
		'two faces that come after each other',
		'        tilt: left',
		'        after: [outside]\n        tilt: left',
		'lip]',
		/after goes in a circle: wheel-arch cover\/lip after wheel-arch cover\/outside after wheel-arch cover\/lip; take one/,
	],
	[
		'a film that sags on an upright face',
		'full: { film: 1.0 mil }',
		'full: { film: 2.0 mil }',
		'2.0 mil',
		/coats, full, film: lies 5\.1 mil wet and sags above 3\.5 mil on upright canopy rail\/front; lay less, in more coats$/,
	],
	[
		'a tilt that makes the cup drip',
		'tilted: pours',
		'tilted: drips',
		'left # none',
		/face lip, tilt: the gun's cup drips when tilted/,
	],
	[
		'a tilt that starves the cup',
		'tilted: pours',
		'tilted: starves',
		'left # none',
		/face lip, tilt: the gun's cup starves when tilted/,
	],
	[
		'a slanted tilt',
		'tilt: left',
		'tilt: 45°',
		'45°',
		/tilt: found "45°"; the fan would stand neither upright nor flat; allowed: none, left/,
	],
	[
		'a slanted stroke',
		'stroke: to and fro',
		'stroke: 30°',
		'30°',
		/stroke: found "30°"; the fan would be wanted at neither 0° nor 90°; allowed: side to side/,
	],
	[
		'a face larger than the cup',
		'size: 60 in x 5 in',
		'area: 8 m2',
		'8 m2',
		/face front: a full coat of primer takes .*, the cup holds 20 fl oz; split the face or fit a larger cup$/,
	],
	[
		'an area larger than its size',
		'size: 24 in x 20 in',
		'size: 24 in x 20 in\n        area: 1 m2',
		'1 m2',
		/face sides, area: is more than its size holds/,
	],
];

const mixing: Alteration[] = [
	[
		'standing that the order leaves out',
		'stand, strain',
		'strain',
		'[stir, base, hardener, reducer, strain, cup]',
		/material primer, order: stand is missing, but it has a standing time$/,
	],
	[
		'standing in the order and none in the sheet',
		'standing: 15 min',
		'standing: none',
		'stand, strain',
		/order: stand is out of place: standing is none$/,
	],
	[
		'an order without hardener',
		'base, hardener, reducer, stand',
		'base, reducer, stand',
		'[stir, base, reducer',
		/order: hardener is missing, but a batch has hardener$/,
	],
	[
		'base before it is stirred',
		'[stir, base, hardener, reducer, stand',
		'[base, stir, hardener, reducer, stand',
		'base, stir',
		/order: base comes before stir; put stir first$/,
	],
	[
		'a step twice',
		'reducer, stand, strain, cup',
		'reducer, stand, strain, strain, cup',
		'strain, cup',
		/order: strain is written twice/,
	],
	[
		'straining before the hardener',
		'[stir, base, hardener, reducer, strain',
		'[stir, base, strain, hardener, reducer',
		'strain, hardener',
		/order: strain comes before hardener/,
	],
	[
		'a reducer that no step pours',
		'hardener, reducer, stand',
		'hardener, stand',
		'[stir, base, hardener, stand',
		/order: reducer is missing, but the material is reduced$/,
	],
	[
		'an accelerator that no step pours',
		'2:1:1 by volume',
		'2:1:1:1 accelerator by volume',
		'[stir, base, hardener, reducer, strain, cup]',
		/material topcoat, order: accelerator is missing, but the ratio has a part of it$/,
	],
	[
		'a flattener that the ratio does not have',
		'[stir, base, hardener, reducer, strain, cup]',
		'[stir, base, flattener, hardener, reducer, strain, cup]',
		'flattener, hardener',
		/material topcoat, order: flattener is out of place: the ratio names none, as in "4:1:1:1 flattener"$/,
	],
	[
		'a cup without its seconds',
		'    cup: { kind: zahn2, runs: 23 to 28 s }\n',
		'',
		'cup]',
		/order: cup is out of place: no cup is given$/,
	],
];

test.each([...windows, ...faces, ...mixing])(
	'%s is a contradiction, said at its place',
	(_what, from, to, mark, says) => {
		const text = altered(from, to);
		const said = complaintsOf(text);
		expect(said[0]).toMatch(says);
		expect(said[0]?.split(' ')[0]).toBe(placeOf(text, mark));
	},
);

test('a face left out of every spraying stage is never coated', () => {
	const once = altered('    coats: [medium, full]', '    coats: [medium, full]\n    leave out: [corner box]');
	expect(complaintsOf(once)).toEqual([]);
	const text = once.replace('medium, full]\n\n', 'medium, full]\n    leave out: [corner box/sides]\n\n');
	expect(complaintsOf(text)).toEqual([
		`${placeOf(text, 'face: sides')} part corner box, face sides: is never coated; take it out, or out of a stage's "leave out"`,
	]);
});

test('the same heavy film on flat work is no contradiction', () => {
	const flat = altered('full: { film: 1.0 mil }', 'full: { film: 2.0 mil }')
		.replaceAll('attitude: upright', 'attitude: flat\n        near edge: front')
		.replaceAll('stroke: up and down', 'stroke: to and fro');
	expect(complaintsOf(flat)).toEqual([]);
});

test('windows that come back to wait are read as written', () => {
	expect(
		complaintsOf(
			altered('wait: 3 h to 16 h', 'wait: 3 h to 20 h').replace('sand: from 16 h', 'sand: from 20 h'),
		),
	).toEqual([]);
});
