import type { Question } from '../../../src/job/asking/question.ts';
import { parseJob } from '../../../src/job/load.ts';
import { notesOf } from '../../../src/job/notes.ts';
import { readShelf, type Shelf } from '../../../src/job/shelf.ts';
import { answered, type written } from '../../job/asking/answered.ts';
import { chanceOf } from '../keys/chance.ts';
import { byChance } from './by-chance.ts';

/** Interviews for a new sheet, answered by chance: whatever is answered, a sheet that is written has nothing wrong with it. */

export type AnyAnswers = {
	interviews: number;
	questions: number;
	/** Written at the end; the others were left, or came to no end. */
	sheets: number;
	/** Ways in which questions were answered, each once a share. */
	ways: string[];
	says: string[];
};
export const noAnswers: AnyAnswers = { interviews: 0, questions: 0, sheets: 0, ways: [], says: [] };

const filled = readShelf('tests/job/chairs/shelf');
const empty: Shelf = { ...filled, files: [] };

/** An interview of more questions has come to no end. */
const mostQuestions = 250;
/** So many interviews bring at least one sheet. */
const perSheet = 8;

/** What is wrong is said where it is answered, never at the end. */
const saidLate = (put: readonly Question[]): string[] =>
	put
		.filter(({ question, offered }) => question === 'write' && offered !== 'WRITE')
		.flatMap(({ shown = [] }) => `said at the end alone: ${shown[0]}`);

function wrongIn(outcome: ReturnType<typeof written>, shelf: Shelf): string[] {
	const { text, lacking } = outcome;
	const isShopNew = lacking.some(({ kind }) => kind === 'shop');
	const files = shelf.files.filter(({ kind }) => kind !== 'shop' || !isShopNew);
	const loaded = parseJob(text, 'new.yaml', () => ({ ...shelf, files: [...files, ...lacking] }));
	if (!loaded.ok) return loaded.errors.map(({ line, says }) => `line ${line}: ${says}\n${text}`);
	notesOf(loaded.job, loaded.job.units);
	return [];
}

/**
 * Interviews until so many sheets are written.
 * @param share numbered from 0: another one has other answers
 */
export function interviewsOn(share: number, sheets: number): AnyAnswers {
	const done = { ...noAnswers, says: [] as string[] };
	const ways = new Set<string>();
	while (done.sheets < sheets && done.says.length < 10) {
		const seed = share * 1_000_003 + done.interviews++;
		const shelf = seed % 4 === 0 ? empty : filled;
		const { outcome, put } = answered(shelf, byChance(chanceOf(seed), ways), mostQuestions);
		done.questions += put.length;
		const isSheet = outcome && !('backTo' in outcome);
		const wrong = [...saidLate(put), ...(isSheet ? wrongIn(outcome, shelf) : [])];
		done.says.push(...wrong.map(says => `share ${share}, interview ${done.interviews}: ${says}`));
		if (isSheet) done.sheets++;
		if (done.interviews > perSheet * sheets)
			done.says.push(`share ${share}: hardly an interview ends in a sheet`);
	}
	return { ...done, ways: [...ways] };
}
