import type { Face, Horns, Job, Material, PlannedCoat, Stroke } from '../../../src/job/job.ts';
import type { Random } from './random.ts';

/** Parts of the market coffee cart and the faces each may show. */
const cart: [string, [string, Face['attitude']][]][] = [
	[
		'counter lid',
		[
			['top', 'flat'],
			['edges', 'upright'],
			['underside', 'underside'],
		],
	],
	[
		'left door',
		[
			['edges', 'upright'],
			['inside', 'upright'],
			['front', 'upright'],
		],
	],
	[
		'right door',
		[
			['edges', 'upright'],
			['inside', 'upright'],
			['front', 'upright'],
		],
	],
	[
		'wheel-arch cover',
		[
			['lip', 'upright'],
			['outside', 'upright'],
			['crown', 'flat'],
		],
	],
	[
		'corner box',
		[
			['left side', 'upright'],
			['right side', 'upright'],
			['front', 'upright'],
			['lid', 'flat'],
		],
	],
	[
		'canopy rail',
		[
			['outer side', 'upright'],
			['inner side', 'upright'],
			['top side', 'flat'],
		],
	],
];

const material = (id: string, topcoat: boolean): Material => ({
	id,
	name: topcoat ? 'polyurethane topcoat' : 'epoxy primer',
	isocyanate: topcoat,
	ratio: { by: 'volume', base: topcoat ? 2 : 1, hardener: 1 },
	reducer_parts: topcoat ? 1 : 0.3,
	density_kg_per_L: null,
	order: topcoat
		? ['stir', 'base', 'hardener', 'reducer', 'strain', 'cup']
		: ['stir', 'base', 'hardener', 'reducer', 'stand', 'strain', 'cup'],
	solids: topcoat ? 0.42 : 0.5,
	solids_tolerance: 0.03,
	coats: { full: { dry_um: 38, reducer_parts: topcoat ? 1 : 0.3 } },
	sag_um: 160,
	potLife: { at_C: 21, hours: topcoat ? 2 : 4 },
	standing_min: topcoat ? 0 : 30,
	strainer: 'fine',
	flash: { min_min: 60, max_min: 240, at_C: 21, touch: ['tacky', 'dry'] },
	wetEdge_s: 90,
	wetTip_min: 10,
	flush_min: 30,
	recoat: [],
	sandAfter: [{ at_C: 18, hours: 48 }],
	grit: 400,
	cup: { kind: 'ford4', seconds: [18, 22] },
	limits: { air_C: [15, 32], humidity_max: 0.8, margin_C: 3 },
	factorPer10C: 2,
	solvent: null,
});

function strokeFor(tilt: number, horns: Horns): Stroke {
	const fan = (((tilt + (horns === 'level' ? 0 : 90)) % 180) + 180) % 180;
	return fan === 0 ? 'side-to-side' : 'up-and-down';
}

function planned(
	stage: number,
	nth: number,
	of: number,
	horns: Horns,
	tilt: number,
	area: number,
): PlannedCoat {
	return {
		stage,
		material: stage === 0 ? 'primer' : 'topcoat',
		kind: 'full',
		stroke: strokeFor(tilt, horns),
		horns,
		ofStage: [nth, of],
		prep:
			nth > 1
				? []
				: [
						{ step: 'wipe', grit: null },
						{ step: 'tack', grit: null },
					],
		wait_h: 0,
		volume_mL: Math.round(area * 180),
		spray_s: Math.round(area * 110),
	};
}

/** An invented job of 6 to 20 faces: with or without a primer day, then two or three topcoats. */
export function sheet(random: Random, faceCount = random.whole(6, 20)): Job {
	const primer = random.chance(0.4);
	const topcoats = random.whole(2, 3);
	const crosswise = random.chance(0.3);
	const named = cart.flatMap(([part, faces]) => faces.map(([name, attitude]) => ({ part, name, attitude })));
	const faces = Array.from({ length: faceCount }, (_, at): Face => {
		const chosen = named[at % named.length];
		if (!chosen) throw new Error('no face');
		const round = Math.floor(at / named.length);
		const part = round === 0 ? chosen.part : `second ${chosen.part}`;
		const area = random.between(0.2, 0.9);
		const tilt = random.chance(0.15) ? random.pick([-90, 90] as const) : 0;
		const usual: Horns = random.chance(0.3) ? 'upright' : 'level';
		const other: Horns = usual === 'level' ? 'upright' : 'level';
		const coats = [
			...(primer ? [planned(0, 1, 1, usual, tilt, area)] : []),
			...Array.from({ length: topcoats }, (_, n) =>
				planned(2, n + 1, topcoats, crosswise && n === 1 ? other : usual, tilt, area),
			),
		];
		return {
			id: `${part}/${chosen.name}`,
			part,
			name: chosen.name,
			attitude: chosen.attitude,
			tilt,
			area_m2: area,
			size_mm: null,
			fanHeight_mm: 250,
			after: [],
			coats,
		};
	});
	return {
		name: 'market coffee cart',
		units: 'metric',
		shop: { air_C: 21, humidity: 0.5, clearance: null, extractorAt: null, hours: null },
		gun: {
			pressure_kPa: 200,
			fanHeight_mm: 250,
			fanDepth_mm: 90,
			beta: [3, 3],
			distance_mm: 150,
			overlap: 0.5,
			flow_mL_per_min: 180,
			speed_mm_per_s: 400,
			transfer: 0.65,
			transfer_tolerance: 0.05,
			cup_mL: 600,
			cupKind: 'gravity',
		},
		materials: { primer: material('primer', false), topcoat: material('topcoat', true) },
		stages: [
			{ kind: 'coats', name: 'prime', material: 'primer', coats: ['full'] },
			{ kind: 'prep', name: 'sand', step: 'sand', grit: 400 },
			{ kind: 'coats', name: 'topcoat', material: 'topcoat', coats: Array(topcoats).fill('full') },
		],
		parts: [...new Set(faces.map(face => face.part))].map(name => ({ name, place: null })),
		faces,
		order: 'sheet',
		lists: [],
	};
}
