import { expect, test } from 'vitest';
import { parseJob } from '../../src/job/load.ts';
import { notesOf } from '../../src/job/notes.ts';
import { altered, complaintsOf, exampleText } from './altered.ts';

/** What a sheet may say of solids can by can, of its solvent, and of a reducer by weight. */

const jobOf = (text: string) => {
	const loaded = parseJob(text, 'cart.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(({ says }) => says).join('; '));
	return loaded.job;
};
const topcoatSolids = /solids: [^\n]*/g;
/** The second material of the example is its topcoat, 2:1:1 by volume. */
function withSolids(line: string): string {
	const [, second] = exampleText.match(topcoatSolids) ?? [];
	if (second === undefined) throw new Error('the example has two materials');
	const at = exampleText.lastIndexOf(second);
	return `${exampleText.slice(0, at)}${line}${exampleText.slice(at + second.length)}`;
}

test('solids of each can are those of the mix: 2 of 45 % and 1 of 60 % are 50 %', () => {
	// Arithmetic, volumes taken to add up: (2 × 45 + 60) ÷ 3.
	const { topcoat } = jobOf(withSolids('solids: { base: 45% ± 3%, hardener: 60% }')).materials;
	expect(topcoat?.solids).toBeCloseTo(0.5, 12);
	expect(topcoat?.solids_tolerance).toBeCloseTo((2 * 0.03 + 0.02) / 3, 12);
	expect(jobOf(withSolids('solids: 50% ± 2%')).materials.topcoat).toMatchObject({
		solids: 0.5,
		solids_tolerance: 0.02,
	});
});

test('by weight the lighter can takes more room: 100 g of 1.25 and 60 g of 1.0 kg/L are 80 and 60 mL', () => {
	// Arithmetic: (80 × 70 + 60 × 35) ÷ 140 = 55.
	const text = withSolids(
		'solids: { base: 70%, hardener: 35% }\n    density: { base: 1.25 kg/L, hardener: 1.0 kg/L, reducer: 0.87 kg/L }',
	).replace('2:1:1 by volume', '100:60:30 by weight');
	expect(jobOf(text).materials.topcoat?.solids).toBeCloseTo(0.55, 12);
});

test.each([
	[
		'solids: { base: 45% }',
		/solids, hardener is missing: write "hardener: 50%", or the solids of the mix alone$/,
	],
	['solids: { base: 0%, hardener: 0% }', /solids: found next to none; allowed: 1% to 100% of the mix$/],
	['solids: { base: 45%, hardener: 145% }', /solids, hardener: found "145%"; allowed: 0% to 100%$/],
])('%s is refused, once', (line, says) => {
	expect(complaintsOf(withSolids(line))).toEqual([expect.stringMatching(says)]);
});

test('a solvent is said as the two figures of air that it allows, and no go-ahead', () => {
	// 7 fl oz/min, 60 % of it solvent of 26.4 ft³/gal, LEL 1 %, 100 ppm, mixing 1 (arithmetic by 29 CFR 1910.94(c)(6)(ii), from memory).
	const solvent = 'solvent: { share: 60%, vapour: 26.4 ft3/gal, lel: 1%, limit: 100 ppm }';
	const said = (line: string) =>
		notesOf(jobOf(altered('    isocyanate: yes', `    ${line}\n    isocyanate: yes`)), 'us').filter(note =>
			/solvent/.test(note),
		);
	expect(said(solvent)).toEqual([
		expect.stringMatching(
			/, solvent: while it sprays, 343 ft³ of air a minute for a quarter of its explosive limit, 8662 ft³ of air a minute for its exposure limit: arithmetic, no go-ahead$/,
		),
	]);
	expect(said(solvent.replace(', limit: 100 ppm', ''))[0]).toMatch(
		/far more for its exposure limit, which is not given/,
	);
	expect(said(solvent.replace('lel: 1%', 'lel: 90%'))[0]).toMatch(
		/lower explosive limit must be 0.1 to 50 %, not 90$/,
	);
});

test('a reducer by weight is said by volume as well: 15 of 0.75 kg/L to 100 of 1.25 and 60 of 1.0 are 14.3 %', () => {
	// Arithmetic: 20 mL to 140 mL.
	const by = altered(
		'2:1:1 by volume',
		'100:60:15 by weight\n    density: { base: 1.25 kg/L, hardener: 1.0 kg/L, reducer: 0.75 kg/L }',
	);
	expect(notesOf(jobOf(by), 'metric')).toContainEqual(
		expect.stringMatching(
			/^topcoat: its reducer is 14.3% of base and hardener by volume; the sheet has it by weight$/,
		),
	);
	expect(notesOf(jobOf(exampleText), 'metric').join()).not.toMatch(/its reducer is/);
});
