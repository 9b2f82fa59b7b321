import fc from 'fast-check';
import { expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import { hornsFor } from '../../src/job/faces.ts';
import { type Face, type Horns, type Job, jobSchema, type Stroke } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { exampleText } from './altered.ts';
import { type OwnFace, ownSheet, someFaces } from './own-sheet.ts';

function jobOf(text: string): Job {
	const loaded = parseJob(text, 'own.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}

type Vector = [number, number];
const turned = ([x, y]: Vector, degrees: number): Vector => {
	const [sin, cos] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
	return [x * cos - y * sin, x * sin + y * cos];
};

/** The horn jets squeeze the spray from two sides: it spreads at right angles to the line through them. */
function fanLiesAcross(tilt: Face['tilt'], horns: Horns, stroke: Stroke): boolean {
	const throughHorns: Vector = horns === 'level' ? [1, 0] : [0, 1];
	const fan = turned(turned(throughHorns, 90), tilt);
	const travel: Vector = stroke === 'side-to-side' ? [1, 0] : [0, 1];
	return Math.abs(fan[0] * travel[0] + fan[1] * travel[1]) < 1e-9;
}

const tilts = fc.constantFrom<Face['tilt']>(-90, 0, 90);
const strokes = fc.constantFrom<Stroke>('side-to-side', 'up-and-down', 'to-and-fro');

const ownFace: fc.Arbitrary<OwnFace> = fc.record({
	attitude: fc.constantFrom('upright', 'flat', 'underside'),
	stroke: fc.constantFrom('side', 'along'),
	tilt: fc.constantFrom('none', 'left', 'right'),
	size_cm: fc.tuple(fc.integer({ min: 2, max: 150 }), fc.integer({ min: 2, max: 150 })),
	crosswise: fc.uniqueArray(fc.integer({ min: 1, max: 6 }), { maxLength: 3 }),
});

test('a sheet may give limits of its own for the paint, and the temperature that its flow cup seconds are for', () => {
	const own = exampleText
		.replace(
			'limits: { air: 58 to 95 °F, humidity',
			'limits: { air: 58 to 95 °F, paint: 59 to 86 °F, humidity',
		)
		.replace('runs: 23 to 28 s }', 'runs: 23 to 28 s, at: 68 °F }');
	const { limits, cup } = jobOf(own).materials.primer ?? {};
	expect(limits?.paint_C?.map(C => Math.round(C))).toEqual([15, 30]);
	expect(cup?.at_C).toBeCloseTo(20, 9);
	expect(jobOf(exampleText).materials.primer?.limits).not.toHaveProperty('paint_C');
	expect(jobOf(exampleText).materials.primer?.cup).not.toHaveProperty('at_C');
});

test('a sheet may give the surface limits of its own, and gives none where it is silent', () => {
	const limits = 'limits: { air: 58 to 95 °F, humidity: 80%, over dew point: 5 °F }';
	const own = limits.replace('humidity', 'surface: 50 to 86 °F, humidity');
	expect(jobOf(exampleText).materials.primer?.limits.surface_C).toBeUndefined();
	const given = jobOf(exampleText.replace(limits, own)).materials.primer?.limits.surface_C;
	expect(given).toEqual([expect.closeTo(10, 9), expect.closeTo(30, 9)]);
});

test('horns level for side to side, upright for up and down, with the gun upright', () => {
	// Navy training course NAVEDTRA 14315, sectional view of the spray gun.
	expect(hornsFor(0, 'side-to-side')).toBe('level');
	expect(hornsFor(0, 'up-and-down')).toBe('upright');
});

test('whatever tilt and stroke, the fan lies across the stroke with the horns worked out, and not with the others', () => {
	fc.assert(
		fc.property(tilts, strokes, (tilt, stroke) => {
			const horns = hornsFor(tilt, stroke);
			expect(fanLiesAcross(tilt, horns, stroke)).toBe(true);
			expect(fanLiesAcross(tilt, horns === 'level' ? 'upright' : 'level', stroke)).toBe(false);
		}),
	);
});

test('every coat of every sheet has the horns that its face and stroke want', () => {
	fc.assert(
		fc.property(fc.array(ownFace, { minLength: 1, maxLength: 6 }), faces => {
			for (const face of jobOf(ownSheet(faces)).faces)
				for (const { horns, stroke } of face.coats)
					expect(fanLiesAcross(face.tilt, horns, stroke)).toBe(true);
		}),
		{ numRuns: 40 },
	);
});

test('a job survives its own schema and being written to a day file', () => {
	fc.assert(
		fc.property(fc.array(ownFace, { minLength: 1, maxLength: 6 }), faces => {
			const job = jobOf(ownSheet(faces));
			expect(jobSchema.parse(job)).toEqual(job);
			expect(jobSchema.parse(JSON.parse(JSON.stringify(job)))).toEqual(job);
		}),
		{ numRuns: 40 },
	);
});

test('40 faces and three materials, one of them by weight', () => {
	const job = jobOf(ownSheet(someFaces(40)));
	expect(job.faces).toHaveLength(40);
	expect(Object.keys(job.materials)).toEqual(['sealer', 'filler', 'gloss']);
	for (const face of job.faces)
		expect(face.coats.map(coat => `${coat.material} ${coat.kind} ${coat.ofStage.join('/')}`)).toEqual([
			'sealer medium 1/1',
			'filler medium 1/2',
			'filler full 2/2',
			'gloss tack 1/3',
			'gloss full 2/3',
			'gloss full 3/3',
		]);
	// Sanding between primer and topcoat takes the primer's own grit where the stage names none.
	expect(job.faces[0]?.coats[3]).toMatchObject({
		wait_h: 16,
		prep: [
			{ step: 'sand', grit: 320 },
			{ step: 'wipe', grit: null },
		],
	});
	expect(job.faces[1]?.after).toEqual(['shelf 1/face 0']);
});

test('paint by weight is worked out by the volumes of its cans', () => {
	const { faces, materials } = jobOf(ownSheet(someFaces(1)));
	expect(materials.filler?.density_kg_per_L).toEqual({ base: 1.42, hardener: 1.02, reducer: 0.87 });
	const both = 100 / 1.42 + 18 / 1.02;
	const solids = (0.52 * both) / (both + 12 / 0.87);
	const landed_mL = (coat: number) => {
		const { volume_mL = 0, capture = 0 } = faces[0]?.coats[coat] ?? {};
		return volume_mL * capture * 0.7;
	};
	expect(landed_mL(1)).toBeCloseTo((0.06 * 35) / solids, 9);
	const fullSolids = (0.52 * both) / (both + 6 / 0.87);
	expect(landed_mL(2)).toBeCloseTo((0.06 * 45) / fullSolids, 9);
});

test('a face takes whole strokes, and exactly the time that its paint takes to flow, with its turns', () => {
	const face: OwnFace = {
		attitude: 'upright',
		stroke: 'side',
		tilt: 'none',
		size_cm: [120, 20],
		crosswise: [],
	};
	const [sealer, medium] = jobOf(ownSheet([face])).faces[0]?.coats ?? [];
	// A fan of 240 mm and 60 % overlap: at most 96 mm apart, and 200 mm wants three; from edge to edge they would lie
	// 67 mm apart, closer than four fifths of that, so they lie half in.
	expect(sealer).toMatchObject({ strokes: 3, spacing_mm: 96, first_mm: 4 });
	for (const coat of [sealer, medium]) {
		const { volume_mL = 0, trigger_s = 0, spray_s = 0, flow_mL_per_min = 1 } = coat ?? {};
		expect(trigger_s).toBeCloseTo((volume_mL / flow_mL_per_min) * 60, 9);
		expect(spray_s).toBeCloseTo(trigger_s + 2 * 0.5, 9);
	}
});

test('ten times the faces take no more than twenty times the work', () => {
	const work_s = (count: number) => {
		const sheet = ownSheet(someFaces(count));
		const began = process.cpuUsage();
		expect(jobOf(sheet).faces).toHaveLength(count);
		return process.cpuUsage(began).user / 1e6;
	};
	work_s(500);
	expect(work_s(5000)).toBeLessThan(20 * work_s(500));
});

test('one face more than ten thousand is refused in a line', () => {
	const loaded = parseJob(ownSheet(someFaces(10_001)), 'own.yaml');
	expect(loaded.ok || loaded.errors.map(({ says }) => says)).toEqual([
		'parts: 10001 faces; at most 10000 fit one job',
	]);
});

test('a circle through ten thousand faces is found, and told in a few words', () => {
	const text = ownSheet(someFaces(10_000), 10_000).replace(
		'      - face: face 0\n',
		'      - face: face 0\n        after: [face 9999]\n',
	);
	const loaded = parseJob(text, 'own.yaml');
	const says = loaded.ok ? [] : loaded.errors.map(error => error.says);
	expect(says).toEqual([expect.stringMatching(/after goes in a circle: .{20,200}$/)]);
});

test('whatever is cut out of a sheet or put into it, it is read or refused in lines that lie within it', () => {
	const pieces = fc.constantFrom(
		'',
		'\n',
		':',
		'- ',
		'[',
		'}',
		'"',
		'#',
		'&a ',
		'*a',
		'\t',
		'°',
		'1e400',
		' to ',
		'\u202e',
		'|\n',
		'? ',
	);
	fc.assert(
		fc.property(fc.nat(exampleText.length), fc.nat(40), pieces, (at, cut, piece) => {
			const text = exampleText.slice(0, at) + piece + exampleText.slice(at + cut);
			const loaded = parseJob(text, 'cart.yaml');
			const lines = text.split('\n');
			for (const { line, column, says } of loaded.ok ? [] : loaded.errors) {
				expect(column).toBeGreaterThan(0);
				expect(column).toBeLessThanOrEqual((lines[line - 1]?.length ?? -1) + 2);
				expect(says).toMatch(/^[^\p{Cc}\p{Cf}]+$/u);
			}
		}),
		{ numRuns: 150 },
	);
});
