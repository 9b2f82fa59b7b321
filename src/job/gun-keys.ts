import * as z from 'zod/mini';
import { type Entry, map, may, must, value, wholeList } from './fields.ts';
import { unmeasuredFlow } from './on-work.ts';
import { orLine, some_ } from './or-line.ts';
import {
	cupKinds,
	cupLine,
	flowWithin,
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

export const gunShape = {
	pressure: must(value(writtenIn('pressure', ['bar', 'psi', 'kPa']))),
	fan: must(some_('length')),
	'fan depth': may(some_('length')),
	feather: may(wholeList(value(plainNumber(1, 10)))),
	distance: may(some_('length')),
	overlap: may(
		value(quantity('share').check(z.refine(part => part <= 0.9, { message: 'allowed: up to 90%' }))),
	),
	flow: must(value(flowWithin(unmeasuredFlow))),
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
};
export type GunEntry = Entry<typeof gunShape>;
