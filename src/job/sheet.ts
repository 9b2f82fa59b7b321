import { isScalar, isSeq } from 'yaml';
import * as z from 'zod/mini';
import { substrates } from '../film/own-cooling.ts';
import { nearest } from '../trade/nearest.ts';
import type { TimeAt } from '../trade/time.ts';
import type { Source } from './document.ts';
import {
	type Entry,
	type Label,
	list,
	map,
	may,
	must,
	offsetOf,
	type Placed,
	pairsOf,
	placed,
	type Reader,
	type Shape,
	value,
	wholeList,
	written,
} from './fields.ts';
import { brief } from './inert.ts';
import { type CoatKind, coatKindSchema, type Gear, mixStepSchema, prepSchema } from './job.ts';
import { unmeasuredFlow } from './on-work.ts';
import { likeliest } from './other-words.ts';
import { heldRead, shapeRead } from './shape-words.ts';
import {
	complain,
	cupKinds,
	cupLine,
	filmAim,
	flowWithin,
	fromText,
	grit,
	key,
	name,
	orNone,
	plainNumber,
	quantity,
	range,
	shareWithin,
	size,
	some,
	span,
	timeAt,
	waitAt,
	wholeNumber,
	word,
	writtenIn,
	yesOrNo,
} from './values.ts';

/** The keys of a job sheet, as a painter writes them, and how each value is read. */

/** A map by its keys, or all of it in a line. */
const orLine =
	<S extends Shape, T>(
		shape: S,
		line: z.ZodMiniType<T, string>,
		of: (read: T) => Entry<S>['values'],
	): Reader<Entry<S>> =>
	(source, node, what, at) => {
		if (!isScalar(node)) return map(shape)(source, node, what, at);
		const read = value(line)(source, node, what, at);
		return read === undefined ? undefined : written(of(read), offsetOf(node, at), what);
	};

const some_ = (kind: Parameters<typeof some>[0]) => value(some(kind));

const ofShop = {
	air: must(value(quantity('temperature'))),
	humidity: must(
		value(quantity('share').check(z.refine(part => part >= 0.01, { message: 'allowed: 1% to 100%' }))),
	),
	clearance: may(map({ time: must(some_('time')), measured: must(value(name)) })),
	day: may(some_('time')),
};
const shopShape = { ...ofShop, 'extractor at': may(placed(value(name))) };
const units = value(z.enum(['us', 'metric']));

const cupShape = {
	holds: must(some_('volume')),
	kind: must(value(z.enum(cupKinds))),
	tilted: may(value(word({ pours: 'pours', drips: 'drips', starves: 'starves' })), 'pours' as const),
};
/** A cup by its keys, or in a line: `600 mL gravity`. */
const cupRead = orLine(cupShape, cupLine, cup => cup);

const gunShape = {
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

const reducer = fromText((text, ctx): { parts?: number; share?: number } => {
	if (text === 'none') return { parts: 0 };
	const read = /^(\d+(?:\.\d+)?)\s*(%|parts?)$/.exec(text);
	const found = Number(read?.[1]);
	if (!read || found > 200 || (read[2] !== '%' && found > 20)) {
		const message = 'allowed: a share of base and hardener as in "15%", parts as in "1 part", or none';
		return complain(ctx, message);
	}
	return read[2] === '%' ? { share: found / 100 } : { parts: found };
});
export type Reducer = z.output<typeof reducer>;

const ratio = fromText((text, ctx) => {
	const read = /^(\d+(?:\.\d+)?):(\d+(?:\.\d+)?)(?::(\d+(?:\.\d+)?))?\s+by\s+(volume|weight)$/.exec(text);
	const [base, hardener, third] = [Number(read?.[1]), Number(read?.[2]), read?.[3]];
	if (!read || base <= 0 || hardener <= 0 || Math.max(base, hardener, Number(third ?? 0)) > 1000) {
		const message =
			'allowed: base:hardener or base:hardener:reducer, as in "2:1:1 by volume" or "100:18 by weight"';
		return complain(ctx, message);
	}
	const by: 'volume' | 'weight' = read[4] === 'weight' ? 'weight' : 'volume';
	return { by, base, hardener, reducer: third === undefined ? null : Number(third) };
});

const gear = fromText((text, ctx): Gear => {
	if (text === 'supplied air') return { gear: 'supplied-air' };
	const cartridge = /^filter mask with (\S.{0,23})$/.exec(text)?.[1];
	if (cartridge !== undefined) return { gear: 'filter-mask', cartridge };
	const message =
		'allowed: supplied air, or a filter mask with the cartridge that the safety data sheet names, as in "filter mask with A2-P3"';
	return complain(ctx, message);
});

const density = some('density');

const points = wholeList(value(timeAt), 1);
/** One time, or a list of times at temperatures: only a list is a clock of its own. */
const orPoints =
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

const coatShape = {
	film: must(placed(value(filmAim))),
	reducer: may(value(reducer)),
	flash: may(orLine(flashShape, waitAt, flashTimes)),
};
/** A kind of coat by its keys, or by its film alone: `full: 30 µm`. */
const coatRead: Reader<Entry<typeof coatShape>> = (source, node, what, at) => {
	if (!isScalar(node)) return map(coatShape)(source, node, what, at);
	const film = placed(value(filmAim))(source, node, `${what}, film`, at);
	return film && written<typeof coatShape>({ film }, offsetOf(node, at), what);
};

export const windowShape = {
	wait: may(value(span)),
	spray: may(value(span)),
	scuff: may(value(span)),
	sand: may(value(span)),
};

const touchedShape = {
	...flashShape,
	touch: may(wholeList(value(word({ tacky: 'tacky', dry: 'dry' })), 1)),
};

const materialShape = {
	name: may(value(name)),
	isocyanate: must(value(yesOrNo)),
	breathing: may(map({ mixing: may(value(gear)), spraying: may(value(gear)), sanding: may(value(gear)) })),
	ratio: must(value(ratio)),
	reducer: may(value(reducer)),
	density: may(
		map({ base: must(value(density)), hardener: must(value(density)), reducer: may(value(density)) }),
	),
	order: must(wholeList(placed(value(mixStepSchema)), 2)),
	solids: must(value(shareWithin(0.01, 0.02))),
	coats: must(map({ tack: may(coatRead), medium: may(coatRead), full: may(coatRead) })),
	'sags above': must(value(some('film'))),
	'pot life': must(orPoints(value(timeAt))),
	standing: must(orPoints(value(orNone('time')))),
	strainer: must(value(name)),
	flash: must(orLine(touchedShape, waitAt, flashTimes)),
	'wet edge': must(some_('time')),
	'wet the tip': must(some_('time')),
	flush: must(some_('time')),
	recoat: may(
		list(
			map({
				over: must(placed(value(key))),
				surface: must(value(range('temperature'))),
				windows: must(list(map(windowShape), 1)),
			}),
		),
	),
	'sand after': may(list(value(timeAt), 1)),
	grit: may(value(grit)),
	cup: may(
		map({
			kind: must(value(name)),
			runs: must(value(range('time'))),
			at: may(value(quantity('temperature'))),
		}),
	),
	limits: must(
		map({
			air: must(value(range('temperature'))),
			surface: may(value(range('temperature'))),
			paint: may(value(range('temperature'))),
			humidity: must(value(quantity('share'))),
			'over dew point': must(value(quantity('temperatureDifference'))),
		}),
	),
	'time factor': may(value(plainNumber(1.1, 4)), 2),
	solvent: may(
		map({
			share: must(value(quantity('share'))),
			vapour: must(value(some('vapour'))),
			lel: must(value(some('share'))),
		}),
	),
};
export type MaterialEntry = Entry<typeof materialShape>;

/** Work on faces between coats, each a stage of its own. */
export const prepSteps = prepSchema.options;
export const stepKeys = [...prepSteps, 'degrease'] as const;
export type StepKey = (typeof stepKeys)[number];
export const isStepKey = (work: string): work is StepKey => stepKeys.some(step => step === work);

const coatKinds = coatKindSchema.options;
/** `full`, or `2 full`. */
export const coatRun = fromText((text, ctx): CoatKind[] => {
	const [, times = '1', written = text] = /^(\d+)\s+(.*)$/.exec(text) ?? [];
	const kind = coatKindSchema.safeParse(written);
	if (kind.success && Number(times) >= 1 && Number(times) <= 20)
		return Array<CoatKind>(Number(times)).fill(kind.data);
	return complain(
		ctx,
		`allowed: ${coatKinds.join(', ')}, or as in "2 full"; nearest: ${nearest(written, coatKinds)}`,
	);
});
/** Coats one after another: `[tack, full, full]`, or `[tack, 2 full]`. */
const coatsRead: Reader<Placed<CoatKind>[]> = (source, node, what, at) =>
	wholeList(placed(value(coatRun)), 1)(source, node, what, at)?.flatMap(({ value: kinds, at: where }) =>
		kinds.map(kind => ({ value: kind, at: where })),
	);
type CoatsFor = { name: string; at: number; coats: Placed<CoatKind>[] };
/** Coats of some faces by their names. */
const coatsByFace: Reader<CoatsFor[]> = (source, node, what, at) =>
	pairsOf(source, node, what, at)?.flatMap(pair => {
		const coats = coatsRead(source, pair.node, `${what}, ${brief(pair.key)}`, pair.at);
		return coats ? [{ name: pair.key, at: pair.at, coats }] : [];
	});

/** A time, or over the night: as long as the shop is open, so that the next thing waits for the morning. */
const waitRead = fromText((text, ctx): number | 'overnight' => {
	if (text === 'overnight') return text;
	const read = some('time').safeParse(text);
	if (read.success) return read.data;
	return complain(ctx, `${read.error.issues[0]?.message}, or overnight`);
});
const leaveOut = may(list(placed(value(name))));
const yes = z.pipe(
	z.enum(['yes']),
	z.transform(() => null),
);
const done = may(value(yes));
const gritOrYes = fromText((text, ctx): number | null => {
	const read = text === 'yes' ? { success: true as const, data: null } : grit.safeParse(text);
	if (read.success) return read.data;
	return complain(ctx, 'allowed: a grit as in "400 grit", or yes');
});
const abrade = may(value(gritOrYes));
const stageShape = {
	name: may(value(name)),
	spray: may(placed(value(key))),
	coats: may(coatsRead),
	'coats for': may(coatsByFace),
	wait: may(value(waitRead)),
	sand: abrade,
	scuff: abrade,
	fill: done,
	wipe: done,
	degrease: done,
	tack: done,
	mask: done,
	unmask: done,
	'turn over': done,
	'leave out': leaveOut,
	only: may(list(placed(value(name)), 1)),
};
export type StageEntry = Entry<typeof stageShape>;

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
	faces: may(list(map(faceShape, label('face')), 1)),
};
export type PartEntry = Entry<typeof partShape>;
const readPart = map(partShape, label('part'));
const readMaterial = map(materialShape);
const readStageMap = map(stageShape);

/** `from`: the file of the shelf that it stands in, where it is not the sheet's own. */
export type Named<T> = { id: string; at: number; entry: T; from?: Source };
/** Materials by their id, in the order written. */
const readMaterials: Reader<Named<MaterialEntry>[]> = (source, node, what, at) => {
	const found: Named<MaterialEntry>[] = [];
	for (const pair of pairsOf(source, node, what, at) ?? []) {
		const id = key.safeParse(pair.key);
		if (!id.success) {
			source.fail(pair.at, `${what}: found "${brief(pair.key)}"; ${id.error.issues[0]?.message}`);
			continue;
		}
		const entry = readMaterial(source, pair.node, `material ${id.data}`, pair.at);
		if (entry) found.push({ id: id.data, at: pair.at, entry });
	}
	return found;
};

export type StageDraft = { at: number; words: StepKey[]; entry: StageEntry | null };
/** `wipe`, or several words of preparation on one line. */
const stepsRead = fromText((text, ctx): StepKey[] => {
	const words = text.split(/\s*,\s*/);
	const unknown = words.find(one => !isStepKey(one));
	if (unknown === undefined) return words.filter(isStepKey);
	const like = likeliest(unknown, stepKeys);
	return complain(ctx, `allowed: ${stepKeys.join(', ')}${like ? `; nearest: ${like}` : ''}`);
});
/** A stage is a map, or words of preparation: `- wipe, tack`. */
const readStage: Reader<StageDraft> = (source, node, what, at) => {
	const own = offsetOf(node, at);
	if (!isScalar(node)) {
		const entry = readStageMap(source, node, what, at);
		return entry && { at: own, words: [], entry };
	}
	const words = value(stepsRead)(source, node, what, at);
	return words && { at: own, words, entry: null };
};

const sheetShape = {
	name: must(value(name)),
	units: must(units),
	shop: must(map(shopShape)),
	gun: must(map(gunShape)),
	materials: must(readMaterials),
	stages: must(list(readStage, 1)),
	parts: must(list(readPart, 1)),
	order: may(
		value(word({ 'fewest turns': 'fewest-turns', 'wettest edge': 'wettest-edge', 'as written': 'sheet' })),
		'fewest-turns' as const,
	),
	risk: may(
		value(
			quantity('share').check(
				z.refine(risk => risk >= 0.001 && risk <= 0.2, { message: 'allowed: 0.1% to 20%' }),
			),
		),
	),
	lists: may(list(placed(value(z.string())))),
};
export type SheetEntry = Entry<typeof sheetShape>;

type GunEntry = Entry<typeof gunShape>;
const readGun = map(gunShape);
const gunOrName: Reader<GunEntry | Placed<string>> = (source, node, what, at) =>
	(isScalar(node) ? placed(value(name)) : readGun)(source, node, what, at);

/** A sheet as it is written: what it only names, or leaves to the shop, stands on the shelf. */
const writtenShape = {
	...sheetShape,
	units: may(units),
	shop: may(map(shopShape)),
	gun: must(gunOrName),
	materials: may(readMaterials),
	shelf: may(placed(value(z.string()))),
};
export type SheetWritten = Entry<typeof writtenShape>;
/** Reads the whole sheet as far as it can be read. */
export const readSheet = map(writtenShape);

/** Files of the shelf: each says by its first key what it is, and the name that sheets call it by. */
export const readShelfMaterial = map({ material: must(value(key)), ...materialShape });
export const readShelfGun = map({ gun: must(value(key)), ...gunShape });
export const readShelfShop = map({ shop: must(value(name)), units: may(units), ...ofShop });
