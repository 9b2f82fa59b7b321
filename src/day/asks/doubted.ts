import type { Prompt } from '../prompt.ts';

/** Numbers that can hardly be meant: a slip of a figure, or another unit. */

/** No reading is so far off: one further from what is wanted, either way, is a slip or in another unit. This project's own choice. */
const believed = 8;

/** Whether a reading is near enough to what is wanted to be meant; both in one unit. */
export const isBelieved = (read: number, wanted: number): boolean =>
	read >= wanted / believed && read <= wanted * believed;

/**
 * A number that can hardly be meant is asked for once more, and nothing is recorded of it; a figure keyed twice is
 * believed.
 * @param doubts whether a number in the unit on the screen can hardly be meant
 * @param why what is said of it then, in its unit
 * @param reads those that were doubted
 */
export function askedAgain(
	prompt: Prompt,
	doubts: (value: number) => boolean,
	why: (read: string) => string = read => `Read ${read}? Look again, and key what you see.`,
	reads: readonly number[] = [],
): Prompt {
	const { number, lines = [] } = prompt;
	if (!number) return prompt;
	const { unit, reply } = number;
	const read = reads.at(-1);
	const shown = `${read}${unit === '%' ? '' : ' '}${unit}`;
	return {
		...prompt,
		...(read !== undefined && { lines: [why(shown), ...lines] }),
		number: {
			...number,
			reply: value =>
				reads.includes(value) || !doubts(value)
					? reply(value)
					: { next: () => askedAgain(prompt, doubts, why, [...reads, value]) },
		},
	};
}
