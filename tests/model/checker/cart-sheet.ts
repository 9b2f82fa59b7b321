/** A small job of the Pump Yard workshop, as the first record of a day file carries it. */

const paint = {
	id: 'cart-green',
	name: 'cart green',
	isocyanate: true,
	ratio: { by: 'volume', base: 2, hardener: 1 },
	reducer_parts: 1,
	density_kg_per_L: null,
	order: ['stir', 'base', 'hardener', 'stir', 'stand', 'stir', 'reducer', 'stir', 'strain', 'cup'],
	solids: 0.5,
	solids_tolerance: 0.02,
	coats: { full: { dry_um: 40, reducer_parts: 1 } },
	sag_um: 150,
	potLife: { at_C: 21, hours: 2 },
	standing_min: 5,
	strainer: '190 µm',
	flash: { min_min: 30, max_min: 90, at_C: 21, touch: ['tacky', 'dry'] },
	wetEdge_s: 60,
	wetTip_min: 10,
	flush_min: 30,
	recoat: [
		{
			under: 'cart-green',
			rows: [
				{
					from_C: 16,
					to_C: 22,
					windows: [
						{ does: 'wait', from_h: 0, until_h: 8 },
						{ does: 'spray', from_h: 8, until_h: 12 },
						{ does: 'scuff', from_h: 12, until_h: 24 },
						{ does: 'sand', from_h: 24, until_h: null },
					],
				},
			],
		},
	],
	sandAfter: [{ at_C: 18, hours: 8 }],
	grit: 400,
	cup: { kind: 'ford4', seconds: [18, 24] },
	limits: { air_C: [15, 32], humidity_max: 0.8, margin_C: 3 },
	factorPer10C: 2,
	solvent: null,
};

const coat = (stroke: string, horns: string, number: number) => ({
	stage: 1,
	material: 'cart-green',
	kind: 'full',
	stroke,
	horns,
	ofStage: [number, 2],
	prep: number === 1 ? [{ step: 'tack', grit: null }] : [],
	wait_h: 0,
	volume_mL: 60,
	spray_s: 40,
});

const face = (part: string, name: string, tilt: number, stroke: string, horns: string) => ({
	id: `${part}/${name}`,
	part,
	name,
	attitude: 'upright',
	tilt,
	area_m2: 0.5,
	size_mm: null,
	fanHeight_mm: 250,
	after: [],
	coats: [coat(stroke, horns, 1), coat(stroke, horns, 2)],
});

export const lid = 'counter lid/top';
export const door = 'left door/edges';

/**
 * The lid is stroked side to side, the door up and down: with the wrist upright the cap turns between them, with
 * the wrist laid over (90°) it does not and both are one stretch.
 */
export const cartSheet = (doorTilt: 0 | 90) => ({
	name: 'coffee cart',
	units: 'metric',
	shop: { air_C: 21, humidity: 0.5, clearance: null, extractorAt: null, hours: null },
	gun: {
		pressure_kPa: 200,
		fanHeight_mm: 250,
		fanDepth_mm: 60,
		beta: [2.3, 4.1],
		distance_mm: 150,
		overlap: 0.5,
		flow_mL_per_min: 150,
		speed_mm_per_s: 300,
		transfer: 0.65,
		transfer_tolerance: 0.05,
		cup_mL: 600,
		cupKind: 'gravity',
	},
	materials: { 'cart-green': paint },
	stages: [
		{ kind: 'prep', name: 'tack', step: 'tack', grit: null },
		{ kind: 'coats', name: 'green', material: 'cart-green', coats: ['full', 'full'] },
	],
	parts: [
		{ name: 'counter lid', place: 1 },
		{ name: 'left door', place: 2 },
	],
	faces: [
		face('counter lid', 'top', 0, 'side-to-side', 'level'),
		face('left door', 'edges', doorTilt, 'up-and-down', doorTilt === 0 ? 'upright' : 'level'),
	],
	order: 'sheet',
	lists: [],
});

const answer = (code: string, passes: string) => ({ code, text: code.toUpperCase(), passes });
const item = (code: string, answers: unknown[] | null, overridable = false) => ({
	code,
	say: `Look at ${code} and say.`,
	why: null,
	answers,
	overridable,
});
const mask = item('mask', [
	answer('supplied-air', 'yes'),
	answer('filter-mask', 'unless-isocyanate'),
	answer('none', 'no'),
]);

export const cartLists = [
	{
		list: 'before-spraying',
		title: 'Before spraying',
		items: [mask, item('extractor', [answer('on', 'yes'), answer('off', 'no')], true)],
	},
	{
		list: 'gun-check',
		title: 'Gun check',
		items: [mask, item('batch', null), item('gauge', null), item('pattern', null)],
	},
];

export const cartCans = [
	{ material: 'cart-green', component: 'base', mark: 'ring' },
	{ material: 'cart-green', component: 'hardener', mark: 'cross' },
	{ material: 'cart-green', component: 'reducer', mark: 'bar' },
];
