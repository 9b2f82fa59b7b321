import { expect, test } from 'vitest';
import { explained } from '../../../src/job/asking/explained.ts';
import { questionsOf } from '../../../src/job/data-sheet.ts';
import { readShelf, shelfKinds } from '../../../src/job/shelf.ts';
import { shelf as folder } from '../chairs/long-form.ts';
import { answered, written } from './answered.ts';
import { fromEmpty } from './from-empty.ts';

const empty = { ...readShelf(folder), files: [] };

test('? explains any question in one line of at most 15 words, and the question stands as it was', () => {
	const left = fromEmpty['eight chairs'];
	const at = { nth: 0, isAsked: false };
	const { outcome, put } = answered(empty, ({ wrong }) => {
		at.isAsked = !at.isAsked;
		return at.isAsked && wrong === null ? '?' : (left[at.nth++] ?? '');
	});
	const told = put.filter(({ wrong }) => wrong !== null);
	expect(told).toHaveLength(left.length);
	for (const { question, wrong } of told)
		expect([question, wrong]).toEqual([question, expect.stringMatching(/^(?:\S+ ){4,14}\S+[.]$/)]);
	const straight = [...left];
	const plain = answered(empty, () => straight.shift() ?? '');
	expect(written(outcome).text).toBe(written(plain.outcome).text);
});

test('every line of a data sheet has an explanation of its own', () => {
	for (const kind of shelfKinds)
		expect(Object.keys(explained[kind]).toSorted()).toEqual(
			questionsOf[kind].map(({ key }) => key).toSorted(),
		);
	const all = shelfKinds.flatMap(kind => Object.values(explained[kind]));
	expect(new Set(all).size).toBe(all.length);
});
