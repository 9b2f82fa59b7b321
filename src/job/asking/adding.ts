import { type Asked, linesOf, questionsOf } from '../data-sheet.ts';
import type { ShelfKind } from '../shelf.ts';
import { explained } from './explained.ts';
import { type Asking, ask, type Read } from './question.ts';

/** The lines that one question gives; null: no more of them, or none. What is not on the data sheet stays to be seen. */
function* linesFor(kind: ShelfKind, question: Asked, ahead: number): Asking<string[]> {
	const { key, say, like, may, again } = question;
	const means = explained[kind][key] ?? say;
	const put = { question: key, say, means, like, ...(may && { may }), ahead };
	for (const lines: string[] = []; ; ) {
		const read = (answer: string): Read<string | null> => {
			if (answer === '-') return { is: `# not on the sheet: ${key}` };
			if (answer === '' && (may || lines.length > 0)) return { is: null };
			const found = linesOf(kind, question, answer);
			return 'wrong' in found ? found : { is: found.lines };
		};
		const given = yield* ask(put, read);
		if (given === null) return lines;
		lines.push(lines.length > 0 ? given.replace(/^[^\n]*\n/, '') : given);
		if (!again || given.startsWith('#')) return lines;
	}
}

/**
 * Asks for the lines of a thing of the shelf, in their order.
 * @param name its first line, as `nameLine` makes it
 * @param job that it is wanted for, and whether parts of it are turned over; left out, it is asked for by itself
 * @returns every line of its file
 */
export function* adding(kind: ShelfKind, name: string, job?: { turns?: boolean }): Asking<string[]> {
	const questions = questionsOf[kind].filter(
		({ turned, alone }) => (job?.turns || !turned) && !(job && alone),
	);
	const lines = [name];
	for (const [nth, question] of questions.entries()) {
		if (question.where && !question.where(lines)) continue;
		lines.push(...(yield* linesFor(kind, question, questions.length - 1 - nth)));
	}
	return lines;
}
