import { describe, expect, test } from 'vitest';
import { errorLine, errorLines } from '../../src/job/errors.ts';
import { parseJob } from '../../src/job/load.ts';
import { altered, complaintsOf, exampleText, placeOf } from './altered.ts';

test('more reducer than twice base and hardener is refused, and what it does to the film with it', () => {
	const said = complaintsOf(altered('reducer: 15%', 'reducer: 5 parts'));
	expect(said[0]).toMatch(
		/material primer, reducer: found 5 parts; allowed: up to 4, twice base and hardener$/,
	);
});

test('a missing key is said at the block that lacks it', () => {
	const text = altered('  flow: 7 fl oz/min\n', '');
	expect(complaintsOf(text)).toEqual([
		`${placeOf(text, 'pressure: 29')} gun, flow is missing: write "flow: 200 mL/min"`,
	]);
});

test('a speed without its time is told from a speed', () => {
	const text = altered('speeds: 6 to 24 in/s', 'speed: 14 in');
	const said = complaintsOf(text);
	expect(said[0]).toMatch(/gun, speed: found "14 in"; "in" measures a length, but a speed is wanted/);
	expect(said[0]?.startsWith(placeOf(text, 'in # what'))).toBe(true);
});

test('one value where keys belong is refused', () => {
	const said = complaintsOf(
		altered('limits: { air: 58 to 95 °F, humidity: 80%, over dew point: 5 °F }', 'limits: 80%'),
	);
	expect(said[0]).toMatch(
		/primer, limits: found "80%"; keys with values are wanted, as in "limits: { air: 12 to 32 °C, /,
	);
});

test('mistakes of every kind in one sheet are all said at once, in the order of the file', () => {
	const mistakes: [string, string][] = [
		['units: us', 'units: imperial'],
		['pressure: 29 psi', 'pressure: 29'],
		['sags above: 5 mil', 'sags above: 1.5 mil'],
		['spray: topcoat', 'spray: topcaot'],
		['attitude: flat', 'atitude: flat'],
		['after: [lip]', 'after: [lips]'],
	];
	const text = mistakes.reduce((sheet, [from, to]) => sheet.replace(from, to), exampleText);
	const said = complaintsOf(text);
	expect(said.map(one => one.replace(/^\S+ /, '').slice(0, 30))).toEqual([
		'units: found "imperial"; allow',
		'gun, pressure: found "29"; a u',
		'material primer, coats, medium',
		'material primer, coats, full, ',
		'stage, spray: found "topcaot";',
		'part counter lid, face top, ke',
		'part wheel-arch cover, face ou',
	]);
	const lines = said.map(one => Number.parseInt(one, 10));
	expect(lines).toEqual(lines.toSorted((a, b) => a - b));
});

test('an error is one line that begins with file, line and column', () => {
	const loaded = parseJob(altered('units: us', 'units: imperial'), 'my cart.yaml');
	expect(loaded.ok || loaded.errors.map(errorLine)).toEqual([
		'my cart.yaml:8:8: units: found "imperial"; allowed: us, metric; nearest: us',
	]);
});

describe('many mistakes', () => {
	const errorsOf = (text: string) => {
		const loaded = parseJob(text, 'cart.yaml');
		return loaded.ok ? [] : loaded.errors;
	};
	const many = exampleText
		.replaceAll('attitude: upright', 'attitude: standing')
		.replaceAll('stroke: up and down', 'stroke: upwards');

	test('of more than ten the first of each kind is said, and how many are like it', () => {
		const errors = errorsOf(many.replace('units: us', 'units: imperial'));
		expect(errors.length).toBeGreaterThan(10);
		const lines = errorLines(errors);
		expect(lines[0]).toMatch(/^cart\.yaml:8:8: units: found "imperial"; allowed: us, metric; nearest: us$/);
		const like = lines
			.slice(1)
			.map(line => / (attitude|stroke): .* \(and (\d+) like it\)$/.exec(line)?.slice(1));
		expect(like).toEqual([
			['attitude', '8'],
			['stroke', '3'],
		]);
		expect(1 + 9 + 4).toBe(errors.length);
	});

	test('up to ten are said one by one', () => {
		const errors = errorsOf(many).slice(0, 10);
		expect(errorLines(errors)).toEqual(errors.map(errorLine));
	});

	test('another mistake is a kind of its own', () => {
		const errors = errorsOf(many.replaceAll('place: ', 'plaec: '));
		expect(errorLines(errors)).toHaveLength(3);
	});
});
