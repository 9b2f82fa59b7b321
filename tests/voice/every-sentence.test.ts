import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import type { View } from '../../src/day/view.ts';
import { freshEar, hears } from '../../src/voice/ear.ts';
import { liveKinds } from '../screen/kinds.ts';

/**
 * Every sentence, not a sample: whole days show every state that a prompt is written for (a test of the screens holds
 * them to that), and every text that stands in the source is counted as it stands.
 */

const most = 12;
const words = (text: string): string[] => text.split(/\s+/u).filter(word => /[\p{L}\d]/u.test(word));
/** A quantity with its unit is said, and read, as one. */
const quantity = /[−-]?\d+(\.\d+)? ?(s|min|h|days?|fl oz|mL|psi|kPa|in|mm|mil|micron|µm|°F|°C|g|%)(?![a-z])/g;
const sentences = (text: string): string[] => text.split(/(?<=[.?!:;])\s+/u);
const tooLong = (texts: Iterable<string>): string[] => [...texts].filter(text => words(text).length > most);

let views: View[];
beforeAll(async () => {
	views = [...(await liveKinds()).values()].flat();
});

test('every question of every kind of screen is one of at most 12 words, and is heard whole', () => {
	const asked = new Set(views.map(({ say }) => say));
	expect(asked.size).toBeGreaterThan(400);
	expect(tooLong(asked)).toEqual([]);
	const told = { warnEarly_min: 10, warnLate_min: 2, overdue: true };
	for (const view of views.filter(({ ask }) => ask !== 'spraying'))
		expect(hears(freshEar, view, told).heard.say).toBe(view.say);
});

test('every line beside a question is of sentences of at most 12 words', () => {
	const lines = new Set(views.flatMap(view => view.lines));
	expect(lines.size).toBeGreaterThan(150);
	const isLong = (line: string) => tooLong(sentences(line.replaceAll(quantity, 'N'))).length > 0;
	expect([...lines].filter(isLong)).toEqual([]);
});

/** Where the texts stand that a screen, a voice or a line of text may give. */
const rooms = ['src/day', 'src/day/asks', 'src/screen', 'src/screen/keys', 'src/voice', 'src/plain'];

/** Every text of several words in a source file; what is put into a template counts as a word. */
function textsIn(source: string): string[] {
	const code = source.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');
	const quoted = [...code.matchAll(/'((?:[^'\\\n]|\\.)*)'|`((?:[^`\\]|\\.)*)`/g)];
	return quoted
		.map(([, plain, template]) => plain ?? template?.replaceAll(/\$\{[^}]*\}/g, 'N') ?? '')
		.filter(text => words(text).length > 3 && !text.startsWith('.'));
}

test('every text that stands in the source is of sentences of at most 12 words', () => {
	const files = rooms.flatMap(room =>
		readdirSync(room)
			.filter(name => /\.tsx?$/.test(name))
			.map(name => join(room, name)),
	);
	const texts = files.flatMap(file => textsIn(readFileSync(file, 'utf8')).map(text => [file, text] as const));
	expect(texts.length).toBeGreaterThan(150);
	expect(texts.filter(([, text]) => tooLong(sentences(text)).length > 0)).toEqual([]);
});
