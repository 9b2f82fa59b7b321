import { isMap, isScalar, isSeq, type ParsedNode, type YAMLMap } from 'yaml';
import type { z } from 'zod';
import type { Source } from './document.ts';
import { inert, notAllowed } from './errors.ts';

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

/** The text of a scalar; undefined, with a complaint, for anything else. */
export function textOf(source: Source, node: Node, name: string, at: number): string | undefined {
	const text = isScalar(node) && typeof node.value === 'string' ? node.value.trim() : undefined;
	if (text) return text;
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
	return `found "${inert(text)}"; ${issue.message}`;
}

/** One value, read as text by a zod schema. */
export function value<T>(schema: z.ZodType<T, string>): Reader<T> {
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

/** A list; a single value stands for a list of one. Items that cannot be read are left out. */
export function list<T>(read: Reader<T>, least = 0): Reader<T[]> {
	return (source, node, name, at) => {
		if (!isSeq(node)) {
			const one = read(source, node, name, at);
			return one === undefined ? undefined : [one];
		}
		if (node.items.length < least) {
			source.fail(offsetOf(node, at), `${name}: found an empty list; at least ${least} wanted`);
			return undefined;
		}
		const items = (node.items as Node[]).map(item =>
			read(source, item, name, offsetOf(item, offsetOf(node, at))),
		);
		return items.filter(item => item !== undefined);
	};
}

export type Pair = { key: string; at: number; node: Node };

/** The pairs of a map, each key once; undefined, with a complaint, for anything but a map. */
export function pairsOf(source: Source, node: Node, name: string, at: number): Pair[] | undefined {
	if (!isMap(node)) {
		source.fail(
			offsetOf(node, at),
			`${name}: found ${isScalar(node) ? `"${inert(String(node.value))}"` : kindOf(node)}; keys with values are wanted`,
		);
		return undefined;
	}
	const seen = new Map<string, Pair>();
	for (const pair of (node as YAMLMap.Parsed).items) {
		const keyAt = offsetOf(pair.key, offsetOf(node, at));
		const key = isScalar(pair.key) ? String(pair.key.value).trim() : undefined;
		if (!key) source.fail(keyAt, `${name}: a key is not a word`);
		else if (seen.has(key)) source.fail(keyAt, `${under(name, inert(key))}: written twice; take one out`);
		else seen.set(key, { key, at: keyAt, node: pair.value });
	}
	return [...seen.values()];
}

/** A map with the keys of a shape: unknown, missing and doubled ones are complained of. */
export function map<S extends Shape>(
	shape: S,
	label?: (text: string | undefined) => string,
): Reader<Entry<S>> {
	return (source, node, name, at) => {
		const pairs = pairsOf(source, node, name, at);
		if (!pairs) return undefined;
		const first = pairs[0]?.node;
		const called = label?.(isScalar(first) ? inert(String(first.value)) : undefined) ?? name;
		const known = Object.keys(shape);
		for (const { key, at: place } of pairs)
			if (!known.includes(key))
				source.fail(place, `${called === '' ? 'key' : `${called}, key`}: ${notAllowed(key, known)}`);
		const own = offsetOf(node, at);
		return { ...readFields(source, shape, pairs, called, own), at: own, name: called };
	};
}

function readFields<S extends Shape>(source: Source, shape: S, pairs: Pair[], name: string, at: number) {
	const found = new Map(pairs.map(pair => [pair.key, pair]));
	const values: Record<string, unknown> = {};
	for (const [key, field] of Object.entries(shape)) {
		const pair = found.get(key);
		if (pair) values[key] = field.read(source, pair.node, under(name, key), pair.at);
		else if (field.must) source.fail(at, `${under(name, key)} is missing: write "${key}: …"`);
		else values[key] = field.default;
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
