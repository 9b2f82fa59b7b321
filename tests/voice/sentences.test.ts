import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import type { DayRecord } from '../../src/day/records.ts';
import { daySentences } from '../../src/report/summary.ts';
import { trace } from '../../src/trace/trace.ts';
import { coatSentences } from '../../src/words/summary-coat.ts';
import { traceSentences } from '../../src/words/summary-trace.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { builtIn } from '../trace/built-in.ts';
import { makeCase } from '../trace/generator/case.ts';
import { tuning } from '../trace/generator/seeds.ts';
import { exampleSheet, fortyFaces, saidIn } from './said.ts';

const most = 12;
const count = (sentence: string) => sentence.split(/\s+/u).filter(Boolean).length;
const tooLong = (sentences: Iterable<string>) => [...sentences].filter(sentence => count(sentence) > most);

const summariesOf = (records: readonly DayRecord[]): string[] => [
	...daySentences(records, 'metric'),
	...daySentences(records, 'us'),
	...records.flatMap(record =>
		record.type === 'face.started' ? coatSentences(records, record.face, record.coat, 'us') : [],
	),
];

const traces = (): string[] =>
	Array.from({ length: 10 }, (_, nth) => makeCase(tuning.from + 100 + nth)).flatMap(one =>
		traceSentences(trace(one, builtIn), {
			fault: builtIn.faults[one.fault]?.say ?? one.fault,
			face: one.face,
			coat: one.coat,
			zone: 'UTC',
			causes: builtIn.causes,
		}),
	);

/** Every `say` that stands anywhere in a list. */
function saysIn(value: unknown): string[] {
	if (typeof value !== 'object' || value === null) return [];
	return Object.entries(value).flatMap(([key, held]) =>
		key === 'say' && typeof held === 'string' ? [held] : saysIn(held),
	);
}

test('no sentence that the program can say is longer than 12 words', async () => {
	const small = { job: smallJob(), lists: smallLists() };
	const days = [
		...[1, 2].map(seed => saidIn(small, { units: 'us' }, seed)),
		saidIn(small, { by: 'stretch', cards: true }, 3),
		saidIn(await exampleSheet(), { by: 'stretch', cards: true, units: 'us' }, 8),
		saidIn(await fortyFaces(), { by: 'stretch' }, 9),
	];
	const asked = new Set(days.flatMap(day => [...day.asked]));
	const heard = new Set(days.flatMap(day => [...day.heard]));
	const summaries = new Set([...days.flatMap(({ records }) => summariesOf(records)), ...traces()]);
	const lists = readdirSync('checklists')
		.filter(name => name.endsWith('.yaml'))
		.flatMap(name => saysIn(parse(readFileSync(join('checklists', name), 'utf8'))));
	expect(asked.size).toBeGreaterThan(300);
	expect(heard.size).toBeGreaterThan(250);
	expect(summaries.size).toBeGreaterThan(400);
	expect(lists.length).toBeGreaterThan(60);
	for (const sentences of [asked, heard, summaries, lists]) expect(tooLong(sentences)).toEqual([]);
});

test('a face whose name is a whole story does not make a sentence longer', () => {
	const name = 'the side that faces the bakery when the cart stands in its usual place';
	const named = (id: string) => id.replace('flat', name);
	const job = smallJob();
	const faces = job.faces.map(face => ({ ...face, id: named(face.id), after: face.after.map(named) }));
	const { asked, heard } = saidIn({ job: { ...job, faces }, lists: smallLists() }, {}, 10);
	expect([...heard].some(sentence => sentence.includes('the side that'))).toBe(true);
	expect(tooLong(heard)).toEqual([]);
	expect(tooLong(asked)).toEqual([]);
});
