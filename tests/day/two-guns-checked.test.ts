import { beforeAll, expect, test } from 'vitest';
import { changed, find, like } from '../model/checker/draft.ts';
import { type Raw, readLines } from '../model/checker/lines.ts';
import { foundIn } from '../model/checker/mutilated.ts';
import { rehearsed } from './rehearsed.ts';
import { twoGuns } from './two-guns-job.ts';

let sound: Raw[];
beforeAll(async () => {
	const day = rehearsed(await twoGuns());
	day.toEnd();
	sound = readLines(day.bytes()).lines.map(({ raw }) => raw);
});

const small = like('reading.taken', { feature: 'gun', value: 'small' });
/** The first full check of the small gun, from where it begins to where it is passed. */
const checkOf = (day: Raw[]) => Number(day[find(day, small)]?.check);
const says = (day: Raw[]) => foundIn(day).flatMap(one => (one.property === 1 ? [one.says] : []));

test('a sound day of two guns passes', () => {
	expect(foundIn(sound)).toEqual([]);
});

const spoilt: [string, (day: Raw[]) => Raw[], RegExp][] = [
	[
		'a face is sprayed with another gun on the check of the first',
		day => {
			const no = checkOf(day);
			const from = find(day, like('check.began', { check: no }));
			return day.filter((record, n) => n < from || record.check !== no || record.type === 'face.started');
		},
		/front starts: it wants small, and no full check of that gun was passed since another was in hand/,
	],
	[
		'the check of the other gun is a short one',
		day => {
			const no = checkOf(day);
			const begun = changed(day, like('check.began', { check: no }), { size: 'short' });
			return changed(begun, like('gun.checked', { check: no }), { size: 'short' });
		},
		/it wants small, and no full check/,
	],
	[
		'the tape was not read',
		day => {
			const no = checkOf(day);
			const items = ['mask', 'extractor', 'batch', 'gauge', 'pattern'];
			const begun = changed(day, like('check.began', { check: no }), { items });
			return begun.filter((_, n) => n !== find(begun, small));
		},
		/the tape of small was not read first in check/,
	],
	[
		'the tape of the other gun passes',
		day => changed(day, small, { value: 'large', wanted: 'large' }),
		/the tape of small was not read first/,
	],
	[
		'the name is not the first that is read',
		day => {
			const no = checkOf(day);
			const items = ['mask', 'gun', 'extractor', 'batch', 'gauge', 'pattern'];
			return changed(day, like('check.began', { check: no }), { items });
		},
		/was not read first/,
	],
	[
		'its paint is in the cup of the other',
		day => changed(day, like('batch.loaded', { ofGun: 'small' }), { ofGun: 'large' }),
		/its paint is in the cup of large, it wants small/,
	],
	[
		'its gauge is passed at the pressure of the other',
		day => {
			const gauge = find(day, like('reading.taken', { feature: 'gauge', check: checkOf(day) }));
			return day.with(gauge, { ...day[gauge], value: 200, wanted: 200 });
		},
		/the gauge read 200 kPa, the sheet asks 172/,
	],
];
test.each(spoilt)('%s: found', (_, spoil, wanted) => {
	expect(says(spoil(structuredClone(sound)))).toContainEqual(expect.stringMatching(wanted));
});
