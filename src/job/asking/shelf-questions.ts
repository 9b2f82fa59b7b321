import { nameLine } from '../data-sheet.ts';
import { notAllowed } from '../errors.ts';
import { nameOnShelf, type Shelf, type ShelfKind, shelfPath } from '../shelf.ts';
import { adding } from './adding.ts';
import { namesOn, type ShopOn, shopOn, unusable } from './on-shelf.ts';
import { type Asking, ask, choiceOf, type Put, type Read } from './question.ts';

/** What a job wants of the shelf: chosen there, or asked for as its data sheet has it. */

/** The shelf as it grows with what is asked for; `turns`: parts of the job are turned over. */
export type Growing = { shelf: Shelf; turns?: boolean };
const newWord = 'NEW';

const nameMeans = {
	material: 'As its can says; sheets call it so from now on.',
	gun: 'As its tape says: another gun is another name.',
	shape: 'As the shop calls such a part.',
	shop: 'It stands on plans and reports.',
};

/** `slate satin like moss green satin`: another colour, by the data sheet of one that stands on the shelf. */
function likeOther({ files }: Shelf, answer: string): { name: string; text: string } | undefined {
	const [, name, other = ''] = /^(.+?)\s+like\s+(.+)$/.exec(answer) ?? [];
	const file = files.find(one => one.kind === 'material' && one.name === other);
	return name === undefined || !file ? undefined : { name, text: file.text.replaceAll(other, () => name) };
}

/** Asks for a thing as its data sheet has it, and has it on the shelf. */
function* newOnShelf(growing: Growing, kind: ShelfKind, say: string, ahead: number): Asking<string> {
	const { shelf } = growing;
	const [known] = namesOn(shelf, 'material');
	const like = {
		material: known === undefined ? 'grey epoxy' : `slate satin, or slate satin like ${known}`,
		gun: 'large',
		shape: 'chair seat',
		shop: 'the Pump Yard workshop',
	}[kind];
	const first = yield* ask(
		{ question: `new ${kind}`, say, means: nameMeans[kind], like, ahead },
		(answer): Read<{ lines: string; same: string | undefined }> => {
			const same = kind === 'material' ? likeOther(shelf, answer) : undefined;
			const read = nameLine(kind, same?.name ?? answer);
			if ('wrong' in read) return read;
			const name = nameOnShelf(kind, read.lines);
			const other = shelf.files.find(({ path }) => path.endsWith(shelfPath(kind, name ?? '')));
			const isThere = kind !== 'shop' && name !== null && namesOn(shelf, kind).includes(name);
			if (isThere) return { wrong: `${name} is on the shelf already` };
			return other
				? { wrong: `too much like ${other.name}: choose another name` }
				: { is: { lines: read.lines, same: same?.text } };
		},
	);
	const { lines, same } = first;
	const name = nameOnShelf(kind, lines) ?? '';
	const text = same ?? `${(yield* adding(kind, lines, growing)).join('\n')}\n`;
	growing.shelf = { ...shelf, files: [...shelf.files, { kind, name, path: shelfPath(kind, name), text }] };
	return name;
}

/** The shop, where the shelf has none. */
export function* shopQuestions(growing: Growing, ahead: number): Asking<ShopOn> {
	for (let shop = shopOn(growing.shelf); ; shop = shopOn(growing.shelf)) {
		if (shop) return shop;
		const files = growing.shelf.files.filter(({ kind }) => kind !== 'shop');
		growing.shelf = { ...growing.shelf, files };
		yield* newOnShelf(growing, 'shop', 'The shelf has no shop yet. Its name?', ahead);
	}
}

/** One of a kind by its name, on the shelf or the sheet's `own`, or a new one; what cannot be used is not taken. */
export function* fromShelf(
	growing: Growing,
	kind: 'material' | 'gun',
	{ offered, own = [], ...put }: Omit<Put, 'choices' | 'shown'> & { own?: readonly string[] },
	fits: (name: string) => string | null = () => null,
): Asking<string | null> {
	const wrongOf = (name: string) =>
		(own.includes(name) ? null : unusable(growing.shelf, kind, name)) ?? fits(name);
	for (let shown: string[] = []; ; ) {
		const names = [...new Set([...own, ...namesOn(growing.shelf, kind)])];
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
