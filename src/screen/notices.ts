import type { EntryRefusal } from './keys/entry.ts';
import type { GuardNotice } from './keys/guard.ts';

export type NoticeCode = GuardNotice | EntryRefusal | 'paste' | 'no-answer-there' | 'let-go';

/** What the screen says of a key that did not count. Short enough for the narrowest screen. */
export const noticeTexts: Record<NoticeCode, string> = {
	'two-blocks': 'two keys at once: none counted',
	'too-soon': 'too soon: look, then press again',
	'after-stall': 'late key dropped: press again',
	paste: 'a paste is no answer',
	'no-answer-there': 'nothing in that corner',
	'let-go': 'not confirmed: let go',
	empty: 'type a number first',
	'no-words': 'type the reason first',
	'not-a-number': 'not a number yet',
	'too-low': 'too low for this: type again',
	'too-high': 'too high for this: type again',
};

/** How long a notice stands, ms. */
export const noticeStands_ms = 4000;
