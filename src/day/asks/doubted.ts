import type { Prompt } from '../prompt.ts';

/** Numbers that can hardly be meant: a slip of a figure, or another unit. */

/** No reading is so far off: one further from what is wanted, either way, is a slip or in another unit. This project's own choice. */
const believed = 8;

/** Whether a reading is near enough to what is wanted to be meant; both in one unit. */
export const isBelieved = (read: number, wanted: number): boolean =>
	read >= wanted / believed && read <= wanted * believed;

/**
 * A number that can hardly be meant is asked for once more, and nothing is recorded of it; the same figure keyed again is
 * believed, and a third one is asked for from the start.
 * @param doubts whether a number in the unit on the screen can hardly be meant
 * @param why what is said of it then, in its unit
 * @param read the one that is asked again
 */
export function askedAgain(
	prompt: Prompt,
	doubts: (value: number) => boolean,
	why: (read: string) => string = read => `Read ${read}? Look again, and key what you see.`,
	read?: number,
): Prompt {
	const { number, lines = [] } = prompt;
	if (!number) return prompt;
	const { unit, reply } = number;
	const shown = `${read}${unit === '%' ? '' : ' '}${unit}`;
	return {
		...prompt,
		...(read !== undefined && { lines: [why(shown), ...lines] }),
		number: {
			...number,
			reply: value => {
				if (value === read || !doubts(value)) return reply(value);
				return read === undefined ? { next: () => askedAgain(prompt, doubts, why, value) } : { back: true };
			},
		},
	};
}
