import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

const toPour = (day: ReturnType<typeof rehearsed>, component: string) =>
	day.until(({ state, say }) => state === 'mix.pour' && say.toLowerCase().startsWith(component));
/** Instants of the can taken in the hand, oldest first. */
const handOf = (day: ReturnType<typeof rehearsed>, component: string) => {
	const mark = day.ofType('day.opened')[0]?.cans.find(can => can.component === component)?.mark;
	return day
		.ofType('reading.taken')
		.filter(({ feature, value, matched }) => feature === 'can' && value === mark && matched)
		.map(({ at }) => Date.parse(at));
};
const hour_ms = 3_600_000;

/** The batch lives for two hours. */
const endOfLife = (day: ReturnType<typeof rehearsed>) => {
	const due = day.line().timers.find(({ code }) => code === 'pot-life')?.due;
	return due === undefined ? Number.NaN : Date.parse(due);
};

test.each([
	['the level is read long after it was poured', ['wait 50 min', 'done']],
	['a break comes between the pour and its reading', ['hold', 'wait 50 min', 'back']],
])('pot life runs from the can in the hand, not from the reading: %s', (_, keys) => {
	const day = rehearsed();
	const level = toPour(day, 'hardener').do[0]?.to;
	for (const key of keys) key.startsWith('wait') || key === 'hold' ? day.send(key) : day.pick(key);
	day.send(`number ${level}`);
	day.toState('ready');
	expect(endOfLife(day)).toBe((handOf(day, 'hardener')[0] ?? 0) + 2 * hour_ms);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('hardener that went in two hours before its level was read is dead when it is read', () => {
	const day = rehearsed();
	const level = toPour(day, 'hardener').do[0]?.to;
	day.send('hold', 'wait 121 min');
	day.pick('back');
	day.send(`number ${level}`);
	expect(day.ofType('batch.discarded').map(({ why }) => why)).toEqual(['past its life']);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a can put down unpoured, as the level shows, does not age the batch', () => {
	const day = rehearsed();
	toPour(day, 'hardener');
	day.send('hold', 'wait 90 min');
	day.pick('back');
	day.send('number 150');
	day.toState('ready');
	const [first, second] = handOf(day, 'hardener');
	expect((second ?? 0) - (first ?? 0)).toBeGreaterThan(hour_ms);
	expect(endOfLife(day)).toBe((second ?? 0) + 2 * hour_ms);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});
