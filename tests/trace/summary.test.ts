import { expect, test } from 'vitest';
import { daySentences } from '../../src/report/summary.ts';
import { trace } from '../../src/trace/trace.ts';
import { spoken } from '../../src/words/spoken.ts';
import { coatSentences } from '../../src/words/summary-coat.ts';
import { traceSentences } from '../../src/words/summary-trace.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { builtIn } from './built-in.ts';
import { makeCase } from './generator/case.ts';
import { tuning } from './generator/seeds.ts';

const cases = Array.from({ length: 60 }, (_, nth) => makeCase(tuning.from + 100 + nth));
const count = (text: string) => text.split(/\s+/u).length;
const longest = (sentences: string[]) => sentences.filter(text => count(text) > 12 || !text.endsWith('.'));

test('a day is said in sentences of at most 12 words, none of them cut', () => {
	for (const day of cases.flatMap(one => one.days)) {
		const said = daySentences(day);
		expect(longest(said)).toEqual([]);
		expect(said.filter(text => text.includes('…'))).toEqual([]);
		expect(said[0]).toMatch(/^Day: market coffee cart, \d+ [A-Z][a-z]+, closed \d\d:\d\d\.$/);
	}
});

test('every coat is said in sentences of at most 12 words', () => {
	for (const one of cases.slice(0, 15))
		for (const day of one.days)
			for (const record of day)
				if (record.type === 'face.started') {
					const said = coatSentences(day, record.face, record.coat, 'us');
					expect(longest(said)).toEqual([]);
					expect(said.length).toBeGreaterThan(3);
				}
});

test('a trace is said in sentences of at most 12 words', () => {
	for (const one of cases) {
		const said = traceSentences(trace(one, builtIn), {
			fault: builtIn.faults[one.fault]?.say ?? one.fault,
			face: one.face,
			coat: one.coat,
			zone: 'UTC',
			causes: builtIn.causes,
		});
		expect(longest(said)).toEqual([]);
		expect(said.filter(text => text.includes('…'))).toEqual([]);
	}
});

test('what stands in the day is said: breaks, batches, faults, readings that differed', () => {
	const day =
		cases.flatMap(one => one.days).find(records => records.some(record => record.type === 'break.ended')) ??
		[];
	const said = daySentences(day).join('\n');
	expect(said).toMatch(/^Breaks: \d+, longest /m);
	expect(said).toMatch(/^Batch [A-Z]: \d+ mL, mixed\.$/m);
	expect(said).toMatch(/^First readings: \d+, \d+ differed\.$/m);
	expect(said).toMatch(/^Coat \d: \d+ faces, \d\d:\d\d to \d\d:\d\d\.$/m);
});

test('a late face is said with how long it took, for its time or as is usual here, and with nothing more', () => {
	const said = (rates: Record<string, { time: number | null; paint: null }>) => {
		const day = rehearsed({ rates });
		day.until(({ state, face }) => state === 'spraying' && face === 'left door/flat');
		day.send('wait 150 s');
		day.pick('finished');
		day.toEnd();
		const late = (text: string) => text.startsWith('Late');
		return [...daySentences(day.records()), ...coatSentences(day.records(), 'left door/flat', 1)].filter(
			late,
		);
	};
	expect(said({})).toEqual(['Late: left door flat, coat 1, 150 s for 60 s.', 'Late: 150 s for 60 s.']);
	expect(said({ topcoat: { time: 1.5, paint: null } })).toEqual([
		'Late: left door flat, coat 1, 150 s, usually 90 s.',
		'Late: 150 s, usually 90 s.',
	]);
});

test('a coat that the day did not lay is said so', () => {
	expect(coatSentences(cases[0]?.days[0] ?? [], 'canopy rail/nowhere', 9)).toEqual([
		'Canopy rail nowhere, coat 9: not laid this day.',
	]);
});

test('a name of many words or with control signs stays one short, inert sentence', () => {
	const text = spoken('Run', 'a b c d e f g h i j k l m n\u001b[31m');
	expect(count(text)).toBeLessThanOrEqual(12);
	expect(spoken('Run', 'lid\u001b[2J')).not.toContain('\u001b');
});
