import { createInterface } from 'node:readline';
import type { Question } from '../job/asking/question.ts';
import { inert } from '../job/inert.ts';
import type { Io } from './command.ts';

/** The next line typed; null: there are no more. */
export type NextLine = () => Promise<string | null>;

/** Does something with the lines typed, and then lets go of them: a terminal that is read on keeps a program alive. */
export async function withLines<T>(io: Io, work: (next: NextLine) => Promise<T>): Promise<T> {
	const input = createInterface({ input: io.stdin ?? process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
	const lines = input[Symbol.asyncIterator]();
	try {
		return await work(async () => {
			const next = await lines.next();
			return next.done ? null : next.value.trim();
		});
	} finally {
		input.close();
	}
}

/** Words of a question, what is wrong with the last answer first. */
function* wordsOf({ wrong, shown = [], say, like, choices, offered, may }: Question, place: string) {
	if (wrong !== null) yield `  ${wrong}`;
	yield* shown.map(line => `  ${line}`);
	const asIn = like === undefined ? '' : ` As in: ${like}`;
	const enter = offered !== undefined ? ` (Enter: ${offered})` : may ? ' (Enter: leave it out)' : '';
	yield `${place}  ${say}${asIn}${enter}`;
	yield* (choices ?? []).map((choice, nth) => `  ${nth + 1}  ${choice}`);
}

/** Puts a question: lines of text, or one object. `at`: its number, from 1. */
export function putQuestion(asked: Question, at: number, io: Io, isJson: boolean): void {
	const { wrong, means: _, may = false, ahead, ...words } = asked;
	const of = at + ahead;
	const data = { ...words, may, at, of, ...(wrong !== null && { wrong }) };
	const text = [...wordsOf(asked, `${at} of ${of}`)].map(inert).join('\n');
	io.stdout.write(isJson ? `${JSON.stringify(data)}\n` : `${text}\n`);
}
