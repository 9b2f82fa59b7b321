import * as z from 'zod/mini';
import { likeliest } from './other-words.ts';
import { complain, fromText, key, lengthsOf, word } from './values.ts';

/** Shapes of parts, as a sheet writes them: a name, its sizes, and what else there is to say of it. */

/** `more`: one size more may be given, of a narrow face that is else not there. */
type Told = { sizes: number; like: string; words: readonly string[]; means: string; more?: true };
const told = {
	panel: { sizes: 3, like: 'panel, 40 x 38 x 3 cm', words: [], means: 'width, height, how thick' },
	'door both sides': {
		sizes: 3,
		like: 'door both sides, 40 x 72 x 1.9 cm',
		words: [],
		means: 'width, height, how thick',
	},
	box: {
		sizes: 3,
		like: 'box, 40 x 30 x 20 cm',
		words: ['open'],
		means: 'width, height, depth, and "open" without a top',
	},
	'tube frame': {
		sizes: 2,
		like: 'tube frame, 20 mm tube, 8 m',
		words: ['square'],
		means: 'how thick the tube, how long all of it',
	},
	spindle: { sizes: 2, like: 'spindle, 40 x 3 cm', words: [], means: 'length, how thick' },
	rail: { sizes: 2, like: 'rail, 200 x 9 cm', words: [], means: 'length, width', more: true },
	bowl: { sizes: 2, like: 'bowl, 30 x 12 cm', words: [], means: 'across, depth', more: true },
	rim: { sizes: 2, like: 'rim, 40 x 2 cm', words: [], means: 'across, width' },
} as const satisfies Record<string, Told>;

export type ShapeName = keyof typeof told;
export const shapeNames = Object.keys(told) as ShapeName[];
const isShape = (name: string): name is ShapeName => Object.hasOwn(told, name);

/** How the sizes of a shape are written. */
export const sizesLike = (shape: ShapeName): string => told[shape].like.slice(shape.length + 2);

/** What they are, in that order. */
export const sizesMean = (shape: ShapeName): string => told[shape].means;

export type ShapeRead = { shape: ShapeName; sizes_mm: number[]; words: string[] };

/** `panel, 40 x 38 x 3 cm`: sizes in the order that the name has them. */
export const shapeRead = fromText((text, ctx): ShapeRead => {
	const [named = '', ...rest] = text.split(',');
	const shape = named.trim();
	if (!isShape(shape)) {
		const like = likeliest(shape, shapeNames) ?? likeliest(shape.split(' ')[0] ?? '', shapeNames);
		const near = like === undefined || !isShape(like) ? '' : `; nearest: ${like}, as in "${told[like].like}"`;
		return complain(ctx, `allowed: ${shapeNames.join(', ')}${near}`);
	}
	const { sizes, like, words: known, more }: Told = told[shape];
	const [sizes_mm, words]: [number[], string[]] = [[], []];
	let column = named.length + 2;
	for (const piece of rest) {
		const from = column + piece.length - piece.trimStart().length;
		column += piece.length + 1;
		const said = piece.trim().replace(/\s+tube$/, '');
		if (known.includes(said)) words.push(said);
		else sizes_mm.push(...lengthsOf(said, ctx, from));
	}
	if (sizes_mm.length === sizes || (more && sizes_mm.length === sizes + 1)) return { shape, sizes_mm, words };
	return complain(ctx, `${sizes} sizes are wanted, as in "${like}"`);
});

/** A name for a shape of the shop's own, which a sheet cannot take for one with sizes. */
export const ownShape = key.check(
	z.refine(text => !isShape(text) && !text.includes(','), {
		message: 'sheets have this for a shape and its sizes: choose another name',
	}),
);

/** How a part is held: what of it is upright, and what can be reached before it is turned over. */
export const waysHeld = ['standing', 'hanging', 'on points'] as const;
export const heldRead = word({ standing: 'standing', hanging: 'hanging', 'on points': 'on points' });
export type Held = z.output<typeof heldRead>;
