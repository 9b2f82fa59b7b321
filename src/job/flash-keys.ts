import { isMap, isScalar, isSeq } from 'yaml';
import type * as z from 'zod/mini';
import type { TimeAt } from '../trade/time.ts';
import { type Entry, map, may, must, type Reader, value, wholeList, written } from './fields.ts';
import { type CoatKind, coatKindSchema } from './job.ts';
import { orLine, some_ } from './or-line.ts';
import { quantity, timeAt, waitAt, word } from './values.ts';

/** The flash of a material, of a kind of coat, or of each kind in a line. */

export const points = wholeList(value(timeAt), 1);
/** One time, or a list of times at temperatures: only a list is a clock of its own. */
export const orPoints =
	<T>(read: Reader<T>): Reader<T | TimeAt[]> =>
	(source, node, what, at) =>
		(isSeq(node) ? points : read)(source, node, what, at);

const flashShape = {
	from: must(orPoints(some_('time'))),
	to: may(orPoints(some_('time'))),
	at: may(value(quantity('temperature'))),
};
export type FlashEntry = Entry<typeof flashShape>;
type WaitAt = z.output<typeof waitAt>;
const flashTimes = ({ from_s, to_s, at_C }: WaitAt) => ({
	...{ from: from_s, at: at_C },
	...(to_s !== null && { to: to_s }),
});
/** The flash of a kind of coat. */
export const flashOfKindRead = orLine(flashShape, waitAt, flashTimes);

const touch = may(wholeList(value(word({ tacky: 'tacky', dry: 'dry' })), 1));
const touchedShape = { ...flashShape, touch };
const kindsShape = {
	...{ tack: may(flashOfKindRead), medium: may(flashOfKindRead), full: may(flashOfKindRead) },
	touch,
};
const kinds = coatKindSchema.options;
const isKind = (word: string): word is CoatKind => kinds.some(kind => kind === word);

type Touched = Entry<typeof touchedShape>;
/** … with the flash of each kind, where they are written one by one. */
export type MaterialFlash = Touched & { kinds?: Entry<typeof kindsShape> };

const flashOfAll: Reader<Touched> = orLine(touchedShape, waitAt, flashTimes);

/** Of kinds written one by one the heaviest stands for the material. */
export const flashRead: Reader<MaterialFlash> = (source, node, what, at) => {
	const isByKind = isMap(node) && node.items.some(({ key }) => isScalar(key) && isKind(String(key)));
	if (!isByKind) return flashOfAll(source, node, what, at);
	const each = map(kindsShape)(source, node, what, at);
	const heaviest = kinds.toReversed().find(kind => each?.values[kind]);
	const flash = heaviest && each?.values[heaviest];
	if (!each || !flash) return undefined;
	const touched = each.values.touch;
	const values = { ...flash.values, ...(touched && { touch: touched }) };
	return { ...written<typeof touchedShape>(values, flash.at, each.name), kinds: each };
};
