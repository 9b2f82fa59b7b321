import { describe, expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import type { Job } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { altered, complaintsOf } from './altered.ts';

function jobOf(text: string): Job {
	const loaded = parseJob(text, 'own.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}

const [before = '', after = ''] = altered('        crosswise: [2, 4]\n', '').split(/(?<=\nparts:\n)/);
const box = (name: string, place: number, count = '') => `  - part: ${name}
${count}    place: ${place}
    faces:
      - face: sides
        attitude: upright
        stroke: up and down
        size: 24 in x 20 in
      - face: back
        attitude: upright
        stroke: side to side
        size: 24 in x 20 in
        after: [sides]
`;
const eight = `${before}${after}${box('drawer', 11, '    count: 8\n')}`;
const written = `${before}${after}${[1, 2, 3, 4, 5, 6, 7, 8].map(n => box(`drawer ${n}`, n + 10)).join('')}`;

describe('parts that are there more than once', () => {
	test('a count comes to what eight parts written out come to', () => {
		expect(jobOf(eight)).toEqual(jobOf(written));
	});

	test('a mistake in all of them is said once, at its line', () => {
		const at = eight.indexOf('count: 8');
		const text = eight.slice(0, at) + eight.slice(at).replace('stroke: up and down', 'stroke: to and fro');
		expect(complaintsOf(text)).toEqual([
			expect.stringMatching(/part drawer, face sides, stroke: found "to and fro" on upright work/),
		]);
	});

	test('one of them may not be called as another part is', () => {
		expect(complaintsOf(`${eight}${box('drawer 3', 30)}`)).toEqual([
			expect.stringMatching(/part drawer 3: there is one of this name already; choose another$/),
		]);
	});

	test.each(['0', 'eight', '1.5', '1001'])('a count of %s is none', count => {
		expect(complaintsOf(eight.replace('count: 8', `count: ${count}`))[0]).toMatch(
			/part drawer, count: found ".*"; allowed: a (whole )?number/,
		);
	});
});

/** The faces that get a coat of topcoat. */
const coated = (text: string) =>
	jobOf(text)
		.faces.filter(face => face.coats.some(({ material }) => material === 'topcoat'))
		.map(({ id }) => id);
const topcoat = '  - spray: topcoat\n    coats: [tack, medium, full]\n';
const withOnly = (names: string) => eight.replace(topcoat, `${topcoat}    only: [${names}]\n`);
const all = coated(eight);
const drawers = all.filter(id => id.startsWith('drawer'));

describe('a stage that is only for some faces', () => {
	test.each([
		['a part', 'left door', ['left door/edges', 'left door/outside']],
		['a face', 'left door/edges', ['left door/edges']],
		['all of a count', 'drawer', drawers],
		['one of a count', 'drawer 3', ['drawer 3/sides', 'drawer 3/back']],
		['a face of all of a count', 'drawer/back', drawers.filter(id => id.endsWith('back'))],
		['… without the slash', 'drawer back', drawers.filter(id => id.endsWith('back'))],
		['all faces of a name', 'edges', all.filter(id => id.endsWith('/edges'))],
	])('%s by its name', (_, name, wanted) => {
		expect(coated(withOnly(name))).toEqual(wanted);
	});

	test('the rest is passed over as by leave out', () => {
		const out = all.filter(id => !id.startsWith('drawer'));
		const left = eight.replace(topcoat, `${topcoat}    leave out: [${out.join(', ')}]\n`);
		expect(jobOf(withOnly('drawer'))).toEqual(jobOf(left));
	});

	test('a part by its own name is not every face so called', () => {
		const lid = box('edges', 40);
		expect(coated(withOnly('edges').concat(lid))).toEqual(['edges/sides', 'edges/back']);
	});

	test('an unknown name, and both keys at once, are complained of', () => {
		expect(complaintsOf(withOnly('drawers'))).toEqual([
			expect.stringMatching(/stage, only: found "drawers"; .*nearest: drawer$/),
		]);
		const both = eight.replace(topcoat, `${topcoat}    only: [drawer]\n    leave out: [left door]\n`);
		expect(complaintsOf(both)).toEqual([
			expect.stringMatching(/stage, leave out: "only" says it already; take one out$/),
		]);
	});
});

describe('sizes as they stand on a rule', () => {
	const sized = (size: string) =>
		jobOf(altered('size: 24 in x 20 in', `size: ${size}`))
			.faces.at(-1)
			?.size_mm?.map(mm => mm / 25.4);

	test.each([
		['24 1/2 in x 3/4 in', [24.5, 0.75]],
		['24 x 20 in', [24, 20]],
		['24 1/2 x 3/4 in', [24.5, 0.75]],
		['3/4 x 24 1/2 in', [0.75, 24.5]],
		['2 ft x 20 1/4 in', [24, 20.25]],
	])('%s', (size, inches) => {
		expect(sized(size)).toEqual(inches.map(inch => expect.closeTo(inch, 9)));
	});

	test.each([
		['24 x 20', /size: found "24 x 20"; a unit is missing/],
		['24 x 20 x 3 in', /size: found "24 x 20 x 3 in"; a size is wanted: width by height/],
		['3/0 in x 20 in', /size: found "3\/0 in x 20 in"; "3\/0" is no number/],
		['-1/2 in x 20 in', /size: found "-1\/2 in x 20 in"; a length cannot be negative/],
	])('%s is refused', (size, says) => {
		expect(complaintsOf(altered('size: 24 in x 20 in', `size: ${size}`))).toEqual([
			expect.stringMatching(says),
		]);
	});
});
