import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { linesOf, questionsOf } from '../../src/job/data-sheet.ts';
import { errorLines } from '../../src/job/errors.ts';
import { parseJob } from '../../src/job/load.ts';
import { readShelf, type ShelfKind } from '../../src/job/shelf.ts';
import { shelf as folder, shortSheet } from './chairs/long-form.ts';

/** What a painter types who half knows it: another shop's words, units left out, a page of the data sheet missing. Common practice, no source. */

const shelf = readShelf(folder);
const sheet = readFileSync(shortSheet, 'utf8');
const exchanged = (text: string, from: string, to: string): string => {
	expect(text).toContain(from);
	return text.replace(from, () => to);
};
const linesFor = (text: string, files = shelf.files): string[] => {
	const loaded = parseJob(text, 'chairs.yaml', () => ({ ...shelf, files }));
	return loaded.ok ? [] : errorLines(loaded.errors).map(line => line.replace(/^.*\/(?=[\w-]+\.yaml:)/, ''));
};

describe('in a sheet', () => {
	test.each([
		['count: 8', 'qty: 8', [/^chairs\.yaml:5:5: part frame, key: found "qty"; .*; nearest: count$/]],
		['count: 8', 'count: eight', [/:5:12: .*found "eight"; allowed: a number from 1 to 1000$/]],
		[
			'held: hanging',
			'held: hook',
			[/:7:11: .*found "hook"; allowed: standing, hanging, on points; nearest: hanging$/],
		],
		[
			'panel, 40 x 38 x 3 cm',
			'board, 40 x 38 x 3 cm',
			[/:10:12: .*nearest: panel, as in "panel, 40 x 38 x 3 cm"$/],
		],
		[
			'panel, 40 x 38 x 3 cm',
			'panel, 40 x 38 cm',
			[/:10:12: .*3 sizes are wanted, as in "panel, 40 x 38 x 3 cm"$/],
		],
		['panel, 40 x 38 x 3 cm', 'panel, 40 x 38 x 3', [/:10:21: .*a unit is missing: write a length as in /]],
		[
			'tube frame, 20 mm tube',
			'pipe, 20 mm tube',
			[/:6:12: .*nearest: tube frame, as in "tube frame, 20 mm tube, 8 m"$/],
		],
		[
			'tube frame, 20 mm tube',
			'zigzag, 20 mm tube',
			[/:6:12: .*allowed: panel, door both sides, box, tube frame, spindle, rail, bowl, rim$/],
		],
		['coats: 2 full', 'coats: 2', [/:14:33: .*found "2"; allowed: tack, medium, full, or as in "2 full"$/]],
		[
			'coats: 2 full',
			'coats: 2 wet',
			[/:14:33: .*found "2 wet"; allowed: tack, medium, full, or as in "2 full"$/],
		],
		[
			'wait: overnight',
			'wait: till dry',
			[/:15:11: .*a time begins with a number, as in "45 min", or overnight, or as in "until 08:00"$/],
		],
		['degrease, scuff, wipe', 'panel wipe, scuff, wipe', [/:13:5: .*nearest: degrease$/]],
		['gun: large', 'gun: the red one', [/:2:6: gun: found "the red one"; the shelf has large$/]],
	])('%s as %s: what it may be, once, and nothing of what follows from it', (from, to, says) => {
		expect(linesFor(exchanged(sheet, from, to))).toEqual(says.map(one => expect.stringMatching(one)));
	});
});

describe('on the shelf', () => {
	test.each([
		['reducer: 10%', 'thinner: 10%', [/:5:1: .*found "thinner"; .*; nearest: reducer$/]],
		[
			'reducer: 10%',
			'reducer: as needed',
			[/:5:10: .*found "as needed"; allowed: a share of base and hardener as in "15%"/],
		],
		[
			'[3 h at 15 °C, 2 h at 20 °C, 1 h at 30 °C]',
			'2 h',
			[/:10:11: .*a time at a temperature is wanted, as in /],
		],
		['sags above: 95 um\n', '', [/:1:1: .*write "sags above: 100 µm"$/]],
		['isocyanate: yes\n', '', [/:1:1: .*write "isocyanate: yes"$/]],
		[
			'mixing: supplied air, spraying: supplied air',
			'spraying: respirator',
			[/:3:24: .*the cartridge that the safety data sheet names/],
		],
		[
			'coats: { tack: { film: 12 um }, full: { film: 28 um } }',
			'coats: 2',
			[/:8:8: .*as in "coats: \{ tack: 15 µm, full: 30 µm \}"$/],
		],
	])('%s as %s: where it stands, and how it is written', (from, to, says) => {
		const files = shelf.files.map(file =>
			file.name === 'moss green satin' ? { ...file, text: exchanged(file.text, from, to) } : file,
		);
		expect(linesFor(sheet, files)).toEqual(says.map(one => expect.stringMatching(one)));
	});

	test('a recoat line that is none shows a whole one', () => {
		const files = shelf.files.map(file => ({
			...file,
			text: file.text.replace(/recoat:\n[\s\S]*?(?=sand after|limits)/, 'recoat: within a day\n'),
		}));
		expect(linesFor(sheet, files)).toContainEqual(
			expect.stringMatching(
				/recoat: found "within a day"; .*as in "15 min to 2 h at 20 °C or sanded from 16 h"$/,
			),
		);
	});
});

describe('asked for a data sheet', () => {
	test.each<[ShelfKind, string, string, string]>([
		['material', 'ratio', '2 to 1', 'as in "2:1 by volume"'],
		['material', 'pot life', '2 h', 'a time at a temperature is wanted, as in "3 h at 15 °C, 2 h at 20 °C"'],
		['material', 'standing', 'no', 'as in "15 min, or none"'],
		['material', 'coats', '2', 'write it as in "tack: 15 µm, full: 30 µm"'],
		[
			'material',
			'limits',
			'above 10 °C',
			'write it as in "air: 12 to 32 °C, surface: 12 to 30 °C, humidity: 75%, over dew point: 3 °C"',
		],
		[
			'material',
			'breathing',
			'respirator',
			'write it as in "mixing: supplied air, spraying: supplied air, sanding: filter mask with P3"',
		],
		[
			'material',
			'recoat',
			'after 4 h',
			'write it as in "grey epoxy, 12 to 30 °C: wait 0 to 4 h, spray 4 h to 8 h, sand from 8 h"',
		],
		['material', 'wet edge', '"', 'write it as in "2 min"'],
		['material', 'solids', 'unknown', 'write - where it is not given: it stays to be seen'],
		['material', 'isocyanate', '?', 'write - where it is not given: it stays to be seen'],
		['gun', 'pressure', '30', 'a unit is missing: write a pressure, as in "2 bar"'],
		['gun', 'fan', 'wide', 'a length begins with a number, as in "25 cm at 15 cm"'],
		['shop', 'day', '17:30 to 07:30', 'it closes before it opens; write it as in "07:30 to 17:30, or 9 h"'],
		['shop', 'day', 'nine to five', 'allowed: from when to when, as in'],
		['shop', 'units', 'mm', 'found "mm"; allowed: us, metric; write it as in "metric, or us"'],
	])('%s, %s: %s is not taken; it is shown how that one is answered', (kind, key, answer, says) => {
		const question = questionsOf[kind].find(one => one.key === key);
		if (!question) throw new Error(`nothing asks for ${key}`);
		expect(linesOf(kind, question, answer)).toEqual({ wrong: expect.stringContaining(says) });
	});

	test('every question shows how it is answered, whatever it was answered', () => {
		for (const kind of ['material', 'gun', 'shop'] as const)
			for (const question of questionsOf[kind])
				for (const answer of ['perhaps', '12', '{', '!!'])
					expect([question.key, answer, linesOf(kind, question, answer)]).toEqual([
						question.key,
						answer,
						expect.toSatisfy(
							(read: ReturnType<typeof linesOf>) =>
								'lines' in read || read.wrong.endsWith(`as in "${question.like}"`),
						),
					]);
	});
});
