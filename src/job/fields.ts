import { isMap, isScalar, isSeq, type ParsedNode, type YAMLMap } from 'yaml';
import type * as z from 'zod/mini';
import type { Source } from './document.ts';
import { notAllowed } from './errors.ts';
import { brief } from './inert.ts';
import { lineToWrite, mapToWrite } from './lines-to-write.ts';
import { isMeant } from './other-words.ts';

type Node = ParsedNode | null;

/** How one value of a sheet is read. Complaints go to the source; what cannot be read is undefined. */
export type Reader<T> = (source: Source, node: Node, name: string, at: number) => T | undefined;
export type Field<T> = { read: Reader<T>; must: boolean; default?: T };
export type Shape = Record<string, Field<unknown>>;
export type ValueOf<F> = F extends Field<infer T> ? T : never;

/** A map as far as it could be read, with the place of each key and value, so that all errors come at once. */
export type Entry<S extends Shape> = {
	values: { [K in keyof S]?: ValueOf<S[K]> };
	at: number;
	/** Offset of a key's value; of the map itself where the key is not there. */
	place(key: keyof S): number;
	has(key: keyof S): boolean;
	/** Its name in messages. */
	name: string;
};

export const must = <T>(read: Reader<T>): Field<T> => ({ read, must: true });
export const may = <T>(read: Reader<T>, standard?: T): Field<T> =>
	standard === undefined ? { read, must: false } : { read, must: false, default: standard };

const kindOf = (node: Node): string => (isMap(node) ? 'a block of keys' : isSeq(node) ? 'a list' : 'nothing');
export const offsetOf = (node: Node, otherwise: number): number => node?.range?.[0] ?? otherwise;
const under = (name: string, key: string): string => (name === '' ? key : `${name}, ${key}`);

/** No value of a sheet is longer, in letters. */
const longest = 500;

/** The text of a scalar; undefined, with a complaint, for anything else. */
export function textOf(source: Source, node: Node, name: string, at: number): string | undefined {
	const text = isScalar(node) && typeof node.value === 'string' ? node.value.trim() : undefined;
	if (text && text.length <= longest) return text;
	if (text) {
		source.fail(
			offsetOf(node, at),
			`${name}: found "${brief(text)}"; ${text.length} letters are too many for one value`,
		);
		return undefined;
	}
	const found = text === '' ? 'nothing' : kindOf(node);
	source.fail(offsetOf(node, at), `${name}: found ${found}; one value is wanted`);
	return undefined;
}

/** Column within the text of a scalar, where the text stands in the file as it was read. */
function insideOf(node: Node, column: number): number {
	if (!isScalar(node) || node.type === 'BLOCK_FOLDED' || node.type === 'BLOCK_LITERAL') return 0;
	const lead = String(node.value).length - String(node.value).trimStart().length;
	return column - 1 + lead + (node.type === 'PLAIN' ? 0 : 1);
}

type Issue = z.core.$ZodIssue;
const columnOf = (issue: Issue): number =>
	issue.code === 'custom' && typeof issue.params?.column === 'number' ? issue.params.column : 1;

function saysOf(issue: Issue, text: string): string {
	if (issue.code === 'invalid_value') return notAllowed(text, issue.values.map(String));
	return `found "${brief(text)}"; ${issue.message}`;
}

/** One value, read as text by a zod schema. */
export function value<T>(schema: z.ZodMiniType<T, string>): Reader<T> {
	return (source, node, name, at) => {
		const text = textOf(source, node, name, at);
		if (text === undefined) return undefined;
		const read = schema.safeParse(text);
		if (read.success) return read.data;
		const [issue] = read.error.issues;
		if (issue)
			source.fail(offsetOf(node, at) + insideOf(node, columnOf(issue)), `${name}: ${saysOf(issue, text)}`);
		return undefined;
	};
}

/** Something read, and where it stands. */
export type Placed<T> = { value: T; at: number };
export function placed<T>(read: Reader<T>): Reader<Placed<T>> {
	return (source, node, name, at) => {
		const found = read(source, node, name, at);
		return found === undefined ? undefined : { value: found, at: offsetOf(node, at) };
	};
}

function itemsOf<T>(
	source: Source,
	node: Node,
	name: string,
	at: number,
	read: Reader<T>,
): (T | undefined)[] {
	if (!isSeq(node)) return [read(source, node, name, at)];
	const own = offsetOf(node, at);
	return (node.items as Node[]).map(item => read(source, item, name, offsetOf(item, own)));
}

/** A list; a single value stands for a list of one. Items that cannot be read are left out. */
export function list<T>(read: Reader<T>, least = 0): Reader<T[]> {
	return (source, node, name, at) => {
		if (isSeq(node) && node.items.length < least) {
			source.fail(offsetOf(node, at), `${name}: found an empty list; at least ${least} wanted`);
			return undefined;
		}
		return itemsOf(source, node, name, at, read).filter(item => item !== undefined);
	};
}

/** A list that means nothing with an item missing: undefined where one cannot be read. */
export function wholeList<T>(read: Reader<T>, least = 0): Reader<T[]> {
	return (source, node, name, at) => {
		let all = true;
		const every: Reader<T> = (...place) => {
			const item = read(...place);
			all &&= item !== undefined;
			return item;
		};
		const items = list(every, least)(source, node, name, at);
		return all ? items : undefined;
	};
}

export type Pair = { key: string; at: number; node: Node };

/** The pairs of a map, each key once; undefined, with a complaint, for anything but a map. */
export function pairsOf(source: Source, node: Node, name: string, at: number): Pair[] | undefined {
	if (!isMap(node)) {
		const like = mapToWrite(name);
		source.fail(
			offsetOf(node, at),
			`${name === '' ? 'the file' : name}: found ${isScalar(node) ? `"${brief(String(node.value))}"` : kindOf(node)}; keys with values are wanted${like === null ? '' : `, as in "${like}"`}`,
		);
		return undefined;
	}
	const seen = new Map<string, Pair>();
	for (const pair of (node as YAMLMap.Parsed).items) {
		const keyAt = offsetOf(pair.key, offsetOf(node, at));
		const key = isScalar(pair.key) ? String(pair.key.value).trim() : undefined;
		if (!key) source.fail(keyAt, `${name}: a key is not a word`);
		else if (seen.has(key)) source.fail(keyAt, `${under(name, brief(key))}: written twice; take one out`);
		else seen.set(key, { key, at: keyAt, node: pair.value });
	}
	return [...seen.values()];
}

/** How a map is called in messages, from the value of its first key and the name of what holds it. */
export type Label = (first: string | undefined, name: string) => string;

function firstOf(node: Node): string | undefined {
	const first = isMap(node) ? node.items[0]?.value : undefined;
	return isScalar(first) && first.value ? brief(String(first.value)) : undefined;
}

/**
 * A map with the keys of a shape: unknown, missing and doubled ones are complained of.
 * @param isPart the other keys stand elsewhere: none is missing, and nothing stands in for it
 */
export function map<S extends Shape>(shape: S, label?: Label, isPart = false): Reader<Entry<S>> {
	return (source, node, name, at) => {
		const called = label?.(firstOf(node), name) ?? name;
		const pairs = pairsOf(source, node, called, at);
		if (!pairs) return undefined;
		const own = offsetOf(node, at);
		return { ...readFields(source, { shape, isPart }, pairs, called, own), at: own, name: called };
	};
}

/** A map that nobody wrote key by key: all of it follows from one place of the sheet. */
export const written = <S extends Shape>(values: Entry<S>['values'], at: number, name: string): Entry<S> => ({
	...{ values, at, name },
	place: () => at,
	has: key => values[key] !== undefined,
});

/** A key that is so much like one the map lacks, or another word for it, that it must be meant: its value is read as that one's. */
const meant = (key: string, missing: string[]): string | undefined =>
	key.length <= 40 ? isMeant(key, missing) : undefined;

function byKey(source: Source, known: string[], pairs: Pair[], name: string): Map<string, Pair> {
	const found = new Map(pairs.filter(({ key }) => known.includes(key)).map(pair => [pair.key, pair]));
	for (const pair of pairs.filter(({ key }) => !known.includes(key))) {
		source.fail(pair.at, `${name === '' ? 'key' : `${name}, key`}: ${notAllowed(pair.key, known)}`);
		const key = meant(
			pair.key,
			known.filter(word => !found.has(word)),
		);
		if (key) found.set(key, pair);
	}
	return found;
}

function readFields<S extends Shape>(
	source: Source,
	{ shape, isPart }: { shape: S; isPart: boolean },
	pairs: Pair[],
	name: string,
	at: number,
) {
	const found = byKey(source, Object.keys(shape), pairs, name);
	const values: Record<string, unknown> = {};
	for (const [key, field] of Object.entries(shape)) {
		const pair = found.get(key);
		const read = pair
			? field.read(source, pair.node, under(name, key), pair.at)
			: isPart
				? undefined
				: field.default;
		if (read !== undefined) values[key] = read;
		if (!pair && field.must && !isPart)
			source.fail(at, `${under(name, key)} is missing: write "${lineToWrite(name, key)}"`);
	}
	const place = (key: keyof S) => {
		const pair = found.get(String(key));
		return pair ? offsetOf(pair.node, pair.at) : at;
	};
	return { values: values as Entry<S>['values'], place, has: (key: keyof S) => found.has(String(key)) };
}

/** The values with some keys certain to be there; undefined where one of them could not be read. */
export function whole<V extends object, K extends keyof V>(
	values: V,
	keys: readonly K[],
): (Omit<V, K> & { [P in K]-?: Exclude<V[P], undefined> }) | undefined {
	return keys.every(key => values[key] !== undefined)
		? (values as Omit<V, K> & { [P in K]-?: Exclude<V[P], undefined> })
		: undefined;
}
