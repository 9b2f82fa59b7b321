import { expect, test } from 'vitest';
import { oneStroke_s } from '../../src/day/strokes.ts';
import type { Job } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { altered, exampleText } from '../job/altered.ts';
import { rehearsed } from './rehearsed.ts';

/** The speed of a hand is told by the seconds of one stroke. Sums by hand: from lead to lead, ÷ the speed solved. */

function jobOf(text: string): Job {
	const loaded = parseJob(text, 'cart.yaml');
	if (!loaded.ok) throw new Error(JSON.stringify(loaded.errors));
	return loaded.job;
}
const coatOf = (job: Job, id: string) => {
	const coat = job.faces.find(face => face.id === id)?.coats[0];
	if (!coat) throw new Error(`no coat on ${id}`);
	return coat;
};

test('22 in and 50 mm past each end at 368.1 mm/s are 1.79 s a stroke, with the trigger held through the turns too', () => {
	const job = jobOf(exampleText);
	const coat = coatOf(job, 'left door/outside');
	expect(oneStroke_s(coat, job.gun)).toBeCloseTo((558.8 + 100) / (coat.speed_mm_per_s ?? 0), 6);
	expect(oneStroke_s(coat, job.gun)).toBeCloseTo(1.79, 2);
	const held = jobOf(altered('overlap: 50%', 'overlap: 50%\n  trigger: held'));
	const its = coatOf(held, 'left door/outside');
	expect(oneStroke_s(its, held.gun)).toBeCloseTo((558.8 + 100) / (its.speed_mm_per_s ?? 0), 6);
	expect(oneStroke_s({ ...coat, strokes: undefined }, job.gun)).toBeNull();
});

test('ready says strokes and the seconds of one, to a tenth, in at most twelve words', () => {
	const day = rehearsed({ job: jobOf(exampleText), settings: { by: 'face' } });
	const line = day.until(({ state, face }) => state === 'ready' && face === 'left door/outside');
	const said = 'Side to side, medium coat, 22 s: 10 strokes of 1.8 s.';
	expect(line.lines).toContain(said);
	expect(said.split(' ').length).toBeLessThanOrEqual(12);
	const edges = day.until(({ state, face }) => state === 'ready' && face === 'wheel-arch cover/lip');
	expect(edges.lines.join(' ')).toMatch(/full coat, 5 s: one stroke of 4.6 s\./);
});

test('of a face with some of the coat on, and where the shop has its own usual time, the whole coat is not told as now', () => {
	const job = jobOf(exampleText);
	const usual = rehearsed({ job, settings: { by: 'face' }, rates: { primer: { time: 2, paint: null } } });
	const ready = usual.until(({ state, face }) => state === 'ready' && face === 'left door/outside');
	expect(ready.lines[0]).toBe('Side to side, medium coat, usually 45 s.');
	expect(ready.lines.join(' ')).toContain('By the sheet 10 strokes of 1.8 s.');
	const part = rehearsed({ job, settings: { by: 'face' } });
	part.until(({ state, face }) => state === 'spraying' && face === 'left door/outside');
	part.send('wait 8 s', 'hold');
	part.pick('back');
	const again = part.until(({ state, face }) => state === 'ready' && face === 'left door/outside');
	expect(again.lines.join(' ')).not.toContain('strokes of');
});
