import type { Outcome } from './ending.ts';
import type { Asking, Question } from './question.ts';

/** The questions of a sheet, from the first. */
export type Begin = () => Asking<Outcome>;

/** Where they have come to: the answers taken, and what follows from them. */
export type AtQuestion = {
	taken: readonly string[];
	step: IteratorResult<Question, Outcome>;
	/** Answers on; each place is answered once. */
	next(answer: string): IteratorResult<Question, Outcome>;
};

const isTaken = (step: IteratorResult<Question, Outcome>): boolean =>
	step.done === true || step.value.wrong === null;

/** After some answers, as far as each of them still answers a question. */
export function atQuestion(begin: Begin, answers: readonly string[]): AtQuestion {
	const asking = begin();
	const next = (answer: string) => asking.next(answer);
	const taken: string[] = [];
	let step = asking.next();
	for (const answer of answers) {
		if (step.done) break;
		const question = step.value;
		step = asking.next(answer);
		if (!isTaken(step)) return { taken, step: { done: false, value: question }, next };
		taken.push(answer);
	}
	return { taken, step, next };
}

/** After one more line: an answer, or `back` to the question before. */
export function afterLine(begin: Begin, { taken, next }: AtQuestion, line: string): AtQuestion {
	if (line === 'back') return atQuestion(begin, taken.slice(0, -1));
	const step = next(line);
	if (step.done && step.value !== null && 'backTo' in step.value)
		return atQuestion(begin, taken.slice(0, step.value.backTo - 1));
	return { taken: isTaken(step) ? [...taken, line] : taken, step, next };
}
