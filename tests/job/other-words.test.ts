import { describe, expect, test } from 'vitest';
import { notAllowed } from '../../src/job/errors.ts';
import { altered, complaintsOf } from './altered.ts';

/** What other shops say: common practice, no source. */
describe('a word of another shop', () => {
	test.each([
		['a thinner', 'reducer: 15%', 'thinner: 15%', 'reducer'],
		['an induction time', 'standing: 15 min', 'induction: 15 min', 'standing'],
		['a filter', 'strainer: medium, 190 micron', 'filter: medium, 190 micron', 'strainer'],
		['the air of a gun', 'pressure: 29 psi', 'air: 29 psi', 'pressure'],
		['layers', '    coats: [tack, medium, full]', '    layers: [tack, medium, full]', 'coats'],
		['a side', '- face: lip', '- side: lip', 'face'],
		['a piece', '- part: canopy rail', '- piece: canopy rail', 'part'],
		['a thickness', 'medium: { film: 1.0 mil }', 'medium: { thickness: 1.0 mil }', 'film'],
	])('%s is what it means, and nothing is missing for it', (_, from, to, word) => {
		expect(complaintsOf(altered(from, to))).toEqual([
			expect.stringMatching(new RegExp(`; nearest: ${word}$`)),
		]);
	});

	test.each([
		['clean', 'wipe'],
		['rub down', 'sand'],
		['tack rag', 'tack'],
		['tape', 'mask'],
		['flip', 'turn over'],
	])('%s among the steps is %s', (said, word) => {
		const [first = ''] = complaintsOf(
			altered('  - wipe\n  - tack\n  - spray: primer', `  - ${said}\n  - spray: primer`),
		);
		expect(first).toMatch(
			new RegExp(`found "${said}"; .*; nearest: ${word === 'wipe' ? '(wipe|degrease)' : word}$`),
		);
	});

	test('catalyst and resin in the mixing order', () => {
		const said = complaintsOf(
			altered('[stir, base, hardener, reducer, stand,', '[stir, resin, catalyst, thinner, stand,'),
		);
		const nearest = said.flatMap(line => /nearest: (\S+)$/.exec(line)?.[1] ?? []);
		expect(nearest.slice(0, 3)).toEqual(['base', 'hardener', 'reducer']);
	});
});

describe('the nearest word', () => {
	test('is one that may stand there', () => {
		expect(notAllowed('thinner', ['strainer', 'flush'])).not.toMatch(/reducer/);
		expect(notAllowed('turn', ['sand', 'turn over'])).toMatch(/nearest: turn over$/);
	});

	test.each(['degreese', 'reducr', 'pot lief', 'moss green'])('is found by the letters of %s', word => {
		const words = ['degrease', 'reducer', 'pot life', 'moss green satin', 'flush'];
		expect(notAllowed(word, words)).toMatch(/nearest: (degrease|reducer|pot life|moss green satin)$/);
	});

	test.each(['sparkle', 'zzz', 'constructor', '__proto__', ''])(
		'%s is like none, and none is offered',
		word => {
			expect(notAllowed(word, ['strainer', 'mask', 'wipe', 'part'])).not.toMatch(/nearest/);
		},
	);
});

describe('what is missing is shown as a line to write', () => {
	test.each([
		['pot life: 4 h at 70 °F', 'write "pot life: 2 h at 20 °C"'],
		['standing: 15 min', 'write "standing: none"'],
		['isocyanate: no', 'write "isocyanate: yes"'],
		['sags above: 5 mil # wet, on an upright face', 'write "sags above: 100 µm"'],
		['pressure: 29 psi', 'write "pressure: 2 bar"'],
		['units: us', 'write "units: metric"'],
	])('%s', (line, says) => {
		expect(complaintsOf(altered(line, ''))).toEqual([expect.stringContaining(says)]);
	});

	test('the air of a shop and that of a limit are not the same', () => {
		expect(complaintsOf(altered('  air: 70 °F\n', ''))[0]).toMatch(
			/shop, air is missing: write "air: 20 °C"$/,
		);
		expect(complaintsOf(altered('air: 58 to 95 °F, ', ''))[0]).toMatch(
			/limits, air is missing: write "air: 12 to 32 °C"$/,
		);
	});

	test('a value where keys belong', () => {
		expect(
			complaintsOf(
				altered('limits: { air: 58 to 95 °F, humidity: 80%, over dew point: 5 °F }', 'limits: 80%'),
			),
		).toEqual([
			expect.stringMatching(/limits: found "80%"; keys with values are wanted, as in "limits: \{ air: /),
		]);
	});
});
