import * as z from 'zod/mini';
import { map, may, must, placed, value } from './fields.ts';
import { some_ } from './or-line.ts';
import { complain, fromText, name, quantity, some, timeOfDay_min } from './values.ts';

/** The keys of a shop. */

/** How long the shop is open, and from when on where that is said: `9 h`, or `07:30 to 17:30`. */
const openRead = fromText((text, ctx): { open_s: number; opens_min?: number } => {
	const [opens = '', closes = ''] = text.split(/\s*(?:[-–]|\bto\b|\buntil\b)\s*/);
	const [opens_min, closes_min] = [timeOfDay_min(opens), timeOfDay_min(closes)];
	if (opens_min !== undefined && closes_min !== undefined)
		return closes_min > opens_min
			? { open_s: (closes_min - opens_min) * 60, opens_min }
			: complain(ctx, 'it closes before it opens');
	const read = some('time').safeParse(text);
	if (read.success) return { open_s: read.data };
	return complain(ctx, 'allowed: from when to when, as in "07:30 to 17:30", or how long, as in "9 h"');
});

export const ofShop = {
	air: must(value(quantity('temperature'))),
	humidity: must(
		value(quantity('share').check(z.refine(part => part >= 0.01, { message: 'allowed: 1% to 100%' }))),
	),
	clearance: may(map({ time: must(some_('time')), measured: must(value(name)) })),
	day: may(value(openRead)),
	'largest pot': may(some_('volume')),
};
export const shopShape = { ...ofShop, 'extractor at': may(placed(value(name))) };
export const units = value(z.enum(['us', 'metric']));
