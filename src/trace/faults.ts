import { LineCounter, parseDocument } from 'yaml';
import * as z from 'zod/mini';
import en from 'zod/v4/locales/en.js';
import { inert } from '../job/inert.ts';

/** What is wrong with a field is said in the library's own English. */
z.config(en());

const code = z.string().check(z.regex(/^[a-z][a-z0-9-]*$/, 'a code is small letters, digits and hyphens'));

const claimSchema = z.strictObject({
	cause: code,
	source: z.string().check(z.minLength(1)),
	/** What exactly the source says, where sources differ. */
	as: z.optional(z.string()),
});

const faultSchema = z.strictObject({
	say: z.string().check(z.minLength(1)),
	shows: z.strictObject({ from_min: z.number().check(z.minimum(0)), to_min: z.number().check(z.positive()) }),
	/** `this`: put in with the coat it is seen on; `under`: with that coat or one under it. */
	reach: z.enum(['this', 'under']),
	/** Whether it starts a search. */
	trace: z._default(z.boolean(), true),
	causes: z.array(claimSchema).check(z.minLength(1)),
});

const causeSchema = z.strictObject({
	say: z.string().check(z.minLength(1)),
	/** The check that would have caught it. */
	check: z.string().check(z.minLength(1)),
});

const fileSchema = z.strictObject({
	causes: z._default(z.record(code, causeSchema), {}),
	faults: z._default(z.record(code, faultSchema), {}),
});

export type Claim = z.infer<typeof claimSchema>;
export type Fault = z.infer<typeof faultSchema>;
export type Cause = z.infer<typeof causeSchema>;
/** Fault kinds and causes in force. */
export type FaultData = { causes: Record<string, Cause>; faults: Record<string, Fault> };

/** A faults file that cannot be used: `file:line:column: what is wrong and what to do`, as plain text whatever it holds. */
export class FaultsError extends Error {
	override readonly name = 'FaultsError';
	constructor(message: string) {
		super(inert(message));
	}
}

function place(file: string, lines: LineCounter, offset: number): string {
	const { line, col } = lines.linePos(offset);
	return `${file}:${line}:${col}`;
}

/**
 * Reads one faults file.
 * @param file its name, for messages
 * @throws FaultsError where the YAML or a field is wrong
 */
export function readFaults(text: string, file: string): FaultData {
	const lines = new LineCounter();
	const document = parseDocument(text, { lineCounter: lines });
	const broken = document.errors[0];
	if (broken)
		throw new FaultsError(`${place(file, lines, broken.pos[0])}: not YAML: ${broken.message.split('\n')[0]}`);
	const read = fileSchema.safeParse(document.toJS() ?? {});
	if (read.success) return read.data;
	const issue = read.error.issues[0];
	const path = (issue?.path ?? []) as (string | number)[];
	const node = document.getIn(path.length > 0 ? path : [], true) as
		| { range?: [number, number, number] }
		| undefined;
	throw new FaultsError(
		`${place(file, lines, node?.range?.[0] ?? 0)}: ${path.join('.')}: ${issue?.message ?? 'not a faults file'}`,
	);
}

/**
 * Joins the built-in kinds with a shop's own: new names are added, known ones gain the shop's causes, which go
 * first, and take its words.
 * @throws FaultsError for a cause that no file describes
 */
export function joinFaults(files: readonly FaultData[]): FaultData {
	const joined: FaultData = { causes: {}, faults: {} };
	for (const { causes, faults } of files) {
		Object.assign(joined.causes, causes);
		for (const [name, fault] of Object.entries(faults)) {
			const known = joined.faults[name];
			joined.faults[name] = known ? { ...fault, causes: [...fault.causes, ...known.causes] } : fault;
		}
	}
	for (const [name, fault] of Object.entries(joined.faults))
		for (const { cause } of fault.causes)
			if (!joined.causes[cause])
				throw new FaultsError(`fault ${name}: cause ${cause} is not described: add it under causes`);
	return joined;
}

/** Codes of the causes of a fault, likeliest first, each once. */
export const causesOf = (fault: Fault): string[] => [...new Set(fault.causes.map(({ cause }) => cause))];

/** What sources say of one cause of a fault; more than one line where they disagree. */
export const claimsOf = (fault: Fault, cause: string): Claim[] =>
	fault.causes.filter(claim => claim.cause === cause);
