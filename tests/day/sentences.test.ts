import { beforeAll, expect, test } from 'vitest';
import type { Checklist } from '../../src/job/checklist.ts';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from './rehearsed.ts';

/** Everything said on many days, each with the screen that said it first. */
const said = new Map<string, string>();
const lines = new Map<string, string>();
/** Reasons that the list files give are no part of what is asked. */
const whys = new Set<string>();

/** Numbers from 0 to 1 that are the same in every run. */
function chance(seed: number): () => number {
	let state = seed * 2654435761 || 1;
	return () => {
		state = (state * 1664525 + 1013904223) % 4294967296;
		return state / 4294967296;
	};
}

const events = ['hold', 'kill', 'sleep 50 min', 'clock -30 min', 'wait 9 min', 'wait 4 min', 'trigger off'];

/** What the painter answers; nothing where a wild key told the program of another card or cup than he holds. */
function answered(day: ReturnType<typeof rehearsed>): string | null {
	try {
		return day.painter.answer(day.line());
	} catch {
		return null;
	}
}

/** A painter who mostly does what is asked, and now and then anything else. */
function playWildly(day: ReturnType<typeof rehearsed>, seed: number, steps: number) {
	const next = chance(seed);
	const some = <Thing>(things: readonly Thing[]) => things[Math.floor(next() * things.length)];
	for (let step = 0; step < steps && day.line().ask !== 'closed'; step++) {
		const { say, lines: beside, state, corners, min } = day.line();
		said.set(say, state);
		for (const line of beside) if (!whys.has(line)) lines.set(line, state);
		const corner = some(Object.keys(corners))?.replace(/[A-Z]/, big => `-${big.toLowerCase()}`);
		const wild = [corner ?? 'hold', `number ${(min ?? 0) + Math.round(next() * 40)}`, some(events) ?? 'hold'];
		const asked = answered(day);
		day.send(next() < 0.25 ? (some(wild) ?? 'hold') : (asked ?? 'hold'));
	}
}

beforeAll(async () => {
	const sheet = 'checklists/example/coffee-cart.yaml';
	const loaded = await loadJob(sheet);
	const listed = loaded.ok ? await loadLists(loaded.job, sheet) : loaded;
	if (!loaded.ok || !listed.ok) throw new Error('the example does not load');
	const { job }: { job: Job } = loaded;
	const { lists }: { lists: Checklist[] } = listed;
	for (const { why } of lists.flatMap(({ items }) => items)) if (why) whys.add(why);
	for (let seed = 1; seed <= 16; seed++) {
		const by = seed % 2 ? 'face' : 'stretch';
		const settings = { by, cards: seed % 4 === 0, units: seed % 3 ? 'us' : 'metric' } as const;
		playWildly(rehearsed(seed < 9 ? { settings, seed } : { job, lists, settings, seed }), seed, 260);
	}
});

/** A quantity with its unit; a count behind or before its noun; a date, an hour, the name of a cup. */
const quantity =
	/[−-]?\d+(\.\d+)? ?(s|min|h|days?|fl oz|mL|psi|kPa|bar|in|mm|mil|micron|µm|°F|°C|g|%)(?![a-z])/g;
const words = (text: string) =>
	text
		.replaceAll(quantity, 'N')
		.split(/\s+/)
		.filter(word => /\w/.test(word));
const sentences = (text: string) => text.split(/(?<=[.?!:])\s+/);

test('many screens were heard', () => {
	expect(said.size).toBeGreaterThan(150);
});

test('what a screen says begins large and ends with a stop', () => {
	expect([...said].filter(([say]) => !/^[\p{Lu}\d].*[.?]$/u.test(say))).toEqual([]);
});

test('a line beside it is of sentences of at most 12 words, and begins large', () => {
	const isLong = (line: string) => sentences(line).some(one => words(one).length > 12);
	expect([...lines].filter(([line]) => isLong(line) || !/^[\p{Lu}\d]/u.test(line))).toEqual([]);
});

const counted =
	/\b(card|coat|stroke|of|and|about|another) \d+|\d+ (more|faces|parts|strokes|lines|times|grit)/gi;
const named = /\b(A\d-)?P\d\b|\d{1,2} March|\d\d:\d\d|(zahn|ford|iso)\d/g;

test('every number is shown with its unit, or with what it counts', () => {
	const bare = (text: string) =>
		text
			.replaceAll(named, '')
			.replaceAll(/\d+ to (?=\d+ s)/g, '')
			.replaceAll(/\d+ h \d\d min/g, '')
			.replaceAll(quantity, '')
			.replaceAll(counted, '');
	expect([...said, ...lines].filter(([text]) => /\d/.test(bare(text)))).toEqual([]);
});
