import { expect, test } from 'vitest';
import { daySentences } from '../../src/report/summary.ts';
import { trace } from '../../src/trace/trace.ts';
import { coatSentences } from '../../src/words/summary-coat.ts';
import { traceSentences } from '../../src/words/summary-trace.ts';
import { rehearsed, start } from '../day/rehearsed.ts';
import { builtIn } from '../trace/built-in.ts';

test('a break that nobody saw begin is told from when the program last ran', () => {
	const day = rehearsed();
	day.toAsk('go');
	const began = day.records().at(-1)?.at.slice(11, 16);
	day.send('sleep 3 h');
	day.toEnd();
	expect(daySentences(day.records())).toContain(`Breaks: 1, longest 3 h 00 min at ${began}.`);
});

/** A day begun in the evening, its second coat after midnight. */
function overMidnight() {
	const day = rehearsed({ at: start + 15.5 * 3_600_000 });
	day.until(({ state, coat }) => state === 'spraying' && coat === 2);
	day.send('wait 60 s');
	day.pick('trouble');
	for (const code of ['wet-fault', 'all', 'run', 'left door/edges', 'keep-on']) day.pick(code);
	day.toEnd();
	return day.records();
}

test('a moment on another day than the one that the day was opened on has its date', () => {
	const said = daySentences(overMidnight());
	expect(said[0]).toMatch(/^Day: coffee cart doors, 2 March, closed 3 March 0\d:\d\d\.$/i);
	expect(said.find(text => text.startsWith('Coat 1'))).toMatch(/: 3 faces, 23:\d\d to 23:\d\d\.$/);
	expect(said.find(text => text.startsWith('Coat 2'))).toMatch(/: 3 faces, 3 March 00:\d\d to 0\d:\d\d\.$/);
	expect(said.find(text => text.startsWith('Run'))).toMatch(/, seen 3 March 00:\d\d\.$/);
	expect(coatSentences(overMidnight(), 'left door/edges', 2)[0]).toMatch(/: 3 March 00:\d\d to 00:\d\d\.$/i);
	expect(coatSentences(overMidnight(), 'left door/edges', 1)[0]).not.toContain('March');
	for (const text of said) expect(text.split(' ').length, text).toBeLessThanOrEqual(12);
});

test('the times of a trace have their dates where they do not all fall on one day', () => {
	const asked = { fault: 'run', face: 'left door/edges', coat: 2 };
	const said = { ...asked, zone: 'UTC', causes: builtIn.causes };
	const over = traceSentences(trace({ days: [overMidnight()], ...asked }, builtIn), said);
	expect(over.find(text => text.startsWith('Began'))).toMatch(/: [23] March \d\d:\d\d to /);
	expect(over.find(text => text.startsWith('Then'))).toMatch(/ [23] March \d\d:\d\d\.$/);
	const day = rehearsed();
	day.toEnd();
	const within = traceSentences(trace({ days: [day.records()], ...asked }, builtIn), said);
	expect(within.join(' ')).not.toContain('March');
});
