import { expect, test } from 'vitest';
import { rehearsed } from '../day/rehearsed.ts';
import { type Evidence, says, tableOf } from './evidence.ts';
import { hiddenIn, watchOf } from './hidden.ts';
import { digestOf, evidenceOf, transcriptOf } from './transcript.ts';

const done = transcriptOf(1, 4);

test('days line by line: hold is one key, nothing is told before it is read, the file alone gives the state', () => {
	expect(done.found).toEqual([]);
	expect(done.readings).toBeGreaterThan(40);
	expect(done.holds).toBeGreaterThan(300);
});

/** A day at a reading of the pattern, its screen told to a watch with some words put on it. */
function watchedWith(words: string): string[] {
	const heard: string[] = [];
	const watch = watchOf((property, text) => heard.push(`${property}: ${text}`));
	const day = rehearsed();
	day.toAsk('pattern');
	const shown = { ...day.line(), lines: [...day.line().lines, words] };
	const before = day.records().length;
	const line = day.painter.answer(day.line()) ?? '';
	day.send(line);
	hiddenIn(watch, shown, line, day.records().slice(before), day.line());
	expect(watch.readings).toBe(1);
	return heard;
}

test('a screen that tells the wanted pattern before the key is found out', () => {
	expect(watchedWith('Hold it as for the face.')).toEqual([]);
	expect(watchedWith('It should be tall, or wide.').join()).toMatch(/^10: pattern wants (tall|wide)/);
});

test('two days that differ in one reading have two digests', () => {
	const [one, other] = [rehearsed(), rehearsed()];
	expect(digestOf(one.state())).toBe(digestOf(other.state()));
	one.send('hold');
	expect(digestOf(one.state())).not.toBe(digestOf(other.state()));
});

test('a property that anything was found against falls, and so does one that nothing decides', () => {
	const all = Object.keys(says).map(Number) as unknown as Evidence['for'];
	const sound: Evidence = { for: all, how: 'search', size: '1 state', found: [] };
	expect(tableOf([sound]).holds).toBe(true);
	const broken: Evidence = { ...sound, found: [{ property: 6, says: 'hold leads to ready' }] };
	const { text, holds } = tableOf([broken]);
	expect(holds).toBe(false);
	const rows = text.split('\n').filter(row => row.endsWith('FALLS'));
	expect(rows).toHaveLength(1);
	expect(rows[0]).toMatch(/^ 6 /);
	expect(text).toContain('hold leads to ready');
	expect(tableOf(evidenceOf(done)).text).toMatch(/^ 7 .*nothing decided it.*FALLS$/m);
});
