import { describe, expect, test } from 'vitest';
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

describe('a gun of the shelf with a key of its own', () => {
	const own = (gun: string, stages = (text: string) => text) => {
		const text = stages(chairs.replace('gun: large', gun));
		const loaded = parseJob(text, 'own.yaml', () => readShelf(folder));
		if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
		return loaded.job;
	};

	test('has that key, and all else of the shelf; check says so', () => {
		const job = own('gun: { from: large, pressure: 1.8 bar }');
		const { changed, pressure_kPa, ...rest } = job.gun;
		const { pressure_kPa: _, ...theirs } = jobOf().gun;
		expect([changed, pressure_kPa]).toEqual([['pressure'], 180]);
		expect(rest).toEqual(theirs);
		expect(notesOf(job, 'metric')).toContain('gun: pressure differs from the shelf');
		expect(job.faces).toEqual(jobOf().faces);
	});

	test('stands beside the same gun as the shelf has it, by another name', () => {
		const { guns = {}, stages } = own('gun: { from: large, fan: 20 cm }', text =>
			text.replace('spray: moss green satin,', 'spray: moss green satin, gun: large,'),
		);
		const sprayed = stages.flatMap(one => (one.kind === 'coats' ? [one.gun ?? ''] : []));
		const fans = [...new Set(sprayed)].map(name => [guns[name]?.fanHeight_mm, guns[name]?.called]);
		expect(fans).toEqual([
			[200, 'large'],
			[250, 'large'],
		]);
	});

	test('is used before the set-up that was measured', () => {
		const setUps = ['grey epoxy', 'moss green satin'].map(
			name => `{ for: ${name}, pressure: 2 bar, fan: 25 cm, paint: 100 mL in 30 s }`,
		);
		const measured = `gun: large\ncup: 600 mL gravity\nset-ups: [${setUps.join(', ')}]\n`;
		const shelf = readShelf(folder);
		const files = shelf.files.map(one => (one.kind === 'gun' ? { ...one, text: measured } : one));
		const text = chairs.replace('gun: large', 'gun: { from: large, fan: 18 cm }');
		const loaded = parseJob(text, 'own.yaml', () => ({ ...shelf, files }));
		if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
		expect(loaded.job.gun).toMatchObject({ fanHeight_mm: 180, pressure_kPa: 200, changed: ['fan'] });
	});

	test.each([
		['gun: { from: small, fan: 20 cm }', /^gun: found "small"; the shelf has large$/],
		['gun: { from: large, fun: 20 cm }', /^gun, key: found "fun"; .*; nearest: fan$/],
		['gun: { from: large, fan: wide }', /^gun, fan: found "wide"/],
		['guns: { mine: { from: large, fan: 0 cm } }\ngun: large', /^gun mine, fan: .*more than 0, up to 100 m$/],
	])('%s is refused in one line', (gun, pattern) => {
		const loaded = parseJob(chairs.replace('gun: large', gun), 'own.yaml', () => readShelf(folder));
		expect(loaded.ok ? [] : loaded.errors.map(one => one.says)).toEqual([expect.stringMatching(pattern)]);
	});
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
