import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { balanceOf, laidOut, type Setting, type Shape, standardLead_mm } from '../../src/film/balance.ts';
import { shownUse } from '../../src/film/learning.ts';
import { cellsOf, lineAt, summed } from '../../src/film/lines.ts';
import { filmAt, filmOver, meanOf } from '../../src/film/map.ts';
import { enoughFor_mL, noUse, shortOdds, unsureAt, withUse } from '../../src/film/odds.ts';
import { across } from '../../src/film/profile.ts';
import { coatsAt, comfortable_mm_per_s } from '../../src/film/speed.ts';
import { integrate } from '../../src/trade/quadrature.ts';
import { setting, shape, sprayed } from './world.ts';

/** Random faces and guns, each as one pass of a sheet; ten thousand in all. */
const runs = { numRuns: 1250 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const anySetting: fc.Arbitrary<Setting> = fc
	.record({
		width_mm: number(40, 500),
		depth: number(0.1, 1),
		beta1: number(1, 6),
		beta2: number(1, 6),
		overlap: number(0, 0.85),
		transfer: number(0.2, 1),
		more_mm: number(0, 80),
		first: fc.constantFrom(null, 'on the edge', 'half in'),
	})
	.map(({ width_mm, depth, beta1, beta2, more_mm, ...rest }) => {
		const its = { width_mm, depth_mm: depth * width_mm, beta1, beta2 };
		return { ...rest, fan: its, lead_mm: standardLead_mm(its) + more_mm, turn_s: 0.5, held: false };
	});
const anyShape: fc.Arbitrary<Shape> = fc
	.record({
		along: number(200, 3000),
		across: number(5, 3000),
		pieces: number(1, 60),
		there: number(0.3, 1),
		corner: fc.boolean(),
	})
	.map(({ along, across: high, pieces, there, corner }) => ({
		...{ along_mm: along, across_mm: high, pieces, corner },
		area_m2: (along * high * pieces * there) / 1e6,
	}));
const anyPass = fc.record({
	face: anyShape,
	how: anySetting,
	wet_um: number(10, 150),
	flow: number(30, 500),
});
const without = ({ corner: _, ...face }: Shape): Shape => ({ ...face, corner: false });

describe('the balance of any pass', () => {
	test('what leaves the gun lands, passes the edges, or is lost to the air: nothing else', () => {
		fc.assert(
			fc.property(anyPass, ({ face, how, wet_um, flow }) => {
				const { emitted_mL, landed_mL, capture, trigger_s } = balanceOf(laidOut(face, how), wet_um, flow);
				expect(Math.abs((emitted_mL * how.transfer * capture) / (face.area_m2 * wet_um) - 1)).toBeLessThan(
					1e-9,
				);
				expect(Math.abs((flow * trigger_s) / 60 / emitted_mL - 1)).toBeLessThan(1e-9);
				expect(landed_mL).toBeCloseTo(face.area_m2 * wet_um, 9);
				expect(capture).toBeGreaterThan(0);
				expect(capture).toBeLessThanOrEqual(1 + 1e-12);
			}),
			runs,
		);
	});

	test('the map summed over the face is the lines that meet it', () => {
		fc.assert(
			fc.property(anyPass, ({ face, how }) => {
				const laid = laidOut(without(face), how);
				const profile = across(how.fan);
				const cells = cellsOf(laid.lines, profile, face.across_mm, how.fan.width_mm);
				const whole = cells.reduce(
					(sum, { from_mm, to_mm, times }) =>
						sum + times * integrate(y => summed(laid.lines, profile, y), from_mm, to_mm),
					0,
				);
				expect(Math.abs(whole / laid.worth - 1)).toBeLessThan(1e-6);
				const film = filmOver(laid, how.lead_mm);
				expect(film.least).toBeGreaterThanOrEqual(0);
				expect(film.least).toBeLessThanOrEqual(1 + 1e-9);
				expect(film.most).toBeGreaterThanOrEqual(1 - 1e-9);
			}),
			runs,
		);
	});

	test('the knob changes seconds, never paint, and film grows with flow and falls with speed', () => {
		fc.assert(
			fc.property(anyPass, number(1.05, 4), ({ face, how, wet_um, flow }, times) => {
				const laid = laidOut(face, how);
				const [one, other] = [flow, flow * times].map(each => balanceOf(laid, wet_um, each));
				if (!one || !other || other.lead_mm > how.lead_mm) return;
				expect(other.emitted_mL / one.emitted_mL).toBeCloseTo(1, 9);
				expect(other.trigger_s).toBeLessThan(one.trigger_s);
				expect(other.speed_mm_per_s).toBeCloseTo(one.speed_mm_per_s * times, 6);
				expect(balanceOf(laid, wet_um * times, flow).speed_mm_per_s).toBeLessThan(one.speed_mm_per_s);
			}),
			runs,
		);
	});

	test('paint grows with film, area and lead, and falls with transfer', () => {
		fc.assert(
			fc.property(anyPass, number(1.01, 3), ({ face, how, wet_um, flow }, times) => {
				const paint = (one: Shape, its: Setting, film_um = wet_um) =>
					balanceOf(laidOut(one, its), film_um, flow / 200).emitted_mL;
				const base = paint(face, how);
				expect(paint(face, how, wet_um * times)).toBeGreaterThan(base);
				expect(
					paint({ ...face, along_mm: face.along_mm * times, area_m2: face.area_m2 * times }, how),
				).toBeGreaterThan(base);
				expect(paint(face, { ...how, lead_mm: how.lead_mm * times })).toBeGreaterThan(base);
				expect(paint(face, { ...how, transfer: how.transfer / times })).toBeGreaterThan(base);
			}),
			runs,
		);
	});

	test('lines and film are alike from either edge', () => {
		fc.assert(
			fc.property(anyPass, number(0, 1), ({ face, how }, at) => {
				const laid = laidOut(without(face), how);
				const last = lineAt(laid.lines, laid.lines.count - 1);
				expect(lineAt(laid.lines, 0)).toBeCloseTo(face.across_mm - last, 6);
				const y = at * face.across_mm;
				expect(filmAt(laid, y)).toBeCloseTo(filmAt(laid, face.across_mm - y), 6);
			}),
			runs,
		);
	});

	test('a face of no width catches what the middle of one stroke lays there, a large one the layer', () => {
		fc.assert(
			fc.property(anySetting, number(30, 200), (how, wet_um) => {
				const one = { ...how, first: null };
				const thin = balanceOf(laidOut(shape(800, 1e-4), one), wet_um, 10);
				const peak = across(how.fan).at(0);
				expect(thin.capture / ((1e-4 * peak * 800) / (800 + 2 * how.lead_mm))).toBeCloseTo(1, 3);
				const spacing_mm = how.fan.width_mm * (1 - how.overlap);
				const large = balanceOf(laidOut(shape(1e8, 1e8), one), wet_um, 100);
				expect(large.emitted_mL / ((1e10 * wet_um) / how.transfer)).toBeCloseTo(1, 3);
				expect(large.emitted_mL).toBeGreaterThanOrEqual(((1e10 * wet_um) / how.transfer) * (1 - 1e-9));
				const layer = ((100 / 60) * 1e6 * how.transfer) / (spacing_mm * wet_um);
				expect(large.speed_mm_per_s / layer).toBeCloseTo(1, 3);
			}),
			runs,
		);
	});

	test('a common fan leaves no face of any height under three quarters, none over 1.14 of its film', () => {
		fc.assert(
			fc.property(number(5, 2500), high => {
				const { film } = sprayed(shape(600, high));
				expect(film.least).toBeGreaterThan(0.75);
				expect(film.most).toBeLessThan(1.14);
			}),
			runs,
		);
	});

	test('where one flow keeps every speed in range, all speeds are in it', () => {
		fc.assert(
			fc.property(
				fc.array(anyShape, { minLength: 1, maxLength: 8 }),
				anySetting,
				number(10, 150),
				(faces, how, wet_um) => {
					const coats = faces.map(face => ({ laid: laidOut(face, how), wet_um }));
					const { knob, balances } = coatsAt(coats, 200);
					if (knob.otherFan) return;
					for (const { speed_mm_per_s } of balances) {
						expect(speed_mm_per_s).toBeGreaterThanOrEqual(comfortable_mm_per_s[0] * (1 - 1e-6));
						expect(speed_mm_per_s).toBeLessThanOrEqual(comfortable_mm_per_s[1] * (1 + 1e-6));
					}
				},
			),
			runs,
		);
	});
});

test('strokes that stop short of a full end lay the mean all the same, and less at the ends', () => {
	for (const lead_mm of [0, 8, 20]) {
		const how = setting({ lead_mm });
		const { film, capture, emitted_mL, landed_mL } = sprayed(shape(600, 500), how);
		expect(film.least).toBeLessThan(sprayed(shape(600, 500)).film.least);
		expect(emitted_mL * 0.65 * capture).toBeCloseTo(landed_mL, 9);
	}
});

test('a face shorter than a pull costs a whole pull', () => {
	const small = sprayed(shape(5, 150), setting({ lead_mm: 0 }));
	expect(small.trigger_s / small.laid.strokes).toBeCloseTo(0.3, 6);
});

test('the mean by cells is the mean wanted, a corner pass counted', () => {
	const laid = laidOut(shape(600, 700, { corner: true }), setting());
	const places = Array.from({ length: 4000 }, (_, nth) => (nth * 700) / 4000);
	const cells = places.map(from_mm => ({ from_mm, to_mm: from_mm + 700 / 4000, times: 1 }));
	expect(meanOf(cells, y => filmAt(laid, y))).toBeCloseTo(1, 6);
});

describe('batches and learning', () => {
	const anyRow = fc.array(number(5, 200), { minLength: 1, maxLength: 20 });
	test('a batch grows with what is unsure, and as the risk falls; nothing unsure: exactly the sum', () => {
		fc.assert(
			fc.property(anyRow, number(0.01, 0.3), number(0.001, 0.2), (row, common, risk) => {
				const uses = row.reduce(withUse, noUse);
				const batch = (...unsure: Parameters<typeof unsureAt>) => enoughFor_mL(uses, unsureAt(...unsure));
				const as = batch(common, risk);
				expect(batch(common * 1.1, risk)).toBeGreaterThan(as);
				expect(batch(common, risk, 0.12)).toBeGreaterThan(as);
				expect(batch(common, risk / 2)).toBeGreaterThan(as);
				expect(batch(0, risk, 0)).toBe(uses.sum_mL);
				expect(shortOdds(as, uses, unsureAt(common, risk))).toBeCloseTo(risk, 9);
			}),
		);
	});

	test('the use learned lies between the sheet and the cups, in whatever order they come', () => {
		const anyCup = fc.record({
			emitted_mL: number(20, 500),
			used_mL: number(20, 500),
			weighed: fc.boolean(),
		});
		fc.assert(
			fc.property(fc.array(anyCup, { minLength: 1, maxLength: 9 }), number(0.05, 0.3), (cups, prior) => {
				const sum = (of: 'emitted_mL' | 'used_mL') => cups.reduce((total, cup) => total + cup[of], 0);
				const seen = sum('used_mL') / sum('emitted_mL');
				const { factor, unsure } = shownUse(cups, prior);
				expect(factor).toBeGreaterThanOrEqual(Math.min(1, seen) - 1e-12);
				expect(factor).toBeLessThanOrEqual(Math.max(1, seen) + 1e-12);
				expect(unsure).toBeLessThan(prior);
				expect(shownUse(cups.toReversed(), prior).factor).toBeCloseTo(factor, 12);
			}),
		);
	});
});
