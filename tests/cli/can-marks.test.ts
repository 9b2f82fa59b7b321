import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { example, folder, run } from './run.ts';

/** Marks taped on cans go from job to job with what is in the can. */

type Can = { material: string; component: string; mark: string };

const sheet = readFileSync(example, 'utf8');

/** The example under another name, with another primer in the place of its own. */
const other = sheet
	.replace(/^name: .*$/m, 'name: Other cart')
	.replace('name: Grey epoxy primer', 'name: Red epoxy primer');

/** Begins a day of a sheet and leaves it; the marks that it told. */
function cansAfter(home: string, name: string, text: string): Can[] {
	const path = join(home, `${name}.yaml`);
	writeFileSync(path, text);
	const { status, stderr } = run(['spray', path, '--plain'], { home });
	expect([status, stderr]).toEqual([0, '']);
	const days = join(home, 'days');
	const day = readdirSync(days).find(file => file.includes(name) && file.endsWith('.day.jsonl'));
	const [first = ''] = readFileSync(join(days, day ?? ''), 'utf8').split('\n');
	return JSON.parse(first.slice(first.indexOf('{'))).cans;
}

test('a can keeps its mark in the next job, and no other can gets it', () => {
	const home = folder();
	const first = cansAfter(home, 'coffee-cart', sheet);
	const second = cansAfter(home, 'other-cart', other);
	const marks = (cans: readonly Can[]) => cans.map(({ mark }) => mark);
	expect(marks(second).slice(3)).toEqual(marks(first).slice(3));
	for (const mark of marks(second).slice(0, 3)) expect(marks(first)).not.toContain(mark);
});

test('kept marks that cannot be read are told anew, and stop no day', () => {
	const home = folder();
	writeFileSync(join(home, 'can-marks.json'), '{ "a": "not a mark", ');
	expect(
		cansAfter(home, 'coffee-cart', sheet)
			.map(({ mark }) => mark)
			.slice(0, 3),
	).toEqual(['ring', 'cross', 'bars']);
});
