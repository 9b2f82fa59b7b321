/** A question as it is put, line by line or as data; `wrong` says why the answer before could not be used. */
export type Question = {
	/** What it is for, the same in every language and version. */
	question: string;
	say: string;
	/** What it is for, in one line: told where `?` is answered. */
	means: string;
	/** How an answer is written. */
	like?: string;
	/** Of these, by word or by number. */
	choices?: readonly string[];
	/** Taken by an empty answer. */
	offered?: string;
	/** An empty answer leaves it out. */
	may?: true;
	/** What to look at before it is answered. */
	shown?: readonly string[];
	/** The fewest questions that follow. */
	ahead: number;
	wrong: string | null;
};
export type Put = Omit<Question, 'wrong'>;

export type Read<T> = { is: T } | { wrong: string };
/** Questions one after another, each put again until its answer can be used. */
export type Asking<T> = Generator<Question, T, string>;

/** Puts one question until it is answered. An empty answer is the offered one; `?` has it explained. */
export function* ask<T>(put: Put, read: (answer: string) => Read<T>): Asking<T> {
	for (let wrong: string | null = null; ; ) {
		const given: string = yield { ...put, wrong };
		const answer = given.trim();
		if (answer === '?') {
			wrong = put.means;
			continue;
		}
		const found = read(answer === '' ? (put.offered ?? '') : answer);
		if ('is' in found) return found.is;
		wrong = found.wrong;
	}
}

/** The choice that an answer means: its word, whatever its capitals, or its number. */
export const choiceOf = (choices: readonly string[], answer: string): string | undefined =>
	choices.find(one => one === answer) ??
	choices.find(one => one.toLowerCase() === answer.toLowerCase()) ??
	(/^\d{1,3}$/.test(answer) ? choices[Number(answer) - 1] : undefined);
