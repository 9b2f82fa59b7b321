import * as z from 'zod/mini';

/** The five lists that the day asks, each a file under `checklists/`. */
export const listNameSchema = z.enum(['before-spraying', 'mixing', 'gun-check', 'after-a-break', 'clean-up']);
export type ListName = z.infer<typeof listNameSchema>;

export const listAnswerSchema = z.object({
	code: z.string().check(z.minLength(1)),
	/** What the corner shows; a few capitals. */
	text: z.string().check(z.minLength(1)),
	/** Whether the item is closed by this answer. `unless-isocyanate`: only for materials without isocyanate. */
	passes: z.enum(['yes', 'no', 'unless-isocyanate']),
	/** What of it the corner of a pair shows, where there is not room for all of it. */
	short: z.optional(z.string().check(z.minLength(1))),
});

export const listItemSchema = z.object({
	/** Stable word, e.g. `mask`, `extractor`, `earth`. */
	code: z.string().check(z.regex(/^[a-z][a-z0-9-]*$/)),
	/** What is asked, at most 12 words; null: it is asked by its forms alone. */
	say: z.nullable(z.string().check(z.minLength(1))),
	/**
	 * The other ways in which the program asks an item of its own, by their codes. A list of an older day has none; what
	 * was asked then stands in `list-words.ts`.
	 */
	forms: z.optional(z.record(z.string(), z.string().check(z.minLength(1)))),
	/** Shown small below, on request. */
	why: z.nullable(z.string()),
	/** Left out where the program supplies the answers (batch letter, gauge, second feature, pattern, can, level). */
	answers: z.nullable(z.array(listAnswerSchema).check(z.minLength(1), z.maxLength(4))),
	/** An open item that may be passed over with a reason that is logged. */
	overridable: z.boolean(),
	/** The item behind it that is seen by the same look: both are answered by one key. */
	pair: z.optional(z.string()),
});
export type ListItem = z.infer<typeof listItemSchema>;

export const checklistSchema = z.object({
	list: listNameSchema,
	title: z.string(),
	items: z.array(listItemSchema).check(z.minLength(1)),
});
/** One list in force: the built-in items and what the shop has added. */
export type Checklist = z.infer<typeof checklistSchema>;
