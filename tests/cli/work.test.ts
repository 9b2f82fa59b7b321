import { describe, expect, test } from 'vitest';
import { runCommand } from '../../src/cli/command.ts';
import { workCommand } from '../../src/cli/work.ts';

async function work(argv: string[], units?: 'us' | 'metric') {
	let out = '';
	let err = '';
	const status = await runCommand(workCommand, argv, {
		stdout: { write: text => (out += text) },
		stderr: { write: text => (err += text) },
		env: {},
		...(units && { units }),
	});
	return { status, out, err };
}

const json = async (argv: string[]): Promise<Record<string, number>> =>
	JSON.parse((await work([...argv, '--json'])).out);

const mix = ['mix', '--ratio', '2:1:1', '--make', '16 fl oz'];
const film = ['film', '--dry', '1.5 mil', '--solids', '42%'];
const air = ['air', '--air', '16 °C', '--humidity', '71%', '--surface', '13 °C'];
const wet = ['air', '--air', '21 °C', '--wet-bulb', '17 °C', '--surface', '19 °C'];
const cup = ['cup', '--cup', 'ford4', '--seconds', '36'];
const life = ['life', '--life', '2 h', '--at', '70 °F', '--now', '88 °F'];
const points = ['life', '--points', '48 h at 7 °C, 24 h at 20 °C, 8 h at 30 °C', '--now'];
const fan = ['fan', '--width', '300 mm', '--depth', '120 mm', '--beta1', '2.3', '--beta2', '4.1'];
const vent = ['vent', '--vapour', '30.4 ft3/gal', '--lel', '1.4%', '--solvent', '1 gal'];

describe('keys of --json', () => {
	test('mix, with a third part or a share of reducer', async () => {
		const { base_mL, hardener_mL, reducer_mL, total_mL } = await json(mix);
		expect(base_mL).toBeCloseTo(236.588, 2);
		expect([hardener_mL, reducer_mL]).toEqual([hardener_mL, hardener_mL]);
		expect(total_mL).toBeCloseTo(473.176, 2);
		const epoxy = await json(['mix', '--ratio', '1:1', '--reduce', '15%', '--make', '2.3 L']);
		expect(epoxy).toMatchObject({ total_mL: 2300 });
		expect(epoxy.reducer_mL).toBeCloseTo(300, 9);
	});

	test('mix from a face instead of an amount', async () => {
		const face = ['--area', '2 m2', '--dry', '50 um', '--solids', '50%', '--transfer', '50%'];
		expect((await json(['mix', '--ratio', '2:1:1', ...face])).total_mL).toBeCloseTo(533.333, 2);
	});

	test('mix with weights and marks', async () => {
		const weighed = await json([...mix, '--density', '1.4:1.1:.87', '--mark', '1 fl oz']);
		expect(weighed.base_g).toBeCloseTo(331.2, 1);
		expect(weighed).toMatchObject({ hardener_error: 0, reducer_error: 0 });
	});

	test('one cup is spoken of in one unit: that of its marks, else the one of its smallest pour', async () => {
		const reduced = ['mix', '--ratio', '1:1', '--reduce', '15%', '--make', '1 L'];
		const marked = (await work([...reduced, '--mark', '25 mL'], 'us')).out;
		expect(marked).toContain('For 1000 mL: base 435 mL, hardener 435 mL, reducer 130 mL.');
		expect(marked).toMatch(/On the marks: base to \d+ mL, hardener to \d+ mL, reducer to \d+ mL\./);
		expect(marked).not.toMatch(/fl oz|qt/);
		const small = (await work([...reduced, '--mark', '0.025 L'], 'metric')).out;
		expect(small).toMatch(/On the marks: base to 0\.\d{1,3} L,/);
		const bare = (await work(reduced, 'us')).out;
		expect(bare).toContain('base to 14.7 fl oz, hardener to 29.4 fl oz, reducer to 33.8 fl oz.');
	});

	test('film, with the volume where there is an area', async () => {
		const plain = await json(film);
		expect(plain.wet_um).toBeCloseTo(90.714, 2);
		expect(plain.coverage_m2_per_L).toBeCloseTo(11.024, 2);
		const sprayed = await json([...film, '--thin', '10%', '--transfer', '65%', '--area', '2 m2']);
		expect(sprayed.wet_um).toBeCloseTo(99.786, 2);
		expect(sprayed.coverage_m2_per_L).toBe(plain.coverage_m2_per_L);
		expect(sprayed.volume_mL).toBeCloseTo((2 * 38.1 * 1.1) / (0.42 * 0.65), 6);
	});

	test('film with what is not known exactly', async () => {
		const spread = await json([...film, '--area', '2 m2', '--transfer', '65%', '--transfer-off', '10%']);
		expect(spread.volume_low_mL).toBeLessThan(spread.volume_mL ?? 0);
		expect(spread.volume_high_mL).toBeGreaterThan(spread.volume_mL ?? 0);
	});

	test('air: no is exit status 1, yes is 0', async () => {
		const no = await work([...air, '--json']);
		expect(no.status).toBe(1);
		expect(JSON.parse(no.out)).toMatchObject({
			spray: false,
			reasons: [expect.stringContaining('dew point')],
		});
		expect(JSON.parse(no.out).margin_C).toBeCloseTo(13 - JSON.parse(no.out).dew_point_C, 9);
		const yes = await work([...wet, '--json']);
		expect(yes.status).toBe(0);
		expect(JSON.parse(yes.out)).toMatchObject({ spray: true, reasons: [] });
		expect((await work([...air, '--margin', '2 °C'])).status).toBe(0);
	});

	test('air at a lower pressure is damper for the same wet bulb', async () => {
		const high = (await json([...wet, '--pressure', '80 kPa'])).dew_point_C ?? 0;
		expect(high).toBeGreaterThan((await json(wet)).dew_point_C ?? 99);
	});

	test('cup, life, fan and vent', async () => {
		expect(await json(cup)).toMatchObject({ in_range: true });
		expect((await json(cup)).viscosity_mm2_per_s).toBeCloseTo(121.31, 2);
		expect((await json(life)).life_min).toBeCloseTo(60, 6);
		expect((await json([...life, '--factor', '3'])).life_min).toBeCloseTo(40, 6);
		expect((await json(life)).careful_min).toBeCloseTo(40, 6);
		const cold = ['life', '--life', '2 h', '--at', '20 °C', '--now', '19 °C'];
		expect(await json(cold)).toMatchObject({ life_min: 120, careful_min: 120 });
		const shape = await json([...fan, '--overlap', '50%']);
		expect(shape.best_overlap).toBeCloseTo(0.4332, 3);
		expect(shape.variation_at_best).toBeCloseTo(0.016, 3);
		expect(shape.variation_at_overlap).toBeCloseTo(0.0591, 3);
		expect(shape.along_to_across_peak).toBeCloseTo(3.417, 3);
		expect((await json(vent)).dilution_m3).toBeCloseTo(242.5, 1);
	});

	test('a fan that nobody measured is that of a sheet that says nothing of it, and named as assumed', async () => {
		// At a feather of 3 half overlap varies by 0.87 %, and 50.8 % is the best: the root of the double-β model, by quadrature.
		const usual = await json(['fan', '--width', '300 mm']);
		expect(usual).toEqual({
			...(await json(['fan', '--width', '300 mm', '--depth', '90 mm', '--beta1', '3', '--beta2', '3'])),
			assumed: ['depth 3.5 in', 'feather 3'],
		});
		expect(usual.variation_at_overlap).toBeCloseTo(0.0087, 4);
		expect(usual.best_overlap).toBeCloseTo(0.508, 3);
		expect((await work(['fan', '--width', '300 mm'])).out).toContain(
			'Usual, not measured: depth 3.5 in, feather 3.',
		);
	});

	test('below freezing the frost point is named, and only there', async () => {
		const cold = await json(['air', '--air', '-5 °C', '--humidity', '80%', '--surface', '-2 °C']);
		expect(cold.frost_point_C).toBe(cold.dew_point_C);
		expect(await json(air)).not.toHaveProperty('frost_point_C');
	});

	test('a product of four parts has an amount and a level of each', async () => {
		// Arithmetic: thirteen parts of 50 mL.
		const four = await json(['mix', '--ratio', '8:2:2:1 accelerator', '--make', '650 mL', '--mark', '50 mL']);
		expect(four).toMatchObject({ base_mL: 400, accelerator_mL: 50, accelerator_error: 0 });
		expect(four.levels_mL).toEqual({ base: 400, hardener: 500, reducer: 600, accelerator: 650 });
		expect(await json(mix)).not.toHaveProperty('accelerator_mL');
	});
});

describe('a time by the points of a data sheet', () => {
	const readings = ['--readings', '20 °C for 6 h, 30 °C for 2 h'];

	test('its key, by which rule, and the share used: worked out by hand', async () => {
		expect(await json([...points, '25 °C'])).toMatchObject({ rule: 'points' });
		expect((await json([...points, '25 °C'])).life_min).toBeCloseTo(60 * Math.sqrt(24 * 8), 6);
		expect(await json([...points, '0 °C'])).toEqual({ life_min: 48 * 60, rule: 'nearest point' });
		expect(await json([...points, '40 °C'])).toMatchObject({ rule: 'rule of thumb' });
		expect((await json([...points, '40 °C'])).life_min).toBeCloseTo(160, 6);
		expect((await json([...points, '0 °C', '--kind', 'beginning'])).life_min).toBeCloseTo(
			60 * 48 * 2 ** 0.7,
			6,
		);
		expect((await json([...points, '25 °C', ...readings])).used).toBeCloseTo(0.5, 9);
	});

	test('what is used up is over: status 1', async () => {
		expect((await work([...points, '25 °C', ...readings])).status).toBe(0);
		expect((await work([...points, '25 °C', '--readings', '30 °C for 8 h'])).status).toBe(1);
	});
});

describe('sentences', () => {
	test.each<[string[], 'us' | 'metric', string]>([
		[
			mix,
			'us',
			'In the cup, one onto the other: base to 8 fl oz, hardener to 12 fl oz, reducer to 16 fl oz.',
		],
		[mix, 'metric', 'For 473 mL: base 237 mL, hardener 118 mL, reducer 118 mL.'],
		[film, 'us', '1.5 mil dry is 3.6 mil wet at 42% solids.'],
		[film, 'metric', '38 µm dry is 91 µm wet at 42% solids.'],
		[
			air,
			'metric',
			'Do not spray: surface 13 °C is only 2.3 °C over the dew point 10.7 °C: 3 °C are wanted.',
		],
		[wet, 'us', 'Dew point 58 °F: the surface is 7.8 °F over it, 5.4 °F are wanted.'],
		[
			['air', '--air', '2 °C', '--humidity', '50%', '--surface', '2 °C'],
			'metric',
			'Frost point −6.5 °C: the surface is 8.5 °C over it',
		],
		[['air', '--air', '2 °C', '--humidity', '80%', '--surface', '0 °C'], 'metric', 'over the frost point'],
		[
			['mix', '--ratio', '100:20:10', '--by', 'weight', '--density', '1.4:1.1:.87', '--make', '1 L'],
			'us',
			'Reducer: 12.8% of base and hardener, by volume.',
		],
		[cup, 'us', '36 s in ford4 is about 121 mm²/s.'],
		[life, 'us', 'At 88 °F it lasts about 60 min'],
		[fan, 'us', 'Widest good spacing: 43.3% overlap, 6.7 in from stroke to stroke.'],
		[fan, 'metric', 'With the fan along the stroke one line would get 3.4 times the film.'],
		[vent, 'us', 'By the rule, 8564 ft³ of air'],
	])('%j in %s', async (argv, units, says) => {
		expect((await work([...argv, '--units', units])).out).toContain(says);
		expect((await work(argv, units)).out).toContain(says);
	});

	test('--units goes before the setting', async () => {
		expect((await work([...film, '--units', 'metric'], 'us')).out).toContain('91 µm');
	});

	test('a cup outside its range is a hint only, and a conversion is called loose', async () => {
		expect((await work(['cup', '--cup', 'ford4', '--seconds', '12'])).out).toContain('a hint only');
		expect((await work([...cup, '--as', 'zahn2'])).out).toContain('A conversion is a start, not a reading.');
	});

	test('a surface outside what may be for the air is a no, in one sentence', async () => {
		const hot = ['air', '--air', '70 °F', '--humidity', '50%', '--surface', '200 °F'];
		const { status, out } = await work(hot, 'us');
		expect(status).toBe(1);
		expect(out).toContain('Do not spray: surface 200 °F is over the 140 °F allowed.');
	});

	test('blush is spoken of over 80 % humidity', async () => {
		const damp = ['air', '--air', '20 °C', '--humidity', '85%', '--surface', '22 °C'];
		expect((await work(damp)).out).toContain('blush is likely');
	});

	test('ventilation prints both figures or says that one is missing, cautions, and never a go-ahead', async () => {
		const limit = [...vent, '--limit', '100 ppm'];
		const [fire, both] = [(await work(vent)).out, (await work(limit)).out];
		expect(fire).toMatch(
			/8564 ft³ of air.*quarter of its explosive limit\.\nExposure limit not given \(--limit\)/,
		);
		expect(both).toMatch(/explosive limit\.\nAt its exposure limit, 100 ppm, mixing 1: 304000 ft³ of air\./);
		for (const out of [fire, both]) {
			expect(out).toContain('does not clear a room');
			expect(out).not.toMatch(/\bsafe\b|enough|\bok\b|may spray/i);
		}
		expect((await json(limit)).exposure_m3).toBeCloseTo(8608, 0);
		expect((await json([...limit, '--mixing', '3'])).exposure_m3).toBeCloseTo(3 * 8608.3, 0);
	});

	test('a no for damp or cold says that no flame heater comes in, one for heat does not', async () => {
		expect((await work(air)).out).toContain('No flame heater: spark, CO, water.');
		expect(JSON.parse((await work([...air, '--json'])).out).cautions).toHaveLength(1);
		const hot = await work(['air', '--air', '70 °F', '--humidity', '50%', '--surface', '200 °F']);
		expect(hot.out).not.toContain('heater');
	});

	test('the fan is drawn across several strokes', async () => {
		expect((await work(fan)).out).toMatch(/Film across 6 strokes at 50% overlap[^\n]*\n +\d+% \|.*[▁-█]/);
	});
});

describe('bad input is one line, exit status 2', () => {
	test.each([
		[['mix', '--ratio', '2:1:1', '--make', '16 flz'], '--make "16 flz", column 4', 'nearest unit "fl oz"'],
		[['mix', '--ratio', '2:1:1', '--make', '16'], 'column 3', 'a unit is missing'],
		[
			['mix', '--ratio', '2:1:1', '--make', '100 mL', '--mark', '60 mL'],
			'too coarse for this batch',
			'weigh it',
		],
		[['mix', '--ratio', '4:1', '--make', '250 mL', '--mark', '80 mL'], '--mark "80 mL"', 'a quarter or more'],
		[['mix', '--ratio', '2:x:1', '--make', '1 L'], '--ratio "2:x:1", column 3', 'base:hardener'],
		[['mix', '--ratio', '2:1:1', '--reduce', '15%', '--make', '1 L'], 'leave one out', ''],
		[['mix', '--ratio', '2:1:1'], '--make is missing', ''],
		[[...mix, '--density', '1.4:1.1'], '--density lacks the reducer', ''],
		[[...mix, '--by', 'weight'], 'density of each can', ''],
		[['film', '--dry', '1.5 mill', '--solids', '42%'], 'column 5', 'nearest unit "mil"'],
		[['film', '--dry', '1.5 mil', '--solids', '42'], 'column 3', '42%'],
		[['film', '--dry', '1.5 mil', '--solids', '142%'], '--solids "142%": allowed: 1% to 100%', ''],
		[['air', '--air', '16 °X', '--humidity', '71%', '--surface', '13 °C'], 'column 4', 'nearest unit "°C"'],
		[[...air, '--wet-bulb', '12 °C'], 'leave one out', ''],
		[[...air, '--margin', '-3 °C'], '--margin "-3 °C": allowed: 0 K to 30 K', ''],
		[
			['air', '--air', '70 °F', '--wet-bulb', '75 °F', '--surface', '70 °F'],
			'--wet-bulb "75 °F": allowed: 32–70 °F',
			'',
		],
		[['mix', '--ratio', '8:2:2:1', '--make', '1 L'], '--ratio "8:2:2:1", column 7', '1 accelerator'],
		[['mix', '--ratio', '8:2:2:-1 flattener', '--make', '1 L'], 'column 7', 'more than 0 of flattener'],
		[
			['mix', '--ratio', '8:2:2:1 flattener', '--make', '1 L', '--density', '1.2:1:.9'],
			'--density lacks the flattener',
			'',
		],
		[['cup', '--cup', 'fort4', '--seconds', '36'], 'unknown cup "fort4"', 'ford4'],
		[['cup', '--cup', 'ford4', '--seconds', 'long'], '--seconds "long", column 1', ''],
		[[...life, '--factor', '9'], 'factor per 10 °C must be 1 to 4', ''],
		[['life', '--life', '2 h', '--at', '70 °F', '--now', '188 °F'], 'not for 86.7 °C (188 °F)', ''],
		[[...points, '50.1 °C'], 'not for 50.1 °C', ''],
		[[...points, '25 °C', '--kind', 'middle'], '--kind "middle"', 'end or beginning'],
		[[...points, '25 °C', '--life', '2 h'], 'leave one out', ''],
		[[...life, '--readings', '20 °C for 6 h'], '--readings needs --points', ''],
		[[...points, '25 °C', '--readings', '20 °C'], '--readings "20 °C"', '20 °C for 6 h'],
		[[...points, '25 °C', '--readings', '20 °C for 0 h'], 'a time must be more than 0 h', ''],
		[['life', '--points', '4 h at 70 °F, 2 h', '--now', '70 °F'], '--points "2 h"', 'a time at a temp'],
		[['life', '--points', '4 h at 70 °F, 2 h at 70 °F', '--now', '70 °F'], 'two times', 'leave one out'],
		[['fan', '--width', '300 mm', '--depth', '120 mm', '--beta1', '0.2'], 'beta1 must be 1 to 10', ''],
		[
			['vent', '--vapour', '30.4 ft3/gall', '--lel', '1.4%', '--solvent', '1 gal'],
			'nearest unit "ft3/gal"',
			'',
		],
		[[...film, 'stray'], '"stray" stands alone', ''],
		[[...film, '--units', 'imperial'], '--units "imperial"', ''],
		[['fim'], 'the nearest is "film"', ''],
		[[...film, '--thinn', '10%'], 'the nearest is --thin', ''],
	])('%j', async (argv, says, also) => {
		const { status, out, err } = await work(argv);
		expect({ status, out }).toEqual({ status: 2, out: '' });
		expect(err.trimEnd().split('\n')).toHaveLength(1);
		expect(err).toContain(says);
		expect(err).toContain(also);
	});
});

describe('help', () => {
	test.each(['mix', 'film', 'air', 'cup', 'life', 'fan', 'gun', 'vent'])(
		'work %s --help names its options',
		async part => {
			const { status, out } = await work([part, '--help']);
			expect(status).toBe(0);
			expect(out).toContain(`fanwise work ${part}: `);
			expect(out).toMatch(/--units us\|metric.*\n.*--json/);
		},
	);

	test.each(workCommand.parts ?? [])('every example of work $name runs', async ({ examples }) => {
		for (const line of examples) {
			const argv = [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(match => match[1] ?? match[2] ?? '');
			const { status, out, err } = await work(argv.slice(1));
			expect(err).toBe('');
			expect(out).not.toBe('');
			expect(status).toBeLessThan(2);
		}
	});

	test('without a part it says which there are', async () => {
		const { status, err } = await work([]);
		expect(status).toBe(2);
		expect(err.split('\n')[0]).toContain('mix, film, air, cup, life, fan, gun or vent');
	});
});

describe('what was measured, and what a face comes to', () => {
	const box = ['--size', '24 in x 20 in', '--stroke', 'up and down', '--dry', '1.0 mil', '--solids', '40%'];
	const its = ['--flow', '7 fl oz/min', '--fan', '8 in', '--depth', '2 in', '--transfer', '65%'];
	const map = ['film', '--map', ...box, ...its];

	test('the map of a face: strokes, speed, paint and film, each worked out by hand from the balance', async () => {
		const found = await json(map);
		const values = {
			...{ strokes: 7, spacing_mm: 101.6, first_mm: 0, speed_mm_per_s: 347.6, trigger_s: 12.24 },
			...{ elapsed_s: 15.24, emitted_mL: 42.24, landed_mL: 19.66, capture: 0.7162, mean_um: 63.5 },
			...{ min_um: 63.02, max_um: 64.68, under: 0, over: 0, bare: 0 },
		};
		for (const [key, value] of Object.entries(values))
			expect(Math.abs((found[key] ?? Number.NaN) - value), key).toBeLessThan(0.006 * Math.max(1, value / 10));
	});

	test('a speed is told what it lays; over the limit the answer is no', async () => {
		const slow = await work([...map, '--speed', '7 in/s', '--sag', '4 mil', '--json']);
		expect(slow.status).toBe(1);
		const found = JSON.parse(slow.out);
		expect(found.mean_um / 63.5).toBeCloseTo(347.6 / (7 * 25.4), 3);
		expect(found.over_sag).toBe(1);
		expect((await work([...map, '--sag', '4 mil'])).status).toBe(0);
	});

	test('a fan turned along the stroke: its peak and the bare share', async () => {
		const found = await json([...map, '--turned', '90']);
		expect((found.max_um ?? 0) / 63.5).toBeCloseTo(4.074, 2);
		expect(found.bare).toBeGreaterThan(0.5);
	});

	test('flow, transfer and feather as measured', async () => {
		expect((await json(['gun', '--caught', '103.5 ml', '--seconds', '30'])).flow_mL_per_min).toBeCloseTo(
			207,
			9,
		);
		const used = await json([
			...['gun', '--used', '61.8 ml', '--area', '0.482579 m2', '--dry', '1.0 mil', '--solids', '40%'],
			...['--size', '22 in x 34 in', '--stroke', 'side to side', '--fan', '8 in', '--depth', '2 in'],
		]);
		expect(used.transfer_x_capture).toBeCloseTo(0.496, 3);
		expect(used.transfer).toBeCloseTo(0.65, 3);
		expect((await json(['gun', '--stripes', '20 mm, 41.06 mm, 20 mm'])).beta).toBeCloseTo(3, 2);
	});

	/** DIN 53211, second-hand: ν = 4.57 t − 452 ÷ t, 25 to 150 s. */
	test.each([
		[25, 96.17],
		[30, 122.03],
		[100, 452.48],
	])('%s s in a DIN cup', async (seconds, viscosity) => {
		const found = await json(['cup', '--cup', 'din4', '--seconds', String(seconds)]);
		expect(found.viscosity_mm2_per_s).toBeCloseTo(viscosity, 2);
		expect(found.in_range).toBe(true);
	});

	test('20 s in a DIN cup is a hint', async () => {
		expect((await json(['cup', '--cup', 'din4', '--seconds', '20'])).in_range).toBe(false);
	});

	/** 7 fl oz/min, 60 % solvent of 26.4 ft³ a gallon, LEL 1 %: 343 and 8,662 ft³/min, by the rule of a quarter and by 100 ppm. */
	test('air while a gun sprays, for fire and for health, with every caution', async () => {
		const asked = [
			'vent',
			'--flow',
			'7 fl oz/min',
			'--share',
			'60%',
			'--vapour',
			'26.4 ft3/gal',
			'--lel',
			'1%',
		];
		const found = JSON.parse((await work([...asked, '--limit', '100 ppm', '--json'])).out);
		const ft3 = 0.0283168466;
		expect(found.air_m3_per_min / ft3).toBeCloseTo(343, 0);
		expect(found.air_to_limit_m3_per_min / ft3 / 8662).toBeCloseTo(1, 3);
		expect(found.cautions.length).toBeGreaterThan(0);
	});

	test.each([
		[['film', '--map', ...box.slice(2), ...its], /--size is missing/],
		[
			['film', '--map', '--size', '24 in', ...box.slice(2), ...its],
			/--size "24 in", column 1: width by height/,
		],
		[[...map, '--turned', '120'], /--turned must be 0 to 90/],
		[['gun'], /say one of --caught, --used and --stripes/],
		[['gun', '--stripes', '20 mm, 41 mm'], /three lengths are wanted/],
		[['gun', '--caught', '0 ml', '--seconds', '30'], /--caught "0 ml": allowed: more than 0/],
	])('%j is refused in one line', async (argv, says) => {
		const { status, err } = await work(argv);
		expect(status).toBe(2);
		expect(err).toMatch(says);
		expect(err.trimEnd().split('\n')).toHaveLength(1);
	});
});

test('what no sheet may say is refused here too, under the name of its option and in the unit typed', async () => {
	const map = ['film', '--dry', '1 mil', '--solids', '50%', '--map', '--stroke', 'side to side'];
	const at = ['--flow', '200 mL/min', '--size', '24 in x 20 in'];
	for (const [argv, says] of [
		[[...map, ...at, '--fan', '0 in'], '--fan "0 in": allowed: more than 0, up to 100 m'],
		[['fan', '--width', '0 mm'], '--width "0 mm": allowed: more than 0, up to 100 m'],
		[['mix', '--ratio', '2:1', '--make', '900 L'], '--make "900 L": allowed: more than 0, up to 200 L'],
		[['film', '--dry', '900 mm', '--solids', '50%'], '--dry "900 mm": allowed: more than 0, up to 5000 um'],
		[['film', '--dry', '1 mil', '--solids', '0.1%'], '--solids "0.1%": allowed: 1% to 100%'],
		[
			['film', '--dry', '1 mil', '--solids', '50%', '--area', '0 m2'],
			'--area "0 m2": allowed: more than 0, up to 1000 m2',
		],
		[
			['vent', '--vapour', '30 ft3/gal', '--lel', '140%', '--solvent', '1 gal'],
			'--lel "140%": allowed: 0% to 100%',
		],
	] as const) {
		const { status, out, err } = await work([...argv]);
		expect(err).toBe(`fanwise work ${argv[0]}: ${says}\n`);
		expect({ status, out }).toEqual({ status: 2, out: '' });
	}
	expect((await work(['mix', '--ratio', '1:1', '--reduce', '120%', '--make', '1 L'])).status).toBe(0);
});
