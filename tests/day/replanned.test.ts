import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

test('coming back from a long hold, one sentence says what it changed of the day', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 80 min');
	const back = day.pick('back');
	expect(back.lines.join(' ')).toMatch(/the day ends \d+ (min|h).* later/i);
});

test('a hold inside the flash changes nothing, and says nothing', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 2 min');
	expect(day.pick('back').lines.join(' ')).not.toMatch(/the day ends/i);
});
