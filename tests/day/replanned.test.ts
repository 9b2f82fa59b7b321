import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

test('coming back from a long hold, one sentence says what it changed of the day', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 80 min');
	const back = day.pick('back');
	expect(back.lines.join(' ')).toMatch(/\d+ (min|h).* lost\. Finished about \d\d:\d\d\./);
});

test('a hold inside the flash changes nothing, and says nothing', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 2 min');
	expect(day.pick('back').lines.join(' ')).not.toMatch(/ lost|Finished about/);
});
