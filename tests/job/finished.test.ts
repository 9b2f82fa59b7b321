import { join } from 'node:path';
import { expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import { parseJob } from '../../src/job/load.ts';
import { notesOf } from '../../src/job/notes.ts';
import { readText } from '../../src/job/read-text.ts';
import { readShelf } from '../../src/job/shelf.ts';

/** Work that is meant for a later coat and reaches finished paint: common practice, no source. */

const home = join(import.meta.dirname, '../..');
function notes(path: string, change = (text: string) => text): string[] {
	const read = readText(join(home, path), 'it is there');
	if (!read.ok) throw new Error(path);
	const loaded = parseJob(change(read.text), path, () => readShelf(join(home, 'tests/job/two-guns/shelf')));
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return notesOf(loaded.job, 'metric').filter(note => note.includes('after the last coat'));
}
const doors = 'tests/job/two-guns/six-doors.yaml';

test.each([doors, 'tests/job/two-guns/eight-chairs.yaml', 'checklists/example/coffee-cart.yaml'])(
	'%s leaves its finished faces alone',
	path => {
		expect(notes(path)).toEqual([]);
	},
);

test('wiping for the second colour that reaches the first one is to be looked at again', () => {
	const all = (text: string) =>
		text.replace('{ wipe: yes, tack: yes, only: [outside] }', '{ wipe: yes, tack: yes }');
	expect(notes(doors, all)).toEqual([
		'wipe: reaches door 1/inside and 11 more after the last coat there; write "only: […]" or "leave out: […]" where finished paint is to be left alone',
		'tack: reaches door 1/inside and 11 more after the last coat there; write "only: […]" or "leave out: […]" where finished paint is to be left alone',
	]);
});

test('masks are for finished faces, and what follows the last coat of all is meant for them', () => {
	const mask = (text: string) => text.replace('{ mask: yes, only: [inside, edges] }', 'mask');
	const rub = (text: string) => text.replace('  - inspect', '  - sand: 2000 grit\n  - wipe');
	expect([...notes(doors, mask), ...notes(doors, rub)]).toEqual([]);
});
