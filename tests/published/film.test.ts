import { describe, expect, test } from 'vitest';
import { coverage, dryFilm, paintForFace_mL, spacing_mm, wetFilm } from '../../src/trade/film.ts';
import { holds, type Published } from './published.ts';

const mil_um = 25.4;
/** m²/L to ft²/gal, from 231 in³ to the gallon. */
const ft2PerGal = (m2_per_L: number): number => (m2_per_L * 3.785411784) / 0.09290304;
const spread = (solids: number, dry_mil: number, transfer = 1): number =>
	ft2PerGal(coverage({ solids, dry_um: dry_mil * mil_um, transfer }));

const handbook = 'MIL-HDBK-1110 §2.1.5, with 1600 for 1604';
const guide = "contractor's estimating guide, theoretical spreading rates";
const rates = 'coatings note on theoretical spreading rate';

describe('coverage', () => {
	const rows: [number, number, number, number, string][] = [
		[1, 1, 1600, 5, handbook],
		[1, 2, 800, 3, handbook],
		[1, 4, 400, 2, handbook],
		[0.5, 2, 400, 2, handbook],
		[0.5, 4, 200, 1, handbook],
		[0.5, 1, 802, 0.5, guide],
		[0.35, 2, 281, 0.5, guide],
		[0.65, 2, 521, 0.5, guide],
		[0.45, 4, 180, 0.5, guide],
		[0.9, 6, 241, 0.5, guide],
		[1, 10, 160, 0.5, guide],
		[0.65, 5, 208.52, 0.05, rates],
		[0.46, 2.5, 294, 1.5, 'trade magazine on estimating, vol. 5 no. 4, cut off by hand'],
		[0.56, 2.5, 358, 1.5, 'trade magazine on estimating, vol. 5 no. 4, cut off by hand'],
	];
	holds(
		rows.map(([solids, dry, value, off, source]): Published => {
			const of = `${solids * 100} % solids at ${dry} mil dry, ft²/gal`;
			return { of, value, off, source, here: () => spread(solids, dry) };
		}),
	);
	holds([
		{
			of: '45 % solids at 50 µm, m²/L',
			value: 9,
			off: 1e-9,
			source: 'coatings data note',
			here: () => coverage({ solids: 0.45, dry_um: 50 }),
		},
		{
			of: '70 % solids at 100 µm, m²/L',
			value: 7,
			off: 1e-9,
			source: 'coatings data note',
			here: () => coverage({ solids: 0.7, dry_um: 100 }),
		},
		{
			of: '65 % solids at 125 µm, m²/L',
			value: 5.2,
			off: 1e-9,
			source: rates,
			here: () => coverage({ solids: 0.65, dry_um: 125 }),
		},
		{
			of: 'a gallon at 10 mil wet, ft²',
			value: 160.417,
			off: 0.001,
			source: 'note of wet film formulas, 1604.17 from 231 in³',
			here: () => spread(1, 10),
		},
		{
			of: '100 ft²/gal (all solids, 16.04 mil) with 30 % lost',
			value: 70,
			off: 0.01,
			source: 'practical coverage definition',
			here: () => spread(1, 16.0417, 0.7),
		},
	]);

	test('the 600 ft²/gal that MIL-HDBK-1110 prints for 50 % at 1 mil is a misprint of 800', () => {
		expect(Math.abs(spread(0.5, 1) - 800)).toBeLessThan(3);
	});
});

describe('wet and dry', () => {
	holds([
		{
			of: '1.5 mil dry at 42 % solids, mil wet',
			value: 3.57,
			off: 0.005,
			source: 'Paint Center, Oct 2003',
			here: () => wetFilm({ dry_um: 1.5 * mil_um, solids: 0.42 }) / mil_um,
		},
		{
			of: '8 mil wet at 35 % solids, mil dry',
			value: 2.8,
			off: 1e-9,
			source: "contractor's estimating guide",
			here: () => dryFilm({ wet_um: 8 * mil_um, solids: 0.35 }) / mil_um,
		},
		{
			of: '8 mil wet at 35 % solids thinned 10 %, mil dry (8 × 32 %)',
			value: 2.56,
			off: 0.02,
			source: "contractor's estimating guide, method for thinned paint",
			here: () => dryFilm({ wet_um: 8 * mil_um, solids: 0.35, thinning: 0.1 }) / mil_um,
		},
		{
			of: '4 mil wet at 25 % solids, mil dry',
			value: 1,
			off: 1e-9,
			source: 'question-and-answer page on mils of paint',
			here: () => dryFilm({ wet_um: 4 * mil_um, solids: 0.25 }) / mil_um,
		},
	]);
});

test('an 8 in fan overlapped by half goes on 4 in from stroke to stroke (MIL-HDBK-1110 §9.6.8.1)', () => {
	expect(spacing_mm({ fanHeight_mm: 8 * 25.4, overlap: 0.5 })).toBeCloseTo(4 * 25.4, 9);
});

test('a reduced topcoat 2:1:1 takes a third more than unreduced (common practice, no source)', () => {
	const face = { area_m2: 1, dry_um: 40, solids: 0.5, transfer: 0.65 };
	const reduced = paintForFace_mL({ ...face, reducerShareOfMix: 0.25 });
	expect(reduced / paintForFace_mL(face)).toBeCloseTo(4 / 3, 9);
});
