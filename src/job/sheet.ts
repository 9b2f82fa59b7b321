import { isMap, isScalar, isSeq } from 'yaml';
import * as z from 'zod/mini';
import { readRatio } from '../trade/ratio.ts';
import type { Source } from './document.ts';
import {
	type Entry,
	list,
	map,
	may,
	must,
	offsetOf,
	type Placed,
	pairsOf,
	placed,
	type Reader,
	value,
	wholeList,
	written,
} from './fields.ts';
import { flashOfKindRead, flashRead, orPoints } from './flash-keys.ts';
import { type GunEntry, gunShape } from './gun-keys.ts';
import { brief } from './inert.ts';
import { type Gear, mixStepSchema } from './job.ts';
import { orLine, some_ } from './or-line.ts';
import { ofShape, readPart, readSizedPart } from './part-keys.ts';
import { recoatRead } from './recoat-keys.ts';
import { ownShape } from './shape-words.ts';
import { ofShop, shopShape, units } from './shop-keys.ts';
import { readStage } from './stage-keys.ts';
import {
	complain,
	filmAim,
	flowCupLine,
	fromText,
	grit,
	key,
	name,
	orNone,
	plainNumber,
	quantity,
	range,
	shareWithin,
	some,
	timeAt,
	word,
	yesOrNo,
} from './values.ts';

/** The keys of a job sheet, as a painter writes them, and how each value is read. */

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
/** `10% medium at 18 to 25 °C`: a share of one of several, and the surface that it is for. */
const reducerBand = fromText((text, ctx): Reducer & { name: string; surface: [number, number] } => {
	const [, amount = '', called, degrees = ''] = /^(\S+%|\S+ parts?)\s+(\S.*?)\s+at\s+(.+)$/.exec(text) ?? [];
	const [read, surface] = [reducer.safeParse(amount), range('temperature').safeParse(degrees)];
	if (called && read.success && surface.success) return { ...read.data, name: called, surface: surface.data };
	return complain(
		ctx,
		'allowed in a list: a share, which, and for what surface, as in "10% medium at 18 to 25 °C"',
	);
});
export type ReducerBand = z.output<typeof reducerBand>;
const reducerRead: Reader<Reducer | ReducerBand[]> = (source, node, what, at) =>
	(isSeq(node) ? wholeList(value(reducerBand), 1) : value(reducer))(source, node, what, at);

const ratio = fromText((text, ctx) => {
	const [, parts, by] = /^(.*?)\s+by\s+(volume|weight)$/.exec(text) ?? [];
	if (parts === undefined) {
		const message =
			'allowed: base:hardener or base:hardener:reducer, as in "2:1:1 by volume" or "100:18 by weight"';
		return complain(ctx, message);
	}
	const read = readRatio(parts);
	if ('wanted' in read) return complain(ctx, `allowed: ${read.wanted}`);
	return { ...read, by: by === 'weight' ? ('weight' as const) : ('volume' as const) };
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
const pointsRead = list(value(timeAt), 1);

const coatShape = {
	film: must(placed(value(filmAim))),
	reducer: may(value(reducer)),
	flash: may(flashOfKindRead),
};
/** A kind of coat by its keys, or by its film alone: `full: 30 µm`. */
const coatRead: Reader<Entry<typeof coatShape>> = (source, node, what, at) => {
	if (!isScalar(node)) return map(coatShape)(source, node, what, at);
	const film = placed(value(filmAim))(source, node, `${what}, film`, at);
	return film && written<typeof coatShape>({ film }, offsetOf(node, at), what);
};

const breathingShape = { mixing: may(value(gear)), spraying: may(value(gear)), sanding: may(value(gear)) };
const cupShape = {
	kind: must(value(name)),
	runs: must(value(range('time'))),
	at: may(value(quantity('temperature'))),
};
/** A flow cup by its keys, or in a line: `din4, 17 to 20 s at 20 °C`. */
const flowCup = orLine(cupShape, flowCupLine, cup => cup);
const dryToShape = { handle: may(pointsRead), tape: may(pointsRead), sand: may(pointsRead) };

const ofCan = may(value(shareWithin(0, 0.02)));
const solidsShape = { mix: ofCan, base: ofCan, hardener: ofCan, accelerator: ofCan, flattener: ofCan };
export type SolidsEntry = Entry<typeof solidsShape>;
/** Of the mix without its reducer, or of each can. */
const solidsRead = orLine(solidsShape, shareWithin(0.01, 0.02), mix => ({ mix }));

const materialShape = {
	name: may(value(name)),
	isocyanate: must(value(yesOrNo)),
	breathing: may(orLine(breathingShape, gear, one => ({ mixing: one, spraying: one, sanding: one }))),
	ratio: must(value(ratio)),
	reducer: may(reducerRead),
	density: may(
		map({
			base: must(value(density)),
			hardener: must(value(density)),
			reducer: may(value(density)),
			accelerator: may(value(density)),
			flattener: may(value(density)),
		}),
	),
	order: may(wholeList(placed(value(mixStepSchema)), 2)),
	solids: must(solidsRead),
	coats: must(map({ tack: may(coatRead), medium: may(coatRead), full: may(coatRead) })),
	'sags above': must(value(some('film'))),
	'pot life': must(orPoints(value(timeAt))),
	standing: must(orPoints(value(orNone('time')))),
	strainer: may(value(name)),
	flash: must(flashRead),
	'wet edge': may(some_('time')),
	'wet the tip': may(some_('time')),
	flush: may(some_('time')),
	recoat: may(recoatRead),
	'sand after': may(pointsRead),
	'dry to': may(map(dryToShape)),
	grit: may(value(grit)),
	cup: may(flowCup),
	'flow cup': may(flowCup),
	limits: must(
		map({
			air: must(value(range('temperature'))),
			surface: may(value(range('temperature'))),
			paint: may(value(range('temperature'))),
			humidity: must(value(quantity('share'))),
			'over dew point': may(value(quantity('temperatureDifference'))),
		}),
	),
	'time factor': may(value(plainNumber(1.1, 4))),
	solvent: may(
		map({
			share: must(value(quantity('share'))),
			vapour: must(value(some('vapour'))),
			lel: must(value(some('share'))),
			limit: may(value(some('share'))),
		}),
	),
};
export type MaterialEntry = Entry<typeof materialShape>;

const readMaterial = map(materialShape);
/** A material of the shelf with some keys changed for this job. */
const readChanged = map({ from: must(placed(value(key))), ...materialShape }, undefined, true);

/** `from`: the file of the shelf that it stands in, where it is not the sheet's own. */
export type Named<T> = {
	id: string;
	at: number;
	entry: T;
	from?: Source;
	/** The material of the shelf that it is, but for its own keys. */
	like?: Placed<string>;
	/** Those keys. */
	changed?: readonly string[];
};
/** Materials by their id, in the order written. */
const readMaterials: Reader<Named<MaterialEntry>[]> = (source, node, what, at) => {
	const found: Named<MaterialEntry>[] = [];
	for (const pair of pairsOf(source, node, what, at) ?? []) {
		const id = key.safeParse(pair.key);
		if (!id.success) {
			source.fail(pair.at, `${what}: found "${brief(pair.key)}"; ${id.error.issues[0]?.message}`);
			continue;
		}
		const called = `material ${id.data}`;
		const isChanged = isMap(pair.node) && pair.node.has('from');
		const changed = isChanged ? readChanged(source, pair.node, called, pair.at) : undefined;
		const entry = changed ?? (isChanged ? undefined : readMaterial(source, pair.node, called, pair.at));
		const like = changed?.values.from;
		if (entry) found.push({ id: id.data, at: pair.at, entry, ...(like && { like }) });
	}
	return found;
};

const sheetShape = {
	name: must(value(name)),
	units: must(units),
	shop: must(map(shopShape)),
	gun: must(map(gunShape)),
	materials: must(readMaterials),
	stages: must(list(readStage, 1)),
	parts: must(list(readSizedPart, 1)),
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

/** A gun with its keys, or with those that one of the shelf has otherwise in this job. */
export type GunOfSheet = { entry: GunEntry; like?: Placed<string> };
const readOwnGun = map(gunShape);
const readLikeGun = map({ from: must(placed(value(key))), ...gunShape }, undefined, true);
const readGun: Reader<GunOfSheet> = (source, node, what, at) => {
	if (isMap(node) && node.has('from')) {
		const entry = readLikeGun(source, node, what, at);
		return entry?.values.from && { entry, like: entry.values.from };
	}
	const entry = readOwnGun(source, node, what, at);
	return entry && { entry };
};
const gunOrName: Reader<GunOfSheet | Placed<string>> = (source, node, what, at) =>
	(isScalar(node) ? placed(value(name)) : readGun)(source, node, what, at);

/** Guns by the names that stages call them by. */
const readGuns: Reader<({ name: string } & GunOfSheet)[]> = (source, node, what, at) =>
	pairsOf(source, node, what, at)?.flatMap(pair => {
		const gun = readGun(source, pair.node, `gun ${brief(pair.key)}`, pair.at);
		return gun ? [{ name: pair.key, ...gun }] : [];
	});

/** A sheet as it is written: what it only names, or leaves to the shop, stands on the shelf. */
const writtenShape = {
	...sheetShape,
	units: may(units),
	shop: may(map(shopShape)),
	gun: may(gunOrName),
	guns: may(readGuns),
	materials: may(readMaterials),
	parts: must(list(readPart, 1)),
	shelf: may(placed(value(z.string()))),
};
export type SheetWritten = Entry<typeof writtenShape>;
/** Reads the whole sheet as far as it can be read. */
export const readSheet = map(writtenShape);

/** Files of the shelf: each says by its first key what it is, and the name that sheets call it by. */
export const readShelfMaterial = map({ material: must(value(key)), ...materialShape });
export const readShelfGun = map({ gun: must(value(key)), ...gunShape });
export const readShelfShape = map({ shape: must(value(ownShape)), ...ofShape });
export const readShelfShop = map({ shop: must(value(name)), units: may(units), ...ofShop });
