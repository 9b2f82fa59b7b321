import { describe, expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import type { Job } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { complaintsOf, exampleText } from './altered.ts';

function jobOf(text: string): Job {
	const loaded = parseJob(text, 'own.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}

const [before = ''] = exampleText.replace('extractor at: canopy rail', '').split(/(?<=\nparts:\n)/);
const sheetOf = (shape: string, held: string, beside = '') =>
	`${before}  - part: seat\n    count: 2\n    shape: ${shape}\n    held: ${held}\n${beside}`;
const face = (name: string, lines: string[]) =>
	[`      - face: ${name}`, ...lines.map(line => `        ${line}`)].join('\n');
const longOf = (...faces: string[]) =>
	`${before}${[1, 2].map(nth => `  - part: seat ${nth}\n    faces:\n${faces.join('\n')}\n`).join('')}`;
const same = (short: string, long: string) => expect(jobOf(short)).toEqual(jobOf(long));

const flat = ['attitude: flat', 'near edge: front edge'];
const upright = 'attitude: upright';

describe('a shape has the faces that a long sheet writes out', () => {
	test('a panel on points: its underside, then turned over its edges and its top', () => {
		const broad = [...flat, 'stroke: side to side', 'size: 40 cm x 38 cm'];
		same(
			sheetOf('panel, 40 x 38 x 3 cm', 'on points'),
			longOf(
				face('underside', [...broad, 'turned over: no']),
				face('edges', [upright, 'stroke: side to side', 'size: 156 cm x 3 cm', 'turned over: yes']),
				face('top', [...broad, 'turned over: yes', 'after: [edges]']),
			),
		);
	});

	test('a door that hangs: both sides in one go, along its longer way', () => {
		const broad = [upright, 'stroke: up and down', 'size: 40 cm x 72 cm'];
		same(
			sheetOf('door both sides, 40 cm x 72 cm x 19 mm', 'hanging'),
			longOf(
				face('inside', broad),
				face('edges', [upright, 'stroke: up and down', 'size: 1.9 cm x 224 cm']),
				face('outside', [...broad, 'after: [edges]']),
			),
		);
	});

	test('a box that stands has no bottom, and an open one no top', () => {
		const sides = [upright, 'stroke: up and down', 'size: 100 cm x 20 cm', 'corners: first'];
		const top = [...flat, 'stroke: to and fro', 'size: 20 cm x 30 cm', 'after: [sides]'];
		same(sheetOf('box, 20 x 20 x 30 cm', 'standing'), longOf(face('sides', sides), face('top', top)));
		same(sheetOf('box, 20 x 20 x 30 cm, open', 'standing'), longOf(face('sides', sides)));
	});

	test('a box on points is turned over for its bottom', () => {
		const { faces } = jobOf(sheetOf('box, 20 x 20 x 30 cm', 'on points'));
		expect(faces.slice(0, 3).map(({ name, turned }) => [name, turned])).toEqual([
			['sides', undefined],
			['top', undefined],
			['bottom', 'said'],
		]);
	});

	test('a rail has a front, and edges where it is said how thick it is', () => {
		const front = [upright, 'stroke: side to side', 'size: 200 cm x 9 cm'];
		same(sheetOf('rail, 200 x 9 cm', 'hanging'), longOf(face('front', front)));
		same(
			sheetOf('rail, 200 x 9 x 2 cm', 'hanging'),
			longOf(
				face('edges', [upright, 'stroke: side to side', 'size: 418 cm x 2 cm']),
				face('front', [...front, 'after: [edges]']),
			),
		);
		const [laid] = jobOf(sheetOf('rail, 200 x 9 cm', 'on points')).faces;
		expect(laid).toMatchObject({ name: 'front', attitude: 'flat' });
		expect(laid?.coats.every(({ stroke }) => stroke === 'side-to-side')).toBe(true);
	});

	// Area of a cap of a sphere: π (r² + h²), geometry; a half sphere of 30 cm, 2 π r².
	test('a bowl is a cap of a sphere outside and inside, with its rim where it is thick, round and round', () => {
		const { faces } = jobOf(sheetOf('bowl, 30 x 15 x 1 cm', 'hanging'));
		const half = 2 * Math.PI * 0.15 ** 2;
		expect(faces.slice(0, 3)).toMatchObject([
			{ name: 'outside', attitude: 'upright', area_m2: expect.closeTo(half, 4) },
			{ name: 'rim', area_m2: expect.closeTo(Math.PI * 0.3 * 0.01, 4) },
			{ name: 'inside', attitude: 'upright', area_m2: expect.closeTo(half, 4) },
		]);
		for (const { coats } of faces.slice(0, 3))
			expect(coats.every(({ stroke }) => stroke === 'side-to-side')).toBe(true);
		const plain = jobOf(sheetOf('bowl, 30 x 12 cm', 'standing')).faces.slice(0, 2);
		expect(plain.map(({ name, attitude }) => [name, attitude])).toEqual([
			['outside', 'upright'],
			['inside', 'flat'],
		]);
	});

	test('a bowl on points stands mouth down, and is turned over for rim and inside', () => {
		const { faces } = jobOf(sheetOf('bowl, 30 x 12 x 1 cm', 'on points'));
		expect(faces.slice(0, 3).map(({ name, turned }) => [name, turned])).toEqual([
			['outside', undefined],
			['rim', 'said'],
			['inside', 'said'],
		]);
	});

	test('a rim is a band all round', () => {
		const [rim] = jobOf(sheetOf('rim, 40 x 2 cm', 'hanging')).faces;
		expect(rim).toMatchObject({ name: 'rim', area_m2: expect.closeTo(Math.PI * 0.4 * 0.02, 4) });
	});

	test.each([
		['rail, 200 cm', /2 sizes are wanted, as in "rail, 200 x 9 cm"/],
		['rail, 200 x 9 x 2 x 1 cm', /2 sizes are wanted/],
		['rim, 40 x 2 x 1 cm', /2 sizes are wanted, as in "rim, 40 x 2 cm"/],
	])('%s is refused', (shape, says) => {
		const loaded = parseJob(sheetOf(shape, 'hanging'), 'own.yaml');
		expect(loaded.ok ? '' : loaded.errors.map(errorLine).join()).toMatch(says);
	});

	test('tubes are as long as the sheet says, and as wide all round as their girth', () => {
		const [round] = jobOf(sheetOf('tube frame, 20 mm tube, 8 m', 'hanging')).faces;
		expect(round).toMatchObject({ area_m2: expect.closeTo(Math.PI * 0.02 * 8, 6), strip_mm: [20, 400] });
		const [square] = jobOf(sheetOf('tube frame, 20 mm tube, 8 m, square', 'hanging')).faces;
		expect(square?.area_m2).toBeCloseTo(4 * 0.02 * 8, 9);
	});

	test('no tube is sprayed with the wide fan', () => {
		const [thin] = jobOf(sheetOf('tube frame, 20 mm tube, 8 m', 'hanging')).faces;
		expect(thin?.fanHeight_mm).toBe(60);
		const [thick] = jobOf(sheetOf('spindle, 1 m x 30 cm', 'standing')).faces;
		expect(thick?.fanHeight_mm).toBeCloseTo(8 * 25.4, 9);
	});

	test('a face written out stands in the place of the derived one, and others come after', () => {
		const own = `    faces:\n${face('top', [upright, 'stroke: side to side', 'size: 10 x 10 cm'])}\n`;
		const more = `${own}${face('lip', [upright, 'stroke: side to side', 'size: 40 x 1 cm'])}\n`;
		const { faces } = jobOf(sheetOf('panel, 40 x 38 x 3 cm', 'hanging', more));
		expect(faces.slice(0, 4).map(({ name }) => name)).toEqual(['underside', 'edges', 'top', 'lip']);
		expect(faces[2]?.size_mm).toEqual([100, 100]);
	});
});

describe('a part held in another way for one stage', () => {
	const [top = ''] = before.split(/(?<=\nstages:\n)/);
	const sheet = (held: string, own = 'on points', beside = '') =>
		`${top}  - { spray: primer, coats: full, held: { seat: ${held} } }\n  - { spray: primer, coats: full }\nparts:\n  - part: seat\n    count: 2\n    shape: panel, 38 x 40 x 3 cm\n    held: ${own}\n${beside}`;
	const steps = (text: string) => jobOf(text).stages.map(({ name }) => name);

	test('hung up, all its sides are upright and sprayed in one go', () => {
		expect(steps(sheet('hanging'))).toEqual(['spray primer', 'spray primer', 'turn over', 'spray primer']);
		const [underside, edges] = jobOf(sheet('hanging')).faces;
		expect(underside).toMatchObject({
			attitude: 'flat',
			coats: [{ stroke: 'up-and-down', attitude: 'upright' }, { stroke: 'to-and-fro' }],
		});
		expect(underside?.coats[1]?.attitude).toBeUndefined();
		expect(edges).toMatchObject({
			size_mm: [1560, 30],
			coats: [{ stroke: 'up-and-down', size_mm: [30, 1560] }, { stroke: 'side-to-side' }],
		});
		expect(edges?.coats[0]?.trigger_s).toBeCloseTo(edges?.coats[1]?.trigger_s ?? 0, 9);
	});

	test('laid on points it is turned over in that stage alone', () => {
		expect(steps(sheet('on points', 'hanging'))).toEqual([
			'spray primer',
			'turn over',
			'spray primer',
			'spray primer',
		]);
	});

	test('what it is held by has it turned while it is wet', () => {
		const job = jobOf(sheet('on points', 'on points', '    hold by: hook\n'));
		expect(job.stages.map(({ name }) => name)).toEqual(['spray primer', 'spray primer']);
		expect(job.parts[0]).toEqual({ name: 'seat 1', place: null, holdBy: 'hook' });
	});

	test('two wet sides, neither turned over nor held by something, are an error where a shape is written', () => {
		const flats = ['underside', 'top'].map(name =>
			face(name, [...flat, 'stroke: side to side', 'size: 38 x 40 cm']),
		);
		const text = sheet('standing', 'standing', `    faces:\n${flats.join('\n')}\n`);
		expect(complaintsOf(text).join()).toMatch(
			/part seat 1: two of its faces lie flat, and wet; write "turned over: yes" under one of them, or "hold by: hook"/,
		);
		expect(complaintsOf(text.replace('    faces:', '    hold by: hook\n    faces:'))).toEqual([]);
	});

	test('a part that is not there, or has no shape, cannot be held in another way', () => {
		expect(complaintsOf(sheet('hanging').replace('{ seat: hanging }', '{ stool: hanging }'))).toEqual([
			expect.stringMatching(/stage, held: found "stool"; /),
		]);
		expect(complaintsOf(sheet('sideways'))).toEqual([
			expect.stringMatching(/held, seat: found "sideways"; allowed: standing, hanging, on points/),
		]);
		expect(
			complaintsOf(
				exampleText.replace(
					'coats: [medium, full]',
					'coats: [medium, full]\n    held: { left door: hanging }',
				),
			)[0],
		).toMatch(/held: left door has no shape/);
	});
});

describe('what is wrong with a shape is said with the line to write', () => {
	test.each([
		[
			'pannel, 40 x 38 x 3 cm',
			/shape: found ".*"; allowed: .*; nearest: panel, as in "panel, 40 x 38 x 3 cm"$/,
		],
		['panel, 40 x 38 cm', /3 sizes are wanted, as in "panel, 40 x 38 x 3 cm"$/],
		['panel', /3 sizes are wanted/],
		['panel, 40 x 38 x 3', /a unit is missing/],
		['tube frame, 20 mm tube', /2 sizes are wanted, as in "tube frame, 20 mm tube, 8 m"$/],
		['box, 20 x 20 x 30 cm, opne', /a length begins with a number/],
	])('%s', (shape, says) => {
		expect(complaintsOf(sheetOf(shape, 'hanging'))).toEqual([expect.stringMatching(says)]);
	});

	test('a part that lies is not laid on nothing: held is asked for, and only where there is a shape', () => {
		const without = sheetOf('panel, 40 x 38 x 3 cm', 'hanging').replace('    held: hanging\n', '');
		expect(complaintsOf(without)).toEqual([
			expect.stringMatching(/part seat, held is missing: write "held: standing", "hanging" or "on points"$/),
		]);
		const bare = sheetOf('x', 'hanging').replace('    shape: x\n', '');
		expect(complaintsOf(bare)).toEqual([
			expect.stringMatching(/part seat, faces is missing: write "faces: …", or "shape: /),
			expect.stringMatching(/part seat, held: only a part with a shape is held; take it out$/),
		]);
	});
});
