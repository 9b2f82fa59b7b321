import { expect, test } from 'vitest';
import { changeable, changed } from '../../src/job/again.ts';
import { withoutHead } from '../../src/job/asking/again.ts';

const sheet = `# ours
name: "Trays: two" # of oak
gun: large
parts:
  - { part: tray, shape: "panel, 40 x 30 x 2 cm", held: standing } # in brackets
  -   held: standing
      part: lid   # oak
      shape: panel, 40 x 30 x 2 cm
  - part: box
    count: 2 # as ordered
    shape: panel, 9 x 9 x 1 cm
    held: standing
stages:
  - { spray: grey epoxy, coats: full }
  - spray: "moss green satin"
    coats: full
`;

test('what may be another is the name, the counts, and what is sprayed', () => {
	expect(changeable(sheet, 'trays.yaml')).toEqual({
		name: 'Trays: two',
		parts: [
			{ name: 'tray', count: null },
			{ name: 'lid', count: null },
			{ name: 'box', count: 2 },
		],
		materials: ['grey epoxy', 'moss green satin'],
		own: [],
		shelf: undefined,
	});
	expect(changeable('name: x\nparts: [', 'x.yaml')).toEqual([expect.objectContaining({ line: 2 })]);
});

const counts = new Map([
	['tray', 3],
	['lid', 4],
	['box', 12],
]);
const materials = new Map([['moss green satin', 'satin: "slate"']]);

test.each([
	['\n', 'lines end as they do here'],
	['\r\n', 'lines end as on other systems'],
])('only what changes is written anew, in brackets and in lines (%j: %s)', end => {
	const given = sheet.replaceAll('\n', end);
	const wanted = given
		.replace('"Trays: two"', 'Three trays')
		.replace('{ part: tray,', '{ part: tray, count: 3,')
		.replace(/(part: lid {3}# oak\r?)\n/, '$1\n      count: 4\n')
		.replace('count: 2 ', 'count: 12 ')
		.replace('"moss green satin"', String.raw`"satin: \"slate\""`);
	expect(changed(given, { name: 'Three trays', counts, materials }).replaceAll('\r', '')).toBe(
		wanted.replaceAll('\r', ''),
	);
});

test('nothing changed, nothing is written anew but the name; one of a part needs no count', () => {
	const one = new Map([['tray', 1]]);
	const same = changed(sheet, { name: 'Trays: two', counts: one, materials: new Map() });
	expect(same).toBe(sheet);
});

test('what was said of the job before is taken out, and no other comment', () => {
	const head = '# again: x\n# gun: feather usual, not measured\n# first day: 2027-03-02 08:00\n';
	expect(withoutHead(`${head}${sheet}`)).toBe(sheet);
});
