import { expect, test } from 'vitest';
import { parseJob } from '../../src/job/load.ts';
import { turnedFan } from '../../src/job/turned-fan.ts';
import { altered, exampleText } from './altered.ts';

const turnedOn = (id: string, text = exampleText, count = 0) => {
	const loaded = parseJob(text, 'cart.yaml');
	if (!loaded.ok) throw new Error('the example does not load');
	const face = loaded.job.faces.find(one => one.id === id);
	const coat = face?.coats[count];
	if (!face || !coat) throw new Error(`no ${id}`);
	return turnedFan(loaded.job, face, coat);
};

test('a fan along the stroke lays four times the film on ten lines of a door, and leaves half of it bare', () => {
	// A fan of 8 by 2 in: 4 times; lines 96 mm apart of 51 mm each.
	expect(turnedOn('left door/outside')).toMatchObject({ strokes: 10, runs: true, floods: false });
	expect(turnedOn('left door/outside')?.times).toBeCloseTo(3.85, 2);
	expect(turnedOn('left door/outside')?.bare).toBeCloseTo(0.519, 3);
	expect(turnedOn('left door/outside')?.wet_um).toBeCloseTo(3.85 * 63.5, 0);
});

test('flat work floods where upright work runs, and below the limit neither does', () => {
	expect(turnedOn('counter lid/top')).toMatchObject({ runs: false, floods: true });
	const thin = altered('film: 1.0 mil }\n      full', 'film: 0.2 mil }\n      full');
	expect(turnedOn('left door/outside', thin)).toMatchObject({ runs: false, floods: false });
});

test('it is judged with the face’s own fan and the coat’s own film', () => {
	const narrow = exampleText.replaceAll(
		'        size: 2 in x 96 in\n',
		'        size: 2 in x 96 in\n        fan: 2 in\n',
	);
	expect(turnedOn('left door/edges', narrow)?.times).toBeCloseTo(1.02, 2);
	expect(turnedOn('left door/edges')?.times).toBeGreaterThan(3);
	const [tack, full] = [2, 4].map(count => turnedOn('left door/outside', exampleText, count)?.wet_um ?? 0);
	expect((full ?? 0) / (tack ?? 1)).toBeCloseTo(2.5, 6);
});
