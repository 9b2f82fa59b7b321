import * as z from 'zod/mini';
import { type Entry, list, map, may, must, placed, value, wholeList } from './fields.ts';
import { coatKindSchema } from './job.ts';
import { unmeasuredFlow } from './on-work.ts';
import { orLine, some_ } from './or-line.ts';
import {
	cupKinds,
	cupLine,
	fanLine,
	flowWithin,
	key,
	name,
	orNone,
	plainNumber,
	quantity,
	range,
	shareWithin,
	word,
	writtenIn,
} from './values.ts';

/** The keys of a gun. */

const cupShape = {
	holds: must(some_('volume')),
	kind: must(value(z.enum(cupKinds))),
	tilted: may(value(word({ pours: 'pours', drips: 'drips', starves: 'starves' })), 'pours' as const),
};
/** A cup by its keys, or in a line: `600 mL gravity`. */
const cupRead = orLine(cupShape, cupLine, cup => cup);

const pressure = may(value(writtenIn('pressure', ['bar', 'psi', 'kPa'])));
const flow = value(flowWithin(unmeasuredFlow));
/** How a gun is set for a material, or for one kind of its coats, as it was measured with that paint. */
const setUpShape = {
	for: must(placed(value(key))),
	coat: may(value(coatKindSchema)),
	pressure,
	fan: must(value(fanLine)),
	paint: must(flow),
	measured: may(value(name)),
};
export type SetUpEntry = Entry<typeof setUpShape>;

export const gunShape = {
	tip: may(some_('length')),
	pressure,
	fan: may(some_('length')),
	'fan depth': may(some_('length')),
	feather: may(wholeList(value(plainNumber(1, 10)))),
	distance: may(some_('length')),
	overlap: may(
		value(quantity('share').check(z.refine(part => part <= 0.9, { message: 'allowed: up to 90%' }))),
	),
	flow: may(flow),
	speed: may(some_('speed')),
	speeds: may(value(range('speed'))),
	transfer: may(value(shareWithin(0.05, 0.1))),
	lead: may(value(quantity('length'))),
	turn: may(value(quantity('time'))),
	trigger: may(value(word({ released: false, held: true }))),
	'first line': may(value(z.enum(['on the edge', 'half in']))),
	losses: may(
		map({
			strainer: may(value(orNone('volume'))),
			pot: may(value(orNone('volume'))),
			gun: may(value(orNone('volume'))),
			burst: may(value(quantity('time'))),
		}),
	),
	cup: must(cupRead),
	'set-ups': may(list(map(setUpShape), 1)),
};
export type GunEntry = Entry<typeof gunShape>;
