import type { Moment } from './moment.ts';
import type { DayEvent } from './records.ts';

/** A list is begun, with the items that the day was opened with. */
export const beginList = ({ state: { book } }: Moment, list: 'before-spraying' | 'clean-up'): DayEvent => ({
	type: 'check.began',
	check: book.checks + 1,
	list,
	size: null,
	items: book.opened.lists.find(one => one.list === list)?.items.map(({ code }) => code) ?? [],
	face: null,
	coat: null,
});
