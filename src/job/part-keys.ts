import { isScalar } from 'yaml';
import * as z from 'zod/mini';
import { substrates } from '../film/own-cooling.ts';
import { nearest } from '../trade/nearest.ts';
import {
	type Entry,
	type Label,
	list,
	map,
	may,
	must,
	offsetOf,
	type Placed,
	placed,
	type Reader,
	value,
} from './fields.ts';
import { brief } from './inert.ts';
import { some_ } from './or-line.ts';
import { heldRead, ownShape, type ShapeRead, shapeRead } from './shape-words.ts';
import { complain, fromText, key, name, size, some, wholeNumber, word, yesOrNo } from './values.ts';

/** The keys of a part and of its faces. */

const tilt = fromText((text, ctx): -90 | 0 | 90 => {
	const known: Record<string, -90 | 0 | 90> = { none: 0, left: 90, right: -90 };
	const degrees = /^([+\-−]?\d+(?:\.\d+)?)\s*(?:°|degrees|deg)$/.exec(text)?.[1]?.replace('−', '-');
	const found = Object.hasOwn(known, text) ? known[text] : Number(degrees) + 0;
	if (found === 0 || found === 90 || found === -90) return found;
	const slanted = degrees === undefined ? '' : 'the fan would stand neither upright nor flat; ';
	const message = `${slanted}allowed: none, left (90°), right (-90°)`;
	return complain(ctx, message);
});

const strokes: Record<string, 'side-to-side' | 'up-and-down' | 'to-and-fro'> = {
	'side to side': 'side-to-side',
	'up and down': 'up-and-down',
	'to and fro': 'to-and-fro',
};
const stroke = fromText((text, ctx) => {
	const found = Object.hasOwn(strokes, text) ? strokes[text] : undefined;
	if (found) return found;
	const slanted = /°|deg|slant|diagonal/.test(text) ? 'the fan would be wanted at neither 0° nor 90°; ' : '';
	const message = `${slanted}allowed: ${Object.keys(strokes).join(', ')}; nearest: ${nearest(text, Object.keys(strokes))}`;
	return complain(ctx, message);
});

const substrate = may(value(z.enum(substrates)));
export const faceShape = {
	face: must(placed(value(key))),
	attitude: must(value(word({ upright: 'upright', flat: 'flat', underside: 'underside' }))),
	'near edge': may(value(name)),
	'turned over': may(value(yesOrNo)),
	stroke: must(value(stroke)),
	crosswise: may(list(placed(value(wholeNumber(1, 99))))),
	tilt: may(value(tilt), 0 as const),
	area: may(value(some('area'))),
	size: may(value(size)),
	strip: may(value(size)),
	corners: may(value(word({ first: true }))),
	fan: may(some_('length')),
	substrate,
	after: may(list(placed(value(name)))),
};
export type FaceEntry = Entry<typeof faceShape>;

const label =
	(what: string): Label =>
	(first, name) =>
		`${name.replace(/(^|, )(parts|faces)$/, '')}, ${what} ${first ?? 'without a name'}`.replace(/^, /, '');
const partShape = {
	part: must(placed(value(key))),
	count: may(value(wholeNumber(1, 1000))),
	place: may(value(wholeNumber(1, 10_000))),
	substrate,
	shape: may(placed(value(shapeRead))),
	held: may(value(heldRead)),
	'hold by': may(value(name)),
	faces: may(list(map(faceShape, label('face')), 1)),
};
export type PartEntry = Entry<typeof partShape>;
export const readSizedPart = map(partShape, label('part'));

/** A shape of the shelf by its name, and why it is no shape with its sizes. */
type NamedShape = { named: string; at: number; wrong: string };
/** A shape with its sizes; one word alone may be one of the shelf. */
const shapeOrName: Reader<Placed<ShapeRead> | NamedShape> = (source, node, what, at) => {
	const text = isScalar(node) ? String(node.value).trim() : '';
	const [read, own] = [shapeRead.safeParse(text), ownShape.safeParse(text)];
	if (read.success || text === '' || !own.success) return placed(value(shapeRead))(source, node, what, at);
	const wrong = `${what}: found "${brief(text)}"; ${read.error.issues[0]?.message}`;
	return { named: own.data, at: offsetOf(node, at), wrong };
};
const writtenPart = { ...partShape, shape: may(shapeOrName) };
export type PartWritten = Entry<typeof writtenPart>;
export const readPart = map(writtenPart, label('part'));

/** A shape of the shelf: one with its sizes, and how a part of it is held. */
export const ofShape = {
	is: must(placed(value(shapeRead))),
	held: partShape.held,
	'hold by': partShape['hold by'],
};
