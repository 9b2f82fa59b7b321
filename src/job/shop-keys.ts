import * as z from 'zod/mini';
import { map, may, must, placed, value } from './fields.ts';
import { some_ } from './or-line.ts';
import { name, quantity } from './values.ts';

/** The keys of a shop. */

export const ofShop = {
	air: must(value(quantity('temperature'))),
	humidity: must(
		value(quantity('share').check(z.refine(part => part >= 0.01, { message: 'allowed: 1% to 100%' }))),
	),
	clearance: may(map({ time: must(some_('time')), measured: must(value(name)) })),
	day: may(some_('time')),
	'largest pot': may(some_('volume')),
};
export const shopShape = { ...ofShop, 'extractor at': may(placed(value(name))) };
export const units = value(z.enum(['us', 'metric']));
