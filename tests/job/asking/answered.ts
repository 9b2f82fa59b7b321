import { afterLine, atQuestion, type Begin } from '../../../src/job/asking/at-question.ts';
import type { Asked, Outcome } from '../../../src/job/asking/ending.ts';
import { interview } from '../../../src/job/asking/interview.ts';
import type { Question } from '../../../src/job/asking/question.ts';
import type { Shelf } from '../../../src/job/shelf.ts';

/** Whoever answers: the question, and how often it was put before. */
export type Answerer = (question: Question, tries: number) => string;

export const askedOf = (shelf: Shelf): Asked => ({
	shelf,
	morning: '2027-03-02 08:00',
	planned: (_, start) => [`begins ${start}`],
	usual: job => (job.gun.assumed ?? []).map(one => `gun: ${one} usual, not measured`),
});

/** Answers every question; at most so many, then it has come to no end. */
export function answered(shelf: Shelf, answer: Answerer, most = 400) {
	return answeredAll(() => interview(askedOf(shelf)), answer, most);
}

/** … of any questions that end in a sheet. */
export function answeredAll(begin: Begin, answer: Answerer, most: number) {
	const put: Question[] = [];
	let at = atQuestion(begin, []);
	for (let tries = 0; put.length < most && !at.step.done; ) {
		const question = at.step.value;
		tries = question.wrong === null ? 0 : tries + 1;
		put.push(question);
		at = afterLine(begin, at, answer(question, tries));
	}
	return { outcome: at.step.done ? at.step.value : undefined, put, taken: at.taken };
}

/** Answers one after another. */
export const inOrder = (answers: readonly string[]): Answerer => {
	const left = [...answers];
	return () => left.shift() ?? '';
};

/** The sheet of an outcome; fails where there is none. */
export function written(outcome: Outcome | undefined) {
	if (!outcome || 'backTo' in outcome) throw new Error('no sheet was written');
	return outcome;
}

/** Eight chairs over three days, from the shelf of the Pump Yard workshop. */
export const chairs = [
	...['Eight garden chairs', '8 x frame', 'tube frame', '20 mm tube, 8 m', 'hanging'],
	...['8 x seat', 'panel', '40 x 38 x 3 cm', 'on points', ''],
	...['grey epoxy', 'all', '2 full', 'large', 'moss green satin', 'frame, seat underside', 'tack, full', ''],
	...['', 'yes', 'seat top: tack, 2 full', '', 'as offered', '', 'WRITE'],
];
