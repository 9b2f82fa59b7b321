import { expect, test } from 'vitest';
import { adding } from '../../src/job/asking/adding.ts';
import { wrongIn } from '../../src/job/check-shelf.ts';
import { parseJob } from '../../src/job/load.ts';
import { readText } from '../../src/job/read-text.ts';
import { readShelf, type Shelf } from '../../src/job/shelf.ts';
import { answered, chairs, inOrder, written } from './asking/answered.ts';
import { shelf as folder } from './chairs/long-form.ts';

/** Shapes of parts that the shop has on its shelf, and sheets that name them. */

const read = readText('tests/job/chairs/eight-chairs.yaml', 'it is there');
const sheet = read.ok ? read.text : '';
const seat = 'shape: chair seat\nis: panel, 40 x 38 x 3 cm\nheld: on points\n';
const shelfWith = (...texts: string[]): Shelf => {
	const shelf = readShelf(folder);
	const shapes = texts.map((text, nth) => ({
		...{ kind: 'shape' as const, path: `shapes/${nth}.yaml`, text },
		name: /^shape: (.*)$/m.exec(text)?.[1] ?? null,
	}));
	return { ...shelf, files: [...shelf.files, ...shapes] };
};
const loadedOf = (text: string, ...texts: string[]) =>
	parseJob(text, 'chairs.yaml', () => shelfWith(...texts));
const says = (text: string, ...texts: string[]): string[] => {
	const loaded = loadedOf(text, ...texts);
	return loaded.ok ? [] : loaded.errors.map(one => one.says);
};
const long = '    shape: panel, 40 x 38 x 3 cm\n    held: on points\n';
const named = (lines: string) => sheet.replace(long, lines);

test('a part that names a shape of the shelf has its faces, and is held as that is', () => {
	expect(sheet).toContain(long);
	expect(loadedOf(named('    shape: chair seat\n'), seat)).toEqual(loadedOf(sheet));
	const hung = loadedOf(named('    shape: chair seat\n    held: hanging\n'), seat);
	expect(hung).toEqual(loadedOf(sheet.replace('held: on points', 'held: hanging')));
});

test('one that is not there is refused once, with those that are and with the shapes that have sizes', () => {
	const wrong = named('    shape: stool seat\n    held: on points\n');
	expect(says(wrong)).toEqual([
		expect.stringMatching(/^part seat, shape: found "stool seat"; allowed: panel, .*rim$/),
	]);
	expect(says(wrong, seat)).toEqual([expect.stringMatching(/rim; the shelf has chair seat$/)]);
	expect(says(named('    shape: panel\n    held: on points\n'), seat)).toEqual([
		expect.stringMatching(/^part seat, shape: found "panel"; 3 sizes are wanted/),
	]);
});

test('what is wrong in its file is said of that file', () => {
	const file = (text: string) => ({ kind: 'shape' as const, name: null, path: 'seat.yaml', text });
	expect(wrongIn(file(seat))).toEqual([]);
	for (const [text, wrong] of [
		[seat.replace('panel', 'plank'), /^shape, is: found "plank, .*nearest: panel/],
		[seat.replace('held: on points', 'held: nails'), /^shape, held: found "nails"/],
		['shape: chair seat\n', /^shape, is is missing: write "is: panel, 40 x 38 x 3 cm"$/],
		[seat.replace('chair seat', 'panel'), /choose another name$/],
	] as const)
		expect(wrongIn(file(text)).map(one => one.says)).toEqual([expect.stringMatching(wrong)]);
});

test('asked for line by line, and chosen in a new sheet: neither sizes nor how it is held are asked again', () => {
	const asking = adding('shape', 'shape: chair seat');
	let step = asking.next();
	for (const answer of ['panel, 40 x 38 x 3 cm', 'on points', '']) step = asking.next(answer);
	expect(step).toEqual({ done: true, value: seat.trimEnd().split('\n') });
	const shelf = shelfWith(seat);
	const answers = chairs.flatMap((one, nth) =>
		nth === 6 ? ['chair seat'] : nth === 7 || nth === 8 ? [] : [one],
	);
	const { outcome, put } = answered(shelf, inOrder(answers));
	expect(put.filter(({ wrong }) => wrong !== null)).toEqual([]);
	expect(put.filter(({ question }) => question === 'shape').map(({ choices }) => choices?.[0])).toEqual(
		Array(2).fill('chair seat'),
	);
	const [byName, bySizes] = [written(outcome), written(answered(shelf, inOrder(chairs)).outcome)].map(
		({ text }) => parseJob(text, 'new.yaml', () => shelf),
	);
	expect(byName).toEqual(bySizes);
	expect(byName?.ok).toBe(true);
});
