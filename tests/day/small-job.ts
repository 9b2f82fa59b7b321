import type { Checklist } from '../../src/job/checklist.ts';
import type { Face, Job, Stroke } from '../../src/job/job.ts';

/** A small day: two doors, edges and flats, two coats of a material with isocyanate. Invented. */

const face = (part: string, name: string, stroke: Stroke, after: string[] = []): Face => ({
	id: `${part}/${name}`,
	part,
	name,
	attitude: 'upright',
	tilt: 0,
	area_m2: 0.4,
	size_mm: [600, 700],
	fanHeight_mm: 250,
	after,
	coats: [1, 2].map(count => ({
		stage: 0,
		material: 'topcoat',
		kind: 'full' as const,
		stroke,
		horns: stroke === 'side-to-side' ? ('level' as const) : ('upright' as const),
		ofStage: [count, 2] as [number, number],
		prep: [],
		wait_h: 0,
		volume_mL: 90,
		spray_s: 60,
		capture: 0.75,
	})),
});

export const smallJob = (): Job => ({
	name: 'Coffee cart doors',
	units: 'metric',
	shop: { air_C: 21, humidity: 0.5, clearance: null, extractorAt: null, hours: null },
	gun: {
		pressure_kPa: 200,
		fanHeight_mm: 250,
		fanDepth_mm: 80,
		beta: [2.5, 3],
		distance_mm: 150,
		overlap: 0.5,
		flow_mL_per_min: 180,
		speed_mm_per_s: 150,
		transfer: 0.6,
		transfer_tolerance: 0,
		cup_mL: 600,
		cupKind: 'gravity',
		losses: { strainer_mL: 0, pot_mL: 0, gun_mL: 0, burst_s: 0 },
	},
	// Three faces of 90 mL are mixed 300 mL, without losses at a risk that no sheet takes: round figures for tests.
	risk: 0.12,
	materials: {
		topcoat: {
			id: 'topcoat',
			name: 'cart topcoat',
			isocyanate: true,
			ratio: { by: 'volume', base: 2, hardener: 1 },
			reducer_parts: 1,
			density_kg_per_L: null,
			order: ['stir', 'base', 'hardener', 'reducer', 'stir', 'strain', 'cup'],
			solids: 0.5,
			solids_tolerance: 0,
			coats: { full: { dry_um: 40, reducer_parts: 1 } },
			sag_um: 130,
			potLife: { at_C: 21, hours: 2 },
			standing_min: 0,
			strainer: '190 µm',
			flash: { min_min: 45, max_min: 180, at_C: 21, touch: ['tacky', 'dry'] },
			wetEdge_s: 120,
			wetTip_min: 10,
			flush_min: 60,
			recoat: [
				{
					under: 'topcoat',
					rows: [
						{
							from_C: 15,
							to_C: 30,
							windows: [
								{ does: 'wait', from_h: 0, until_h: 0.75 },
								{ does: 'spray', from_h: 0.75, until_h: 3 },
								{ does: 'wait', from_h: 3, until_h: 8 },
								{ does: 'sand', from_h: 8, until_h: null },
							],
						},
					],
				},
			],
			sandAfter: [{ at_C: 18, hours: 48 }],
			grit: 400,
			cup: { kind: 'ford4', seconds: [14, 18] },
			limits: { air_C: [10, 35], humidity_max: 0.85, margin_C: 3 },
			factorPer10C: 2,
			solvent: null,
		},
	},
	stages: [{ kind: 'coats', name: 'topcoat', material: 'topcoat', coats: ['full', 'full'] }],
	parts: [
		{ name: 'left door', place: null },
		{ name: 'right door', place: null },
	],
	faces: [
		face('left door', 'edges', 'up-and-down'),
		face('left door', 'flat', 'side-to-side', ['left door/edges']),
		face('right door', 'flat', 'side-to-side'),
	],
	order: 'sheet',
	lists: [],
});

const item = (
	code: string,
	say: string,
	answers: [string, string, 'yes' | 'no' | 'unless-isocyanate'][] | null,
) => ({
	code,
	say,
	why: null,
	answers: answers?.map(([code, text, passes]) => ({ code, text, passes })) ?? null,
	overridable: !['mask', 'batch', 'pattern', 'can', 'level'].includes(code),
});
const mask = item('mask', 'Breathing gear: look at it. Which kind?', [
	['supplied-air', 'SUPPLIED AIR', 'yes'],
	['filter-mask', 'FILTER MASK', 'unless-isocyanate'],
	['none', 'NONE', 'no'],
]);
const extractor = item('extractor', 'Extractor: look at the tell-tale. Is it running?', [
	['running', 'RUNNING', 'yes'],
	['stopped', 'STOPPED', 'no'],
]);

export const smallLists = (): Checklist[] => [
	{ list: 'before-spraying', title: 'Before spraying', items: [mask, extractor] },
	{
		list: 'mixing',
		title: 'Mixing',
		items: [
			item('stir', 'Stir the base in its can first.', [['done', 'STIRRED', 'yes']]),
			item('stir-pot', 'Stir the pot: sides and bottom.', [['done', 'STIRRED', 'yes']]),
			item('strain', 'Batch: strain it into its taped pot.', [['done', 'STRAINED', 'yes']]),
		],
	},
	{
		list: 'gun-check',
		title: 'Gun check',
		items: [
			mask,
			extractor,
			...['batch', 'gauge', 'second', 'pattern'].map(code => item(code, `${code}?`, null)),
		],
	},
	{ list: 'after-a-break', title: 'After a break', items: [item('last-face', 'How much is on?', null)] },
	{
		list: 'clean-up',
		title: 'Clean-up',
		items: [item('gun', 'Gun: flush, air off, bleed, then the cap.', [['done', 'CLEAN', 'yes']])],
	},
];
