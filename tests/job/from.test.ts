import { expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import { parseJob } from '../../src/job/load.ts';
import { notesOf } from '../../src/job/notes.ts';
import { readText } from '../../src/job/read-text.ts';
import { readShelf } from '../../src/job/shelf.ts';
import { shelf as folder } from './chairs/long-form.ts';

/** The chairs with one line of a material's data sheet changed for this job alone. */

const read = readText('tests/job/chairs/eight-chairs.yaml', 'it is there');
const chairs = read.ok ? read.text : '';
const with_ = (materials: string) => parseJob(`${chairs}\n${materials}`, 'own.yaml', () => readShelf(folder));
function jobOf(materials = '') {
	const loaded = with_(materials);
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}
const says = (materials: string): string[] => {
	const loaded = with_(materials);
	return loaded.ok ? [] : loaded.errors.map(one => one.says);
};

test('a key beside the name of a material changes it for this job, all else is as the shelf has it', () => {
	const job = jobOf('materials:\n  grey epoxy:\n    from: grey epoxy\n    reducer: 5%\n');
	const shelf = jobOf();
	const [own, theirs] = [job, shelf].map(({ materials }) => materials['grey epoxy']);
	expect(own?.reducer_parts).toBeCloseTo((5 / 15) * (theirs?.reducer_parts ?? Number.NaN), 9);
	const { reducer_parts, coats, changed, ...rest } = own ?? {};
	const { reducer_parts: __, coats: ___, ...same } = theirs ?? {};
	expect(rest).toEqual(same);
	expect(changed).toEqual(['reducer']);
	expect(job.materials['moss green satin']).toEqual(shelf.materials['moss green satin']);
});

test('check says that it differs from the shelf', () => {
	const notes = (materials?: string) =>
		notesOf(jobOf(materials), 'metric').filter(note => note.includes('differs'));
	expect(notes('materials:\n  grey epoxy: { from: grey epoxy, reducer: 5%, wet edge: 2 min }\n')).toEqual([
		'material grey epoxy: reducer, wet edge differs from the shelf',
	]);
	expect(notes()).toEqual([]);
});

test.each([
	[
		'materials:\n  grey epoxy: { from: green epoxy, reducer: 5% }\n',
		/^material grey epoxy, from: found "green epoxy"; the shelf has grey epoxy, moss green satin$/,
	],
	['materials:\n  grey epoxy: { from: grey epoxy, thinning: 5% }\n', /^material grey epoxy, key: /],
	['materials:\n  grey epoxy: { from: grey epoxy, reducer: a little }\n', /^material grey epoxy, reducer: /],
])('%s is refused', (materials, pattern) => {
	expect(says(materials)).toContainEqual(expect.stringMatching(pattern));
});
