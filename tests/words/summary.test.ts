import { expect, test } from 'vitest';
import { daySentences } from '../../src/words/summary.ts';
import { rehearsed } from '../day/rehearsed.ts';

test('a break that nobody saw begin is told from when the program last ran', () => {
	const day = rehearsed();
	day.toAsk('go');
	const began = day.records().at(-1)?.at.slice(11, 16);
	day.send('sleep 3 h');
	day.toEnd();
	expect(daySentences(day.records())).toContain(`Breaks: 1, longest 3 h 00 min at ${began}.`);
});
