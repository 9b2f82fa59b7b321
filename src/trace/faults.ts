import * as z from 'zod/mini';
import { readDocument, type Source } from '../job/document.ts';
import { errorLine } from '../job/errors.ts';
import { list, map, may, must, pairsOf, type Reader, value, whole } from '../job/fields.ts';
import { inert } from '../job/inert.ts';
import { complain, fromText, word } from '../job/values.ts';

export type Claim = {
	cause: string;
	/** In what way it was wrong; `low`, `thick`; left out: in none of several. */
	form?: string | undefined;
	source: string;
	/** Which published order it stands in, where a fault has several. */
	list?: string | undefined;
	/** What exactly the source says, where sources differ. */
	as?: string | undefined;
};
export type Fault = {
	say: string;
	/** First and last minute after the coat at which it is usually seen. */
	shows: { from_min: number; to_min: number };
	/** `this`: put in with the coat it is seen on; `under`: with that coat or one under it. */
	reach: 'this' | 'under';
	/** Whether it starts a search. */
	trace: boolean;
	/** The causes stand in no order. */
	flat?: boolean | undefined;
	causes: Claim[];
};
/** `check`: the one that would have caught it. */
export type Cause = { say: string; check: string };
/** Fault kinds and causes in force. */
export type FaultData = { causes: Record<string, Cause>; faults: Record<string, Fault> };

const codes = /^[a-z][a-z0-9-]{0,40}$/;
const codeSays = 'a code is small letters, digits and hyphens, as in "fish-eyes"';
const code = z.string().check(z.regex(codes, { message: codeSays }));
const words = z.string();

const minutes = fromText((text, ctx): number => {
	const read = /^\d{1,9}(\.\d{1,6})?$/.test(text) ? Number(text) : Number.NaN;
	return Number.isFinite(read) ? read : complain(ctx, 'minutes are wanted, as in 0.5 or 90');
});
const someMinutes = minutes.check(z.refine(found => found > 0, { message: 'allowed: more than 0' }));

const claim = {
	cause: must(value(code)),
	form: may(value(code)),
	source: must(value(words)),
	list: may(value(words)),
	as: may(value(words)),
};
const yes = word({ yes: true, no: false, true: true, false: false });
const fault = {
	say: must(value(words)),
	shows: must(map({ from_min: must(value(minutes)), to_min: must(value(someMinutes)) })),
	reach: must(value(z.enum(['this', 'under']))),
	trace: may(value(yes), true),
	flat: may(value(yes)),
	causes: must(list(map(claim), 1)),
};
const cause = { say: must(value(words)), check: must(value(words)) };

/** Entries by codes of their own, each read as what it stands for; those that cannot be are left out. */
const byCode =
	<Entry, Of>(read: Reader<Entry>, make: (entry: Entry) => Of | undefined): Reader<[string, Of][]> =>
	(source, node, name, at) => {
		const found: [string, Of][] = [];
		for (const pair of pairsOf(source, node, name, at) ?? []) {
			if (!codes.test(pair.key)) source.fail(pair.at, `${name}: found "${inert(pair.key)}"; ${codeSays}`);
			const entry = read(source, pair.node, `${name}, ${inert(pair.key)}`, pair.at);
			const made = entry === undefined ? undefined : make(entry);
			if (made !== undefined) found.push([pair.key, made]);
		}
		return found;
	};

const readFile = map({
	causes: may(byCode(map(cause), ({ values }) => whole(values, ['say', 'check']))),
	faults: may(
		byCode(map(fault), ({ values }): Fault | undefined => {
			const read = whole(values, ['say', 'shows', 'reach', 'trace', 'causes']);
			const shows = read && whole(read.shows.values, ['from_min', 'to_min']);
			const causes = read?.causes.flatMap(one => whole(one.values, ['cause', 'source']) ?? []);
			return read && shows && causes ? { ...read, shows, causes } : undefined;
		}),
	),
});

/** A faults file that cannot be used: `file:line:column: what is wrong and what to do`, as plain text whatever it holds. */
export class FaultsError extends Error {
	override readonly name = 'FaultsError';
	constructor(message: string) {
		super(inert(message));
	}
}

const refuse = ({ errors }: Pick<Source, 'errors'>) => {
	const [first] = errors.toSorted((one, other) => one.line - other.line || one.column - other.column);
	return new FaultsError(first ? errorLine(first) : 'not a faults file');
};

/** Names of a shop's own choosing, with nothing behind them that nobody wrote. */
const record = <Of>(entries: Iterable<readonly [string, Of]>): Record<string, Of> =>
	Object.assign(Object.create(null), Object.fromEntries(entries));

/**
 * Reads one faults file.
 * @param file its name, for messages
 * @throws FaultsError where the YAML or a field is wrong
 */
export function readFaults(text: string, file: string): FaultData {
	const source = readDocument(text, file);
	const read = source.root ? readFile(source, source.root, '', 0) : undefined;
	if (source.errors.length > 0) throw refuse(source);
	return { causes: record(read?.values.causes ?? []), faults: record(read?.values.faults ?? []) };
}

/**
 * Joins the built-in kinds with a shop's own: new names are added, known ones gain the shop's causes, which go
 * first, and take its words.
 * @throws FaultsError for a cause that no file describes
 */
export function joinFaults(files: readonly FaultData[]): FaultData {
	const causes = record(files.flatMap(one => Object.entries(one.causes)));
	const faults = record<Fault>([]);
	for (const file of files)
		for (const [name, own] of Object.entries(file.faults)) {
			const known = faults[name];
			faults[name] = known ? { ...known, ...own, causes: [...own.causes, ...known.causes] } : own;
		}
	for (const [name, { causes: claims }] of Object.entries(faults))
		for (const { cause: one } of claims)
			if (!causes[one])
				throw new FaultsError(`fault ${name}: cause ${one} is not described: add it under causes`);
	return { causes, faults };
}

/** Codes of the causes of a fault, likeliest first, each once. */
export const causesOf = (fault: Fault): string[] => [...new Set(fault.causes.map(({ cause }) => cause))];

/** What sources say of one cause of a fault; more than one line where they disagree. */
export const claimsOf = (fault: Fault, cause: string): Claim[] =>
	fault.causes.filter(claim => claim.cause === cause);
