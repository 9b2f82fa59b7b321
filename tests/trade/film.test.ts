import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
	coverage,
	dryFilm,
	meanWetFilm_um,
	paceOf,
	paintForFace_mL,
	paintForFaceSpan_mL,
	spacing_mm,
	wetFilm,
} from '../../src/trade/film.ts';
import { sagLimit_um } from '../../src/trade/sag.ts';

const face = { area_m2: 2, dry_um: 50, solids: 0.5, reducerShareOfMix: 0.2, transfer: 0.5 };
const films = fc.double({ min: 1, max: 500, noNaN: true });
const solidses = fc.double({ min: 0.05, max: 1, noNaN: true });

describe('film', () => {
	test('goes from dry to wet and back, thinned or not', () => {
		fc.assert(
			fc.property(films, solidses, fc.double({ min: 0, max: 2, noNaN: true }), (dry_um, solids, thinning) => {
				const wet_um = wetFilm({ dry_um, solids, thinning });
				expect(dryFilm({ wet_um, solids, thinning })).toBeCloseTo(dry_um, 6);
				expect(wet_um).toBeGreaterThanOrEqual(dry_um);
			}),
		);
	});

	test('area × coverage is the paint of the same film', () => {
		fc.assert(
			fc.property(films, solidses, (dry_um, solids) => {
				const litres = 2 / coverage({ dry_um, solids });
				const used = paintForFace_mL({ area_m2: 2, dry_um, solids, transfer: 1 });
				expect(litres * 1000).toBeCloseTo(used, 6);
			}),
		);
	});
});

describe('paint for a face', () => {
	test('is area × dry film ÷ (solids of the mix × transfer)', () => {
		expect(paintForFace_mL(face)).toBeCloseTo(500, 9);
	});

	test('is a range where solids and transfer are not known exactly', () => {
		const { low, high } = paintForFaceSpan_mL({ ...face, solids_tolerance: 0.02, transfer_tolerance: 0.1 });
		expect(low).toBeCloseTo(100 / (0.52 * 0.8 * 0.6), 9);
		expect(high).toBeCloseTo(100 / (0.48 * 0.8 * 0.4), 9);
	});

	test('is one value where both are', () => {
		const { low, high } = paintForFaceSpan_mL({ ...face, solids_tolerance: 0, transfer_tolerance: 0 });
		expect([low, high]).toEqual([paintForFace_mL(face), paintForFace_mL(face)]);
	});

	test.each([
		[() => paintForFace_mL({ ...face, solids: 1.2 }), 'volume solids must be 0.01 to 1, not 1.2'],
		[() => paintForFace_mL({ ...face, transfer: 0 }), 'transfer efficiency must be 0.05 to 1, not 0'],
		[() => paintForFace_mL({ ...face, area_m2: 0 }), 'area must be more than 0 m²'],
		[
			() => paintForFace_mL({ ...face, reducerShareOfMix: 0.9 }),
			'reducer share of the mix must be 0 to 0.67',
		],
		[() => wetFilm({ dry_um: 10, solids: 0.5, thinning: 3 }), 'thinner ÷ paint must be 0 to 2, not 3'],
		[() => spacing_mm({ fanHeight_mm: 200, overlap: 1 }), 'overlap must be 0 to 0.95, not 1'],
	])('what lies outside the range is refused with the range: %#', (call, says) => {
		expect(call).toThrow(RangeError);
		expect(call).toThrow(says);
	});
});

describe('a layer', () => {
	const gun = { flow_mL_per_min: 200, transfer: 0.6, speed_mm_per_s: 400, spacing_mm: 100 };

	test('its mean film times its area is what landed in its time', () => {
		// 1 m² at 400 mm/s, 100 mm apart: 25 s.
		expect(meanWetFilm_um(gun)).toBeCloseTo((200 / 60) * 25 * 0.6, 9);
	});

	test('half the spacing doubles it', () => {
		expect(
			meanWetFilm_um({ ...gun, spacing_mm: spacing_mm({ fanHeight_mm: 200, overlap: 0.75 }) }),
		).toBeCloseTo(2 * meanWetFilm_um(gun), 9);
	});

	test.each([
		[30, { pace: 'right', runs: false }],
		[20, { pace: 'fast', runs: false }],
		[60, { pace: 'slow', runs: true }],
	])('%i s for a face of 30 s', (took_s, verdict) => {
		expect(paceOf({ took_s, should_s: 30, wet_um: 60, limit_um: 100 })).toMatchObject(verdict);
	});

	test('sags on upright work, not on flat', () => {
		expect(sagLimit_um(100, 'upright')).toBe(100);
		expect(sagLimit_um(100, 'flat')).toBe(Number.POSITIVE_INFINITY);
	});
});
