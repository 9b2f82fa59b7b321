import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkCommand } from '../../src/cli/check.ts';
import { type Command, runCommand } from '../../src/cli/command.ts';
import { exampleCommand } from '../../src/cli/example.ts';
import { altered, exampleText } from '../job/altered.ts';

async function ran(command: Command, ...argv: string[]) {
	let out = '';
	let err = '';
	const status = await runCommand(command, argv, {
		stdout: { write: text => (out += text) },
		stderr: { write: text => (err += text) },
		env: {},
	});
	return { status, out, err };
}

const freshFolder = () => mkdtempSync(join(tmpdir(), 'check-'));

function fileWith(content: string | Uint8Array, name = 'cart.yaml'): string {
	const file = join(freshFolder(), name);
	writeFileSync(file, content);
	return file;
}

const bomb = ['a: &a [x, x, x, x, x, x, x, x, x]']
	.concat([...'bcdefghi'].map((key, index) => `${key}: &${key} [${Array(9).fill(`*${'abcdefgh'[index]}`)}]`))
	.join('\n');

describe('bad input', () => {
	test.each<[string, string | Uint8Array, RegExp]>([
		['an empty file', '', /:1:1: is empty; fanwise example writes a sheet to begin with$/],
		['a file of remarks alone', '# nothing yet\n', /:1:1: is empty/],
		['a binary file', Uint8Array.from([0x7f, 0x45, 0x4c, 0x46, 0, 1, 2]), /:1:1: is not a text file/],
		['bytes that are no UTF-8', Uint8Array.from([0x6e, 0xff, 0x41]), /:1:1: is not a text file in UTF-8/],
		['UTF-16', Uint8Array.from([0xff, 0xfe, 0x61, 0]), /:1:1: is saved as UTF-16: save it as UTF-8$/],
		['a megabyte of [', '['.repeat(1e6), /:1:31: is nested more than 30 deep/],
		['a megabyte of {', '{'.repeat(1e6), /:1:31: is nested more than 30 deep/],
		['a megabyte of dashes', '- '.repeat(5e5), /:1:61: is nested more than 30 deep/],
		['a megabyte of }', '}'.repeat(1e6), /:1:1: is out of place/],
		[
			'a staircase',
			Array.from({ length: 900 }, (_, step) => `${' '.repeat(step)}a:`).join('\n'),
			/:201:1: is indented by more than 200/,
		],
		['more than any job', 'a: b\n'.repeat(900_000), /:1:1: is larger than 4 MB|is longer than any job/],
		['an alias bomb', bomb, /:1:4: "&a" names a place to be repeated: leave it out/],
		['a tag', 'name: !!binary aGk=\n', /:1:7: "!!binary" is a tag: leave it out$/],
		['two documents', `${exampleText}\n---\nname: b\n`, /:\d+:1: a second document begins/],
		['a tab', 'shop:\n\tair: 70 °F\n', /:2:1: a tab is used to indent: use spaces$/],
		[
			'a quote left open',
			'name: "Cart\nunits: us\n',
			/:\d+:\d+: a quote, a bracket, a comma or a colon is missing/,
		],
		['a list for a sheet', '- a\n- b\n', /:1:1: the file: found a list; keys with values are wanted$/],
		['one word', 'cart\n', /:1:1: the file: found "cart"; keys with values are wanted$/],
		[
			'a duplicate key',
			altered('place: 3', 'place: 3\n    place: 4'),
			/part left door, place: written twice; take one out$/,
		],
		[
			'a negative area',
			altered('size: 24 in x 20 in', 'area: -2 m2'),
			/area: found "-2 m2"; an area cannot be negative$/,
		],
		['a unit missing', altered('flow: 7 fl oz/min', 'flow: 7'), /gun, flow: found "7"; a unit is missing/],
		[
			'an unknown face in after',
			altered('after: [lip]', 'after: [lips]'),
			/after: found "lips"; .*nearest: lip$/,
		],
		['an escape sequence', altered('Market', '\u001b[2JMarket'), /:7:7: holds U\+001B, which cannot be seen/],
		['text from right to left by force', altered('Market', '\u202eMarket'), /:7:7: holds U\+202E/],
		['a character of no width', altered('left door', 'left\u200bdoor'), /holds U\+200B/],
		[
			'an escape sequence in disguise',
			altered('Market coffee cart', '"\\e[2JMarket"'),
			/:7:8: name: found "<U\+001B>\[2JMarket"; U\+001B cannot be seen/,
		],
		[
			'a name of 10 kB',
			altered('Market coffee cart', 'm'.repeat(10_000)),
			/:7:7: name: found "m{60}…"; 10000 letters are too many for one value$/,
		],
		[
			'a part named like the machine',
			altered('part: left door', 'part: constructor'),
			/part: found "constructor"; the program keeps this word/,
		],
		[
			'a material named like the machine',
			altered('  topcoat:\n    name', '  __proto__:\n    name: x\n  topcoat:\n    name'),
			/materials: found "__proto__"; the program keeps this word/,
		],
		[
			'a key named like the machine',
			altered('units: us', '__proto__: { units: us }\nunits: us'),
			/key: found "__proto__"; allowed: /,
		],
	])('%s: one clear line, exit 2, nothing written', async (_what, content, says) => {
		const file = fileWith(content);
		const { status, out, err } = await ran(checkCommand, file);
		expect(err.trimEnd().split('\n')).toHaveLength(1);
		expect(err.trimEnd()).toMatch(says);
		expect(err.startsWith(`${file}:`)).toBe(true);
		expect({ status, out }).toEqual({ status: 2, out: '' });
		expect(readdirSync(join(file, '..'))).toEqual(['cart.yaml']);
	});

	test('no file: its name, its place and what to do', async () => {
		const { status, err } = await ran(checkCommand, join(freshFolder(), 'gone.yaml'));
		expect(status).toBe(2);
		expect(err).toMatch(
			/gone\.yaml:1:1: there is no such file: check the name, or write a sheet with fanwise example\n$/,
		);
	});

	test('a folder is named as one', async () => {
		const { status, err } = await ran(checkCommand, freshFolder());
		expect(status).toBe(2);
		expect(err).toMatch(/:1:1: is a folder: name the file in it\n$/);
	});

	test('a name that no file can have', async () => {
		const { status, err } = await ran(checkCommand, 'a\0b');
		expect(status).toBe(2);
		expect(err).toBe('a<U+0000>b:1:1: is not a file name\n');
	});

	test('no name, and two names', async () => {
		for (const names of [[], ['a.yaml', 'b.yaml']])
			expect(await ran(checkCommand, ...names)).toEqual({
				status: 2,
				out: '',
				err: 'fanwise check: name one job sheet: fanwise check JOB.yaml (fanwise example writes one)\n',
			});
	});
});

describe('a sheet in which nothing is wrong', () => {
	test('is told in a few lines, in the units of the sheet or those asked for', async () => {
		const us = await ran(checkCommand, fileWith(exampleText));
		expect(us.status).toBe(0);
		expect(us.err).toBe('');
		expect(us.out).toMatch(/^Market coffee cart: 6 parts, 10 faces, 29\.9 ft²\n/);
		expect(us.out).toMatch(/\nNothing is wrong with the sheet: 2 materials, 50 coats to lay\.\n$/);
		const metric = await ran(checkCommand, fileWith(exampleText), '--units', 'metric');
		expect(metric.out).toMatch(/^Market coffee cart: 6 parts, 10 faces, 2\.78 m²\n/);
	});

	test('is told as data, in SI units', async () => {
		const { out } = await ran(checkCommand, fileWith(exampleText), '--json');
		expect(JSON.parse(out)).toMatchObject({
			...{ valid: true, parts: 6, faces: 10 },
			stages: [{ speeds: [{ kind: 'medium' }, { kind: 'full' }] }, { speeds: [{ kind: 'tack' }, {}, {}] }],
		});
	});

	test('says the knob and the speeds of each kind of coat, and which coat wants the knob turned', async () => {
		const { out } = await ran(checkCommand, fileWith(exampleText));
		expect(out).toContain('    medium: 12–16 in/s at 7 fl oz/min, fan 8 in\n');
		// 24 in/s at the most, 26.05 µm wet, 65 %, 89 mm from line to line on the arch: 130.3 mL/min.
		expect(out).toContain(
			'look again: topcoat, tack: wants the fluid knob at 4.4 fl oz/min and 19–24 in/s, with a fan of 8 in',
		);
	});

	test('a habit that is a fifth off the speed that a coat wants is told', async () => {
		const used = altered('speeds: 6 to 24 in/s', 'speed: 14 in/s');
		const { out } = await ran(checkCommand, fileWith(used));
		expect(out).toContain("look again: primer, full: wants 9.5–12 in/s; the gun's speed is 14 in/s");
		expect(out).not.toContain('primer, medium: wants');
	});

	test('a range that no flow keeps wants another fan', async () => {
		const narrow = altered('speeds: 6 to 24 in/s', 'speeds: 12 to 14 in/s');
		expect((await ran(checkCommand, fileWith(narrow))).out).toContain(
			'look again: primer, medium: wants another fan than 8 in',
		);
	});

	test('what the balance takes for granted is told once', async () => {
		const bare = exampleText
			.replace(/ {2}transfer: .*\n/, '')
			.replace('size: 60 in x 5 in', 'area: 2 ft2')
			.replace('size: 120 in x 2 in', 'area: 2 ft2');
		const { out, status } = await ran(checkCommand, fileWith(bare));
		expect(status).toBe(0);
		expect(out).toContain('look again: gun: transfer, feather usual, not measured\n');
		expect(out.replace(/\s+/g, ' ')).toContain(
			'look again: canopy rail/front and 1 more: size not known, taken as a square;',
		);
	});

	test('is looked at again where it names no breathing gear: only supplied air passes then', async () => {
		const named = '      spraying: filter mask with A2-P3\n';
		const { out, status } = await ran(checkCommand, fileWith(exampleText.replace(named, '')));
		expect(status).toBe(0);
		const note = 'look again: primer: names no breathing gear for spraying, so that only supplied air passes';
		expect(out.replace(/\s+/g, ' ')).toContain(note);
	});

	const doors = '        size: 2 in x 96 in\n';
	test('a narrow fan on a narrow face wants the knob shut, and lays the film wanted', async () => {
		const narrow = exampleText.replace(doors, `${doors}        fan: 2 in\n`);
		const { out, status } = await ran(checkCommand, fileWith(narrow));
		expect(status).toBe(0);
		// Three lines on 2 in at 24 in/s: 90.8 mL/min. At the gun's own flow and 14 in/s it would lie 248 µm wet.
		expect(out).toContain(
			'primer, medium: wants the fluid knob at 3.1 fl oz/min and 24 in/s, with a fan of 2 in',
		);
		expect(out).not.toContain('left door/edges: a');
	});

	test('a face whose highest film comes within a fifth of its sag limit is told, by the worst; flat work is not', async () => {
		// The lip's line lies in its middle: 1.1235 of 2.56 mil, 2.88 of 3.5.
		expect((await ran(checkCommand, fileWith(exampleText))).out).toContain(
			'look again: wheel-arch cover/lip: a full coat of topcoat lies up to 2.9 mil wet and sags above 3.5 mil: 82 % of it, over it 1 in 8',
		);
		const near = exampleText.replace('sags above: 3.5 mil', 'sags above: 2.6 mil');
		const { out, status } = await ran(checkCommand, fileWith(near));
		expect(status).toBe(0);
		expect(out).toMatch(/wheel-arch cover\/lip and 8 more: a full coat .* sags above 2\.6 mil: it runs/);
		expect(out).not.toContain('counter lid/top: a full coat');
	});

	test('a face that its cup cannot do, for what passes its edges, is told and not refused', async () => {
		const few = altered('holds: 20 fl oz', 'holds: 2 fl oz');
		const { out, status } = await ran(checkCommand, fileWith(few));
		expect(status).toBe(2);
		expect(out).toBe('');
		const small = altered('holds: 20 fl oz', 'holds: 2.6 fl oz');
		expect((await ran(checkCommand, fileWith(small))).out).toContain(
			'most of it past the edges; the cup holds',
		);
	});

	test.each([
		['speeds: 6 to 24 in/s', 'speeds: 24 to 6 in/s', /gun, speeds: .*the second must be more than the first/],
		[
			'speeds: 6 to 24 in/s',
			'first line: outside',
			/gun, first line: found "outside"; allowed: on the edge, half in/,
		],
		['speeds: 6 to 24 in/s', 'trigger: never', /gun, trigger: found "never"; allowed: released, held/],
		['flow: 7 fl oz/min', 'flow: 7 fl oz/min ± 100%', /gun, flow: .*allowed: ± up to 99%/],
		['order: fewest turns #', 'risk: 30%\norder: fewest turns #', /risk: found "30%"; allowed: 0\.1% to 20%/],
		[
			'size: 60 in x 5 in',
			'size: 60 in x 5 in\n        strip: 1 in x 20 in',
			/strip: its size says it already; take one out/,
		],
		['size: 60 in x 5 in', 'strip: 1 in x 20 in', /strip: needs the area that its pieces make up/],
		['film: 1.3 mil', 'film: 1.3 to 1.1 mil', /film: .*the second must be more than the first/],
	])('%s written as %s is refused with its place and its cure', async (from, to, says) => {
		const { status, err } = await ran(checkCommand, fileWith(altered(from, to)));
		expect(status).toBe(2);
		expect(err).toMatch(says);
		expect(err).toMatch(/\.yaml:\d+:\d+: /);
	});

	test('a film written as a range is aimed at in its middle', async () => {
		const ranged = await ran(
			checkCommand,
			fileWith(altered('film: 1.3 mil', 'film: 1.2 to 1.4 mil')),
			'--json',
		);
		const plain = await ran(checkCommand, fileWith(exampleText), '--json');
		expect(JSON.parse(ranged.out).stages[0].volume_mL).toBeCloseTo(
			JSON.parse(plain.out).stages[0].volume_mL,
			9,
		);
	});

	test('with a list in which something is wrong is refused', async () => {
		const file = fileWith(`${exampleText}\nlists: [shop.yaml]\n`);
		writeFileSync(join(file, '../shop.yaml'), 'list: gun-check\ntake out: [pattern]\n');
		const { status, err } = await ran(checkCommand, file);
		expect(status).toBe(2);
		expect(err).toMatch(/shop\.yaml:2:12: take out: pattern stays in gun-check/);
	});
});

test('every error of a sheet is a line, and with --json a place and a sentence', async () => {
	const file = fileWith(altered('units: us', 'units: imperial').replace('place: 3', 'place: x'));
	const { status, out, err } = await ran(checkCommand, file, '--json');
	expect(status).toBe(2);
	expect(err.trimEnd().split('\n')).toHaveLength(2);
	expect(JSON.parse(out)).toMatchObject({ valid: false, errors: [{ line: 8, column: 8 }, { column: 12 }] });
});

describe('the example sheet', () => {
	test('is written where it is asked for, byte for byte', async () => {
		const file = join(freshFolder(), 'mine.yaml');
		expect((await ran(exampleCommand, file)).status).toBe(0);
		expect(readFileSync(file, 'utf8')).toBe(exampleText);
	});

	test('never goes over a file that is there', async () => {
		const file = fileWith('my own');
		const { status, err } = await ran(exampleCommand, file);
		expect(status).toBe(2);
		expect(err).toBe(`${file}: is there already, and is left as it is: give another name\n`);
		expect(readFileSync(file, 'utf8')).toBe('my own');
	});

	test('is not written into a folder that is not there, nor over a folder', async () => {
		const folder = freshFolder();
		mkdirSync(join(folder, 'carts'));
		expect(await ran(exampleCommand, join(folder, 'gone/cart.yaml'))).toMatchObject({ status: 2 });
		expect(await ran(exampleCommand, join(folder, 'carts'))).toMatchObject({ status: 2 });
		expect(readdirSync(folder)).toEqual(['carts']);
	});
});
