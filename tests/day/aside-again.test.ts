import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

const fault = (day: ReturnType<typeof rehearsed>, face: string, then: string) => {
	for (const code of ['trouble', 'wet-fault', 'run', face]) day.pick(code);
	const codes = Object.values(day.line().corners).map(corner => corner.code);
	day.pick(then);
	return codes;
};

test('a fault on a part set aside is noted; it cannot be set aside once more', () => {
	const day = rehearsed();
	day.toState('wait');
	expect(fault(day, 'right door/flat', 'set-part-aside')).toEqual([
		'set-part-aside',
		'set-face-aside',
		'keep-on',
	]);
	expect(fault(day, 'right door/flat', 'keep-on')).toEqual(['keep-on']);
	expect(day.ofType('fault.seen').length).toBe(2);
	expect(day.ofType('part.setAside').length).toBe(1);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('of a part with one face aside only the other face is set aside after it, and its rework goes on', () => {
	const day = rehearsed();
	day.toState('wait');
	fault(day, 'left door/flat', 'set-face-aside');
	expect(fault(day, 'left door/flat', 'set-part-aside')).toEqual(['set-part-aside', 'keep-on']);
	expect(day.ofType('part.setAside').map(({ faces }) => faces)).toEqual([
		['left door/flat'],
		['left door/edges'],
	]);
	expect(day.findings()).toEqual([]);
});
