import { nameLine } from '../data-sheet.ts';
import { notAllowed } from '../errors.ts';
import { coatRun } from '../sheet.ts';
import { nameOnShelf, type Shelf, type ShelfKind, shelfPath } from '../shelf.ts';
import { adding } from './adding.ts';
import {
	type Drafted,
	type FaceDrafted,
	faceName,
	facesMeant,
	facesOfAll,
	isAmong,
	isSame,
	namesFor,
	type SprayDrafted,
} from './drafted.ts';
import { materialOn, namesOn, type ShopOn, shopOn, unusable } from './on-shelf.ts';
import { offeredBefore } from './preparation.ts';
import { type Asking, ask, choiceOf, type Put, type Read } from './question.ts';
import { wrongSoFar } from './sheet-written.ts';

/** What is sprayed, on which faces, in which coats, with which gun; what the shelf lacks is asked for. */

/** The shelf as it grows with what is asked for. */
export type Growing = { shelf: Shelf };
export const newWord = 'NEW';

/** Asks for a thing as its data sheet has it, and has it on the shelf. */
function* newOnShelf(growing: Growing, kind: ShelfKind, say: string, ahead: number): Asking<string> {
	const { shelf } = growing;
	const like = { material: 'grey epoxy', gun: 'large', shop: 'the Pump Yard workshop' }[kind];
	const first = yield* ask({ question: `new ${kind}`, say, like, ahead }, (answer): Read<string> => {
		const read = nameLine(kind, answer);
		if ('wrong' in read) return read;
		const name = nameOnShelf(kind, read.lines);
		const isThere = kind !== 'shop' && name !== null && namesOn(shelf, kind).includes(name);
		return isThere ? { wrong: `${name} is on the shelf already` } : { is: read.lines };
	});
	const name = nameOnShelf(kind, first) ?? '';
	const text = `${(yield* adding(kind, first)).join('\n')}\n`;
	growing.shelf = { ...shelf, files: [...shelf.files, { kind, name, path: shelfPath(kind, name), text }] };
	return name;
}

/** The shop, where the shelf has none. */
export function* shopQuestions(growing: Growing, ahead: number): Asking<ShopOn> {
	for (;;) {
		const shop = shopOn(growing.shelf);
		if (shop) return shop;
		const files = growing.shelf.files.filter(({ kind }) => kind !== 'shop');
		growing.shelf = { ...growing.shelf, files };
		yield* newOnShelf(growing, 'shop', 'The shelf has no shop yet. Its name?', ahead);
	}
}

/** One of a kind by its name, or a new one; what cannot be used is not taken. */
function* fromShelf(
	growing: Growing,
	kind: 'material' | 'gun',
	{ offered, ...put }: Omit<Put, 'choices' | 'shown'>,
	fits: (name: string) => string | null = () => null,
): Asking<string | null> {
	const wrongOf = (name: string) => unusable(growing.shelf, kind, name) ?? fits(name);
	for (let shown: string[] = []; ; ) {
		const names = namesOn(growing.shelf, kind);
		const choices = [...names, newWord];
		const first = put.may ? undefined : (offered ?? (names.length === 0 ? newWord : undefined));
		const asked = { ...put, choices, shown, ...(first !== undefined && { offered: first }) };
		const chosen = yield* ask(asked, (answer): Read<string | null> => {
			if (answer === '' && put.may) return { is: null };
			const found = choiceOf(choices, answer);
			if (found === undefined) return { wrong: notAllowed(answer, choices) };
			const wrong = found === newWord ? null : wrongOf(found);
			return wrong === null ? { is: found } : { wrong };
		});
		if (chosen !== newWord) return chosen;
		const added = yield* newOnShelf(growing, kind, `Name of the new ${kind}?`, put.ahead);
		const wrong = wrongOf(added);
		if (wrong === null) return added;
		shown = [wrong];
	}
}

const pieces = (answer: string): string[] =>
	answer
		.split(',')
		.map(one => one.trim())
		.filter(Boolean);

/** `tack, 2 full`: kinds that the material has. */
export function coatsRead(answer: string, kinds: readonly string[]): Read<string[]> {
	const coats = pieces(answer.replace(/^\[(.*)\]$/, '$1')).map(one => one.replaceAll(/\s+/g, ' '));
	if (coats.length === 0) return { wrong: `say which: ${kinds.join(', ')}, as in "2 ${kinds[0]}"` };
	for (const coat of coats) {
		const read = coatRun.safeParse(coat);
		const kind = coat.replace(/^\d+ /, '');
		if (!read.success) return { wrong: read.error.issues[0]?.message ?? '' };
		if (!kinds.includes(kind)) return { wrong: `no film is given for it; ${notAllowed(kind, kinds)}` };
	}
	return { is: coats };
}

type Sofar = { drafted: Drafted; growing: Growing; shop: ShopOn };

/** A spray with the preparation that its windows want, or why it cannot be. */
export function prepared(
	{ drafted, growing, shop }: Sofar,
	spray: Omit<SprayDrafted, 'prep'>,
): Read<SprayDrafted> {
	const bare = { ...spray, prep: { wait: null, steps: [] } };
	const sprays = [...drafted.sprays, bare];
	const materials = new Map(
		sprays.flatMap(({ material }) => {
			const found = materialOn(growing.shelf, material);
			return found ? [[material, found] as const] : [];
		}),
	);
	const prep = offeredBefore(sprays, { materials, shop });
	return 'wrong' in prep ? prep : { is: { ...spray, prep: prep.is } };
}

/** … that a sheet takes, too. */
export function fitting(sofar: Sofar, spray: Omit<SprayDrafted, 'prep'>): Read<SprayDrafted> {
	const found = prepared(sofar, spray);
	if ('wrong' in found) return found;
	const { drafted, growing } = sofar;
	const wrong = wrongSoFar({ ...drafted, sprays: [...drafted.sprays, found.is] }, growing.shelf);
	return wrong === null ? found : { wrong };
}

function* facesQuestion(sofar: Sofar, material: string, ahead: number): Asking<FaceDrafted[]> {
	const { parts } = sofar.drafted;
	const all = facesOfAll(parts);
	if (all.length === 1) return all;
	const several = parts.filter(({ faces }) => faces.length > 1);
	const names = [...parts.map(({ name }) => name), ...facesOfAll(several).map(faceName)];
	const put = {
		...{ question: 'faces', say: `${material}: on which faces?`, like: names.slice(0, 2).join(', ') },
		...{ choices: ['all', ...names], offered: 'all', ahead },
	};
	return yield* ask(put, (answer): Read<FaceDrafted[]> => {
		const said = pieces(answer).map(one => choiceOf(['all', ...names], one) ?? one);
		const unknown = said.find(one => one !== 'all' && facesMeant(one, parts).length === 0);
		if (unknown !== undefined || said.length === 0)
			return { wrong: notAllowed(unknown ?? answer, ['all', ...names]) };
		const meant = said.flatMap(one => (one === 'all' ? all : facesMeant(one, parts)));
		const faces = all.filter(face => isAmong(meant, face));
		const found = prepared(sofar, { material, faces, coats: [], own: [], nextDay: false });
		return 'wrong' in found ? found : { is: faces };
	});
}

const kindsOf = (growing: Growing, material: string): string[] =>
	Object.keys(materialOn(growing.shelf, material)?.coats ?? {});

/** Asks for one more spray, and the first time for the gun; null: there is no other. */
export function* sprayQuestions(
	{ drafted, growing, shop }: Sofar,
	after: number,
): Asking<Pick<Drafted, 'gun' | 'sprays'> | null> {
	const isFirst = drafted.sprays.length === 0;
	const material = yield* fromShelf(growing, 'material', {
		question: 'material',
		say: isFirst ? 'Which material first?' : 'Another material?',
		...(!isFirst && { may: true }),
		ahead: after + (isFirst ? 4 : 0),
	});
	if (material === null) return null;
	const sofar = { drafted, growing, shop };
	const faces = yield* facesQuestion(sofar, material, after + (isFirst ? 3 : 2));
	const kinds = kindsOf(growing, material);
	const put = {
		...{ question: 'coats', say: `${material}: which coats?`, like: `2 ${kinds.at(-1)}` },
		ahead: after + (isFirst ? 2 : 1),
	};
	const spray = yield* ask(put, (answer): Read<SprayDrafted> => {
		const coats = coatsRead(answer, kinds);
		if ('wrong' in coats) return coats;
		return fitting(sofar, { material, faces, coats: coats.is, own: [], nextDay: false });
	});
	const sprays = [...drafted.sprays, spray];
	if (drafted.gun !== null) return { gun: drafted.gun, sprays };
	const [only, ...others] = namesOn(growing.shelf, 'gun');
	const gun = yield* fromShelf(
		growing,
		'gun',
		{
			question: 'gun',
			say: 'With which gun?',
			...(only && others.length === 0 && { offered: only }),
			ahead: after + 1,
		},
		name => wrongSoFar({ ...drafted, gun: name, sprays }, growing.shelf),
	);
	return { gun, sprays };
}

/** The faces that got fewer sprays than others. */
export function leftOver({ parts, sprays }: Drafted): FaceDrafted[] {
	const counts = facesOfAll(parts).map(face => ({
		face,
		count: sprays.filter(spray => isAmong(spray.faces, face)).length,
	}));
	const most = Math.max(...counts.map(({ count }) => count));
	return counts.filter(({ count }) => count < most).map(({ face }) => face);
}

/** The faces left over: the last material again, another day? */
export function* leftQuestion(sofar: Sofar, ahead: number): Asking<SprayDrafted | null> {
	const { drafted } = sofar;
	const [left, last] = [leftOver(drafted), drafted.sprays.at(-1)];
	if (left.length === 0 || !last) return null;
	const names = namesFor(left, drafted.parts);
	const choices = ['yes', 'no'];
	const put = {
		question: 'left over',
		say: `${last.material}: the rest, too, another day?`,
		choices,
		offered: 'yes',
	};
	return yield* ask(
		{ ...put, shown: [`left over: ${names.join(', ')}`], ahead },
		(answer): Read<SprayDrafted | null> => {
			const chosen = choiceOf(choices, answer);
			if (chosen === undefined) return { wrong: notAllowed(answer, choices) };
			if (chosen === 'yes')
				return fitting(sofar, {
					material: last.material,
					faces: left,
					coats: last.coats,
					own: [],
					nextDay: true,
				});
			const bare = left.filter(face => !drafted.sprays.some(spray => isAmong(spray.faces, face)));
			if (bare.length === 0) return { is: null };
			return { wrong: `no spray reaches ${namesFor(bare, drafted.parts).join(', ')}: yes, or back` };
		},
	);
}

/** A face with other coats in its last spray; null: none. */
export function* moreQuestion({ drafted, growing }: Sofar, ahead: number): Asking<SprayDrafted[] | null> {
	const { parts, sprays } = drafted;
	const [first] = facesOfAll(parts);
	const like = first ? `${faceName(first)}: 3 ${kindsOf(growing, sprays.at(-1)?.material ?? '').at(-1)}` : '';
	const put: Put = { question: 'more coats', say: 'Other coats on any face?', like, may: true, ahead };
	return yield* ask(put, (answer): Read<SprayDrafted[] | null> => {
		if (answer === '') return { is: null };
		const [, said = '', coated = ''] = /^([^:]+):(.*)$/.exec(answer) ?? [];
		const faces = facesMeant(said.trim(), parts);
		if (faces.length === 0) return { wrong: `write it as in "${like}"` };
		const last = sprays.findLastIndex(spray => faces.some(face => isAmong(spray.faces, face)));
		const spray = sprays[last];
		if (!spray) return { wrong: `no spray reaches ${said.trim()}` };
		const coats = coatsRead(coated.trim(), kindsOf(growing, spray.material));
		if ('wrong' in coats) return coats;
		const its = faces.filter(face => isAmong(spray.faces, face)).map(face => ({ face, coats: coats.is }));
		const others = spray.own.filter(({ face }) => !its.some(one => isSame(one.face, face)));
		const changed = sprays.with(last, { ...spray, own: [...others, ...its] });
		const wrong = wrongSoFar({ ...drafted, sprays: changed }, growing.shelf);
		return wrong === null ? { is: changed } : { wrong };
	});
}
