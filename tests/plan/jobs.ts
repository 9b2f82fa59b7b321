import fc from 'fast-check';
import type { CoatKind, Face, Horns, Job, Material, PlannedCoat, Stage } from '../../src/job/job.ts';

const hour = (from_h: number, until_h: number | null, does: 'wait' | 'spray' | 'scuff' | 'sand') => ({
	does,
	from_h,
	until_h,
});

/** An invented polyurethane: three coats wet on wet, 45 minutes apart. */
export function topcoat(over: Partial<Material> = {}): Material {
	return {
		id: 'topcoat',
		name: 'green topcoat',
		isocyanate: true,
		ratio: { by: 'volume', base: 2, hardener: 1 },
		reducer_parts: 1,
		density_kg_per_L: null,
		order: ['stir', 'base', 'hardener', 'reducer', 'strain'],
		solids: 0.5,
		solids_tolerance: 0.03,
		coats: { tack: { dry_um: 15, reducer_parts: 1 }, full: { dry_um: 30, reducer_parts: 1 } },
		sag_um: 150,
		potLife: { at_C: 21, hours: 2 },
		standing_min: 0,
		strainer: null,
		flash: { min_min: 45, max_min: null, at_C: 21, touch: ['tacky'] },
		wetEdge_s: 600,
		wetTip_min: 10,
		flush_min: 45,
		recoat: [
			{
				under: 'topcoat',
				rows: [
					{
						from_C: 10,
						to_C: 40,
						windows: [hour(0, 0.75, 'wait'), hour(0.75, 24, 'spray'), hour(24, null, 'sand')],
					},
				],
			},
		],
		sandAfter: [{ at_C: 18, hours: 48 }],
		grit: 400,
		cup: null,
		limits: { air_C: [10, 35], humidity_max: 0.8, margin_C: 3 },
		factorPer10C: 2,
		solvent: null,
		...over,
	};
}

export type FaceSketch = {
	part: string;
	name: string;
	/** Horns of each coat of the stage. */
	horns: Horns[];
	fanHeight_mm?: number;
	after?: string[];
	area_m2?: number;
	spray_s?: number;
	volume_mL?: number;
};

export type JobSketch = {
	faces: FaceSketch[];
	places?: Record<string, number>;
	extractorAt?: string;
	material?: Material;
	kinds?: CoatKind[];
	hours?: number | null;
	air_C?: number;
	cup_mL?: number;
};

/** A job of one spray stage from a few words about its faces. */
export function sketch({ faces, places = {}, material = topcoat(), ...rest }: JobSketch): Job {
	const coats = Math.max(...faces.map(face => face.horns.length));
	const kinds = rest.kinds ?? Array.from({ length: coats }, (): CoatKind => 'full');
	const parts = [...new Set(faces.map(face => face.part))];
	const stage: Stage = { kind: 'coats', name: 'topcoat', material: material.id, coats: kinds };
	return {
		name: 'market coffee cart',
		units: 'metric',
		shop: {
			air_C: rest.air_C ?? 21,
			humidity: 0.5,
			clearance: null,
			extractorAt: rest.extractorAt ?? null,
			hours: rest.hours ?? null,
		},
		gun: {
			pressure_kPa: 200,
			fanHeight_mm: 250,
			fanDepth_mm: 60,
			beta: [2.3, 4.1],
			distance_mm: 150,
			overlap: 0.5,
			flow_mL_per_min: 200,
			speed_mm_per_s: 400,
			transfer: 0.65,
			transfer_tolerance: 0.05,
			cup_mL: rest.cup_mL ?? 600,
			cupKind: 'gravity',
		},
		materials: { [material.id]: material },
		stages: [stage],
		parts: parts.map(name => ({ name, place: places[name] ?? null })),
		faces: faces.map(face => faceOf(face, material.id, kinds)),
		order: 'fewest-turns',
		lists: [],
	};
}

function faceOf(face: FaceSketch, material: string, kinds: CoatKind[]): Face {
	const of = face.horns.length;
	return {
		id: `${face.part}/${face.name}`,
		part: face.part,
		name: face.name,
		attitude: 'upright',
		tilt: 0,
		area_m2: face.area_m2 ?? 0.4,
		size_mm: null,
		fanHeight_mm: face.fanHeight_mm ?? 250,
		after: face.after ?? [],
		coats: face.horns.map(
			(horns, index): PlannedCoat => ({
				stage: 0,
				material,
				kind: kinds[index] ?? 'full',
				stroke: horns === 'level' ? 'side-to-side' : 'up-and-down',
				horns,
				ofStage: [index + 1, of],
				prep: [],
				wait_h: 0,
				volume_mL: face.volume_mL ?? 30,
				spray_s: face.spray_s ?? 30,
				capture: 0.8,
			}),
		),
	};
}

const partNames = ['counter lid', 'left door', 'right door', 'wheel-arch cover', 'corner box', 'canopy rail'];
const faceNames = ['edges', 'back', 'front', 'top', 'inside', 'rim', 'left side', 'right side'];

export type Shape = {
	faces: [low: number, high: number];
	coats: number;
	fans?: number[];
	/** Whether `after` may name faces of other parts. */
	across?: boolean;
	places?: boolean;
	/** Parts to spread the faces over. */
	parts?: number;
};

/** Random sheets of one stage: parts, horns by coat, fan heights, and `after` without circles. */
export function jobs({ faces, coats, fans = [250], across = false, places = false, parts = 4 }: Shape) {
	const face = fc.record({
		part: fc.nat({ max: parts - 1 }),
		horns: fc.array(fc.constantFrom<Horns>('level', 'upright'), { minLength: coats, maxLength: coats }),
		fan: fc.constantFrom(...fans),
		waits: fc.array(fc.nat({ max: faces[1] - 1 }), { maxLength: 2 }),
	});
	return fc
		.tuple(
			fc.array(face, { minLength: faces[0], maxLength: faces[1] }),
			fc.shuffledSubarray([...partNames.keys()], { minLength: partNames.length }),
		)
		.map(([rows, places_]) => {
			const named = rows.map((row, index) => ({
				...row,
				part: partNames[row.part] ?? `part ${row.part}`,
				name: faceNames[index] ?? `face ${index + 1}`,
			}));
			return sketch({
				faces: named.map((row, index) => ({
					part: row.part,
					name: row.name,
					horns: row.horns,
					fanHeight_mm: row.fan,
					after: [...new Set(row.waits)]
						.flatMap(other => (other < index ? (named[other] ?? []) : []))
						.filter(other => across || other.part === row.part)
						.map(other => `${other.part}/${other.name}`),
				})),
				...(places && {
					places: Object.fromEntries(places_.map((place, index) => [partNames[index] ?? '', place + 1])),
				}),
			});
		});
}
