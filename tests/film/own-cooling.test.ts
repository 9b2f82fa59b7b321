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

test('no film is said to cool more than a pure liquid does without any warmth from below, 22.9 K (from memory)', () => {
	// By the heat alone 1 mm of a mix of 10 % solids would cool wood by 64 K.
	expect(ownCooling_K(1000, 0.1, 'wood')).toBe(22.9);
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
