import { type Entry, type Placed, written } from './fields.ts';
import type { Face, Stroke } from './job.ts';
import type { FaceEntry, faceShape } from './part-keys.ts';
import type { Held, ShapeRead } from './shape-words.ts';

/** The faces that a shape has, with attitude and stroke as the part is held: what is written beside it is not derived. */

type Derived = Entry<typeof faceShape>['values'];
type Sizes = [number, number];

/** The longer way of a broad side; the fan lies across it. */
const longerWay = ([width, height]: Sizes, attitude: Face['attitude']): Stroke => {
	if (width >= height) return 'side-to-side';
	return attitude === 'upright' ? 'up-and-down' : 'to-and-fro';
};

type Side = { name: string; attitude: Face['attitude']; size: Sizes; turned?: boolean; after?: string[] };

const side = ({ name, attitude, size, turned, after }: Side, at: number): Derived => ({
	face: { value: name, at },
	attitude,
	...(attitude !== 'upright' && { 'near edge': 'front edge' }),
	...(turned !== undefined && { 'turned over': turned }),
	stroke: longerWay(size, attitude),
	tilt: 0,
	size,
	...(after && { after: after.map(value => ({ value, at })) }),
});

/** Two broad sides and the edges around them. On points one side looks up now, the rest once the part is turned over. */
function slab(names: [string, string], [width, height, thick]: number[], held: Held, at: number): Derived[] {
	const broad: Sizes = [width ?? 0, height ?? 0];
	const round_mm = 2 * (broad[0] + broad[1]);
	const lies = held === 'on points';
	const attitude = lies ? 'flat' : 'upright';
	const edges: Sizes = lies || broad[0] >= broad[1] ? [round_mm, thick ?? 0] : [thick ?? 0, round_mm];
	return [
		side({ name: names[0], attitude, size: broad, ...(lies && { turned: false }) }, at),
		side({ name: 'edges', attitude: 'upright', size: edges, ...(lies && { turned: true }) }, at),
		side({ name: names[1], attitude, size: broad, ...(lies && { turned: true }), after: ['edges'] }, at),
	];
}

/** Sides up and down, corners first; the bottom is reached where the box hangs, or is turned over. */
function box(
	[width, height, depth]: number[],
	{ open }: { open: boolean },
	held: Held,
	at: number,
): Derived[] {
	const round: Sizes = [2 * ((width ?? 0) + (depth ?? 0)), height ?? 0];
	const floor: Sizes = [width ?? 0, depth ?? 0];
	const sides: Derived = {
		...side({ name: 'sides', attitude: 'upright', size: round }, at),
		stroke: 'up-and-down',
		corners: true,
	};
	const top = side({ name: 'top', attitude: 'flat', size: floor, after: ['sides'] }, at);
	const bottom = side(
		{
			name: 'bottom',
			...(held === 'on points'
				? { attitude: 'flat' as const, turned: true }
				: { attitude: 'underside' as const }),
			size: floor,
		},
		at,
	);
	return [sides, ...(open ? [] : [top]), ...(held === 'standing' ? [] : [bottom])];
}

/** A front, and where its thickness is said the edges around it; the back is not seen. */
function rail([long = 0, wide = 0, thick]: number[], held: Held, at: number): Derived[] {
	const attitude = held === 'on points' ? 'flat' : 'upright';
	const round: Sizes = [2 * (long + wide), thick ?? 0];
	return [
		...(thick === undefined ? [] : [side({ name: 'edges', attitude: 'upright', size: round }, at)]),
		side(
			{ name: 'front', attitude, size: [long, wide], ...(thick !== undefined && { after: ['edges'] }) },
			at,
		),
	];
}

/**
 * A bowl, sprayed round and round: a cap of a sphere outside and inside, π (r² + depth²), and its rim where that is said to be
 * so thick. On points it stands mouth down, and is turned over for what looks down then.
 */
function bowl([across = 0, depth = 0, thick]: number[], held: Held, at: number): Derived[] {
	const round_mm = Math.PI * across;
	const cap: Sizes = [round_mm, (across ** 2 / 4 + depth ** 2) / across];
	const turned = held === 'on points' ? { turned: true } : {};
	const within = held === 'hanging' ? 'upright' : 'flat';
	const all: Side[] = [
		{ name: 'outside', attitude: 'upright', size: cap },
		...(thick === undefined
			? []
			: [{ name: 'rim', attitude: 'upright' as const, size: [round_mm, thick] as Sizes, ...turned }]),
		{ name: 'inside', attitude: within, size: cap, ...turned },
	];
	return all.map(one => ({ ...side(one, at), stroke: 'side-to-side' }));
}

/** A fan on a tube is at most three times as high as the tube is thick. This project's own choice. */
const highestFan = 3;

/** Round or square stuff in pieces, along each of them. */
function sticks(name: string, { thick_mm, girth_mm, long_mm, piece_mm }: Sticks, fan_mm: number, at: number) {
	const face: Derived = {
		face: { value: name, at },
		attitude: 'upright',
		stroke: 'up-and-down',
		tilt: 0,
		area: Number(((girth_mm * long_mm) / 1e6).toPrecision(6)),
		strip: [thick_mm, Math.min(piece_mm, long_mm)],
		...(fan_mm > highestFan * thick_mm && { fan: highestFan * thick_mm }),
	};
	return [face];
}
type Sticks = { thick_mm: number; girth_mm: number; long_mm: number; piece_mm: number };

/** From joint to joint of a tube frame, where the sheet says nothing. This project's own choice. */
const usualPiece_mm = 400;

function derive({ shape, sizes_mm, words }: ShapeRead, held: Held, fan_mm: number, at: number): Derived[] {
	const [first = 0, second = 0] = sizes_mm;
	switch (shape) {
		case 'panel':
			return slab(['underside', 'top'], sizes_mm, held, at);
		case 'door both sides':
			return slab(['inside', 'outside'], sizes_mm, held, at);
		case 'box':
			return box(sizes_mm, { open: words.includes('open') }, held, at);
		case 'rail':
			return rail(sizes_mm, held, at);
		case 'bowl':
			return bowl(sizes_mm, held, at);
		case 'rim':
			return [side({ name: 'rim', attitude: 'upright', size: [Math.PI * first, second] }, at)];
		case 'tube frame': {
			const girth_mm = first * (words.includes('square') ? 4 : Math.PI);
			const tubes = { thick_mm: first, girth_mm, long_mm: second, piece_mm: usualPiece_mm };
			return sticks('tubes', tubes, fan_mm, at);
		}
		case 'spindle': {
			const round = { thick_mm: second, girth_mm: second * Math.PI, long_mm: first, piece_mm: first };
			return sticks('round', round, fan_mm, at);
		}
	}
}

export type Shaped = { shape: Placed<ShapeRead>; held: Held; fan_mm: number; name: string };

/** The faces of a part by its shape, but for those that are written out beside it, which stand in their place. */
export function facesOfShape(shaped: Shaped, own: readonly FaceEntry[]): FaceEntry[] {
	const { shape, held, fan_mm, name } = shaped;
	const derived = derive(shape.value, held, fan_mm, shape.at).map(
		(values): FaceEntry => written(values, shape.at, `${name}, face ${values.face?.value}`),
	);
	const nameOf = ({ values }: FaceEntry) => values.face?.value;
	const isDerived = new Set(derived.map(nameOf));
	return [
		...derived.map(face => own.find(one => nameOf(one) === nameOf(face)) ?? face),
		...own.filter(face => !isDerived.has(nameOf(face))),
	];
}
