import type { Job } from '../job/job.ts';
import { type Sheet, shortestWords, type Word, type Words } from './blocks.ts';
import { groupParts } from './groups.ts';
import { type GunState, gunFor, gunKey, type Pass, passesOf, turnsIn } from './gun.ts';
import { asWritten, linkWords, writeOut } from './link.ts';
import { farthestPart, placeRank } from './place.ts';
import { type Member, orderMembers } from './wettest.ts';

/** How a stage may be ordered. `sheet`: as written, changed only as far as `after` asks. */
export type OrderName = Job['order'];

/** The faces of each coat of a stage, in the order sprayed. */
export type CoatOrder = {
	/** Counted on a face that no stage leaves out. */
	coat: number;
	faces: string[];
};

export type StageOrder = {
	name: OrderName;
	stage: number;
	/** Stops at which horns or fan height are changed, from the first face of the stage to the last. */
	turns: number;
	/** No order of this kind has fewer turns than this. */
	atLeast: number;
	/** Whether `turns` is proved to be the fewest of its kind. */
	exact: boolean;
	coats: CoatOrder[];
	/** Where a wish gave way: the start, or the same part order from coat to coat. */
	gaveWay: ('start' | 'part-order')[];
};

/** What is left to order of a stage: each coat with the passes still to be laid. */
export type Coats = readonly { coat: number; passes: readonly Pass[] }[];

type Laid = { sheet: Sheet; passes: readonly Pass[]; words: Words };

/**
 * The two orders of a spray stage side by side.
 *
 * *Part order* means one ranking of the parts for the whole stage: from the farthest from the extractor to the
 * nearest where the sheet says where they stand; otherwise parts whose faces come early in every coat first, then
 * as in the sheet.
 *
 * *Fewest turns* has, of all orders that respect `after`, one with the fewest changes of gun state over the whole
 * stage, coat boundaries included. Inside each block of one gun state the parts are taken by the ranking, so that
 * the part order stays the same from coat to coat; where the turns and that wish collide (a coat that begins in
 * the state the one before ended in reaches the parts in another order), the turns win and `gaveWay` says so. The
 * same holds for starting at the farthest part.
 *
 * *Wettest edge* finishes each part before the next and keeps one order of parts in every coat, beginning with
 * the farthest; of all such orders it has one with the fewest turns.
 *
 * Why they are the fewest: see `shortestWords`, `linkWords` and `orderMembers`.
 * @param stage the stage's place in `job.stages`; must be a spray stage
 */
export function planOrders(job: Job, stage: number): StageOrder[] {
	const coats = passesOf(job, stage);
	return [orderCoats(job, stage, coats, 'fewest-turns'), orderCoats(job, stage, coats, 'wettest-edge')];
}

/** Coats that faces have already, counted on each face. */
export type CoatsOn = Readonly<Record<string, number>>;

/** What is left of a stage on faces that have some of their coats. */
export const leftOf = (job: Job, stage: number, on: CoatsOn): Coats =>
	passesOf(job, stage).map(({ coat, passes }) => ({
		coat,
		passes: passes.filter(pass => pass.count > (on[pass.face.id] ?? 0)),
	}));

/** One order of a spray stage, or of what is left of it; without `which`, the one that the sheet fixes. */
export const orderFor = (
	job: Job,
	stage: number,
	which: OrderName = job.order,
	on: CoatsOn = {},
): StageOrder => orderCoats(job, stage, leftOf(job, stage, on), which);

/**
 * Orders what is left of a stage. `given`: as the coats come in, to weigh an order made elsewhere.
 * @param coats the passes still to be laid, coat by coat; faces already sprayed in a coat are left out of it
 * @param gun how the gun is set before the first of them, where known: a first change then counts too
 */
export function orderCoats(
	job: Job,
	stage: number,
	coats: Coats,
	which: OrderName | 'given',
	gun: GunState | null = null,
): StageOrder {
	if (which === 'given') {
		const rows = coats.map(({ passes }) => [...passes]);
		return asOrder(job, stage, coats, gun, { name: 'sheet', rows });
	}
	const number = numbers(coats, gun);
	const start = gun === null ? null : number(gun);
	const laid = coats.map(({ passes }) => layOut(passes, number));
	if (which === 'sheet')
		return asOrder(job, stage, coats, gun, { name: which, rows: laid.map(inSheetOrder) });
	if (which === 'fewest-turns') return fewest(job, stage, coats, gun, laid, start);
	return wettest(job, stage, coats, gun, number, start);
}

const inSheetOrder = ({ sheet, passes }: Laid): Pass[] => pick(passes, asWritten(sheet));

const pick = (passes: readonly Pass[], order: readonly number[]): Pass[] =>
	order.flatMap(at => passes[at] ?? []);

/** Gives each gun state a number. */
function numbers(coats: Coats, gun: GunState | null): (gun: GunState) => number {
	const all = coats.flatMap(({ passes }) => passes.map(pass => gunKey(gunFor(pass))));
	const keys = [...new Set(gun === null ? all : [gunKey(gun), ...all])];
	return state => keys.indexOf(gunKey(state));
}

function layOut(passes: readonly Pass[], number: (gun: GunState) => number): Laid {
	const at = new Map(passes.map((pass, index) => [pass.face.id, index]));
	const sheet = {
		states: passes.map(pass => number(gunFor(pass))),
		before: passes.map(pass => pass.face.after.flatMap(face => at.get(face) ?? [])),
	};
	return { sheet, passes, words: shortestWords(sheet) };
}

function fewest(
	job: Job,
	stage: number,
	coats: Coats,
	gun: GunState | null,
	laid: readonly Laid[],
	start: number | null,
): StageOrder {
	const farthest = farthestPart(job, partsIn(job, coats));
	const startsThere = (word: Word) =>
		laid[0]?.passes.some((pass, at) => pass.face.part === farthest && ready(laid[0], at, word[0]));
	const words = linkWords(
		laid.map(each => each.words.words),
		start,
		(index, word) => (index === 0 && farthest !== null && !startsThere(word) ? 1 : 0),
	);
	const early = new Map<string, number>();
	for (const [index, { sheet, passes }] of laid.entries()) {
		const { block } = writeOut(sheet, words[index] ?? [], [...sheet.states.keys()]);
		for (const part of new Set(passes.map(pass => pass.face.part))) {
			const first = Math.min(
				...passes.flatMap((pass, at) => (pass.face.part === part ? [block[at] ?? 0] : [])),
			);
			early.set(part, (early.get(part) ?? 0) + first);
		}
	}
	const rank = placeRank(job, part => early.get(part) ?? 0);
	const rows = laid.map(({ sheet, passes }, index) => {
		const wanted = ranksOf(job, passes, rank);
		return pick(passes, writeOut(sheet, words[index] ?? [], wanted).order);
	});
	const exact = laid.every(each => each.words.exact);
	const atLeast = laid.reduce((sum, each) => sum + Math.max(0, each.words.atLeast - 1), 0);
	return asOrder(job, stage, coats, gun, { name: 'fewest-turns', rows, ...(!exact && { atLeast }) });
}

/** Whether a face of a coat may be its first when the gun begins in `state`. */
const ready = (laid: Laid | undefined, at: number, state: number | undefined): boolean =>
	laid !== undefined && laid.sheet.states[at] === state && (laid.sheet.before[at] ?? []).length === 0;

function wettest(
	job: Job,
	stage: number,
	coats: Coats,
	gun: GunState | null,
	number: (gun: GunState) => number,
	start: number | null,
): StageOrder {
	const parts = partsIn(job, coats);
	const partOf = new Map(job.faces.map(face => [face.id, face.part]));
	const edges = coats.flatMap(({ passes }) => {
		const here = new Set(passes.map(pass => pass.face.id));
		return passes.flatMap(({ face }) =>
			face.after.filter(id => here.has(id)).map((id): [string, string] => [partOf.get(id) ?? '', face.part]),
		);
	});
	const groups = groupParts(parts, edges);
	const rank = placeRank(job, () => 0);
	const laid = groups.map(group =>
		coats.map(({ passes }) =>
			layOut(
				passes.filter(pass => group.parts.includes(pass.face.part)),
				number,
			),
		),
	);
	const members = groups.map(
		(group, at): Member => ({
			words: (laid[at] ?? []).map(each => each.words.words),
			before: group.before,
			rank: Math.min(...group.parts.map(rank)),
		}),
	);
	const farthest = farthestPart(job, parts);
	const first = groups.findIndex(
		group => farthest !== null && group.parts.includes(farthest) && group.before.length === 0,
	);
	const { order, exact } = orderMembers(members, start, first === -1 ? null : first);
	const row = coats.flatMap((_, coat) => order.flatMap(at => laid[at]?.[coat] ?? []));
	const words = linkWords(
		row.map(each => each.words.words),
		start,
	);
	const written = row.map(({ sheet, passes }, index) =>
		pick(passes, writeOut(sheet, words[index] ?? [], ranksOf(job, passes, rank)).order),
	);
	const rows = coats.map((_, coat) => written.slice(coat * order.length, (coat + 1) * order.length).flat());
	const atLeast = row.reduce((sum, each) => sum + Math.max(0, each.words.atLeast - 1), 0);
	const proved = exact && row.every(each => each.words.exact);
	return asOrder(job, stage, coats, gun, { name: 'wettest-edge', rows, ...(!proved && { atLeast }) });
}

const partsIn = (job: Job, coats: Coats): string[] => {
	const here = new Set(coats.flatMap(({ passes }) => passes.map(pass => pass.face.part)));
	return job.parts.map(part => part.name).filter(part => here.has(part));
};

/** Ranks faces by the rank of their part, then as in the sheet. */
function ranksOf(job: Job, passes: readonly Pass[], rank: (part: string) => number): number[] {
	const faces = new Map(job.faces.map((face, index) => [face.id, index]));
	return passes.map(({ face }) => rank(face.part) * job.faces.length + (faces.get(face.id) ?? 0));
}

function asOrder(
	job: Job,
	stage: number,
	coats: Coats,
	gun: GunState | null,
	found: { name: OrderName; rows: Pass[][]; atLeast?: number },
): StageOrder {
	const passes = found.rows.flat();
	const first = passes[0];
	const touched = gun !== null && first !== undefined && gunKey(gun) !== gunKey(gunFor(first)) ? 1 : 0;
	const turns = turnsIn(passes) + touched;
	const farthest = farthestPart(job, partsIn(job, coats));
	const gaveWay: StageOrder['gaveWay'] = [];
	if (farthest !== null && first !== undefined && first.face.part !== farthest) gaveWay.push('start');
	if (!samePartOrder(found.rows)) gaveWay.push('part-order');
	const atLeast = Math.min(turns, found.atLeast ?? turns);
	return {
		name: found.name,
		stage,
		turns,
		atLeast,
		exact: atLeast === turns,
		coats: found.rows.map((row, index) => ({
			coat: coats[index]?.coat ?? 0,
			faces: row.map(pass => pass.face.id),
		})),
		gaveWay,
	};
}

/** Whether the parts, each at its first face, come in one order in every coat. */
function samePartOrder(rows: readonly (readonly Pass[])[]): boolean {
	const orders = rows.map(row => [...new Set(row.map(pass => pass.face.part))]);
	return orders.every((order, index) => {
		const before = orders[index - 1];
		if (!before) return true;
		const both = before.filter(part => order.includes(part));
		return both.join('\u0000') === order.filter(part => before.includes(part)).join('\u0000');
	});
}
