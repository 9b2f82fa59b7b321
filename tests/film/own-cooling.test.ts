import { expect, test } from 'vitest';
import { ownCooling_K, type Substrate } from '../../src/film/own-cooling.ts';
import { parseJob } from '../../src/job/load.ts';
import { notesOf } from '../../src/job/notes.ts';
import { altered, complaintsOf, exampleText } from '../job/altered.ts';

/** Worked out by hand: 0.6 × 62 µm × 0.6 × 870 kg/m³ × 420 kJ/kg are 8.156 kJ/m². */
test.each<[Substrate, number]>([
	['metal', 2.1],
	['wood', 2.7],
	['plastic', 1.5],
])('62 µm of which 60%% are solvent may cool %s by %d K', (substrate, kelvin) => {
	expect(ownCooling_K(62, 0.4, substrate)).toBeCloseTo(kelvin, 1);
});

/** Vapour data at 20 °C, all from memory: Antoine in mmHg and °C, g/mol, kJ/kg, and Sc in air. */
const liquids = {
	'butyl acetate': { antoine: [7.02845, 1368.5, 204], molar: 116.2, heat: 372, schmidt: 2.13 },
	butanone: { antoine: [6.97421, 1209.6, 216], molar: 72.1, heat: 490, schmidt: 1.68 },
} as const;

/**
 * By how much a pure liquid lies below air of 20 °C that gives it all its warmth: vapour × heat ÷ (1.21 × Sc^0.56).
 * Source: psychrometric ratio of organic liquids in air, Bedingfield and Drew (from memory).
 */
function wetBulb_K({ antoine: [a, b, c], molar, heat, schmidt }: (typeof liquids)[keyof typeof liquids]) {
	let [least, most] = [0, 60];
	for (let halving = 0; halving < 60; halving++) {
		const kelvin = (least + most) / 2;
		const share = 10 ** (a - b / (c + 20 - kelvin)) / 760;
		const vapour = ((share / (1 - share)) * molar) / 28.97;
		if ((heat * vapour) / (1.21 * schmidt ** 0.56) > kelvin) least = kelvin;
		else most = kelvin;
	}
	return least;
}

test('a pure liquid cools itself by 6.0 K, or a quick one by 22.9 K, as near as the data are remembered; no film is said to cool more', () => {
	expect(Math.abs(wetBulb_K(liquids['butyl acetate']) / 6 - 1)).toBeLessThan(0.08);
	// By the heat alone 1 mm of a mix of 10 % solids would cool wood by 64 K.
	const most_K = ownCooling_K(1000, 0.1, 'wood');
	expect(most_K).toBe(22.9);
	expect(Math.abs(wetBulb_K(liquids.butanone) / most_K - 1)).toBeLessThan(0.08);
	expect(ownCooling_K(5000, 0.1, 'plastic')).toBe(most_K);
});

const notesIn = (text: string): string => {
	const loaded = parseJob(text, 'cart.yaml');
	if (!loaded.ok) throw new Error(JSON.stringify(loaded.errors));
	return notesOf(loaded.job, 'metric').join('\n');
};
const rail = '  - part: canopy rail\n';

test('a sheet that says what a part is made of is told of the coat that cools it most, as advice', () => {
	expect(notesIn(exampleText)).not.toContain('may cool');
	expect(notesIn(altered(rail, `${rail}    substrate: metal\n`))).toMatch(
		/canopy rail\/front: with a fast reducer a full coat of primer may cool metal by 2\.8 °C: of 2\.8 °C over the dew point 0 °C would be left/,
	);
});

test('what it cannot be made of is refused', () => {
	expect(complaintsOf(altered(rail, `${rail}    substrate: glass\n`))[0]).toMatch(/substrate: .*metal, wood/);
});
