/** A, B … Z, AA, AB …: the letter of the nth batch of a job. */
export const letterOf = (count: number): string =>
	count <= 26
		? String.fromCharCode(64 + count)
		: letterOf(Math.floor((count - 1) / 26)) + letterOf(((count - 1) % 26) + 1);

/** The place of a letter among the batches of a job, from 1. */
export const letterNumber = (letter: string): number =>
	[...letter].reduce((sum, char) => sum * 26 + char.charCodeAt(0) - 64, 0);
