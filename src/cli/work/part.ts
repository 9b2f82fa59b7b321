import { type Bounds, boundsOf, outOf } from '../../job/bounds.ts';
import { nearest } from '../../trade/nearest.ts';
import { parseQuantity, type Quantity, type UnitSystem } from '../../trade/quantity.ts';
import type { Args, Command, Io, Option } from '../command.ts';

/** What was asked for, read with its units. Every refusal is a RangeError with one line. */
export type Given = {
	units: UnitSystem;
	has(name: string): boolean;
	/** The words of an option; refused where it is missing. */
	text(name: string): string;
	/** In the base unit of its kind. */
	quantity(name: string, kind: Quantity): number;
	quantityOr(name: string, kind: Quantity, standard: number): number;
	/** A number without a unit. */
	numberOr(name: string, standard: number): number;
};

/** What came out: keys for `--json`, lines for people. `status` 1: the answer is no. */
export type Worked = { keys: Record<string, unknown>; lines: string[]; status?: 1 };

export type Part = Omit<Command, 'run' | 'parts'> & { work(given: Given): Worked };

const shared: Record<string, Option> = {
	units: { type: 'string', value: 'us|metric', says: 'units of the answer' },
	json: { type: 'boolean', says: 'SI values, keys ending in their unit' },
};

/** Shares that have ends of their own, as the functions that they go to. */
const narrower: Partial<Record<string, Bounds>> = {
	solids: { least: 0.01, most: 1, allowed: '1% to 100%' },
	humidity: { least: 0.01, most: 1, allowed: '1% to 100%' },
	transfer: { least: 0.05, most: 1, allowed: '5% to 100%' },
	overlap: { least: 0, most: 0.95, allowed: '0% to 95%' },
	thin: { least: 0, most: 2, allowed: '0% to 200%' },
	reduce: { least: 0, most: 2, allowed: '0% to 200%' },
};

function unitsOf({ options }: Args, io: Io): UnitSystem {
	const asked = options.units ?? io.units ?? 'us';
	if (asked === 'us' || asked === 'metric') return asked;
	throw new RangeError(
		`--units "${asked}" is unknown: the nearest is "${nearest(String(asked), ['us', 'metric'])}"`,
	);
}

function givenBy(args: Args, table: Record<string, Option>, io: Io): Given {
	const has = (name: string) => args.options[name] !== undefined;
	const text = (name: string): string => {
		const value = args.options[name];
		if (typeof value === 'string') return value;
		throw new RangeError(`--${name} is missing: give ${table[name]?.value ?? 'a value'}`);
	};
	const quantity = (name: string, kind: Quantity): number => {
		const parsed = parseQuantity(text(name), kind);
		const wrong = parsed.ok ? outOf(narrower[name] ?? boundsOf[kind], parsed.value) : null;
		if (parsed.ok && wrong === null) return parsed.value;
		if (parsed.ok) throw new RangeError(`--${name} "${text(name)}": ${wrong}`);
		throw new RangeError(`--${name} "${text(name)}", column ${parsed.column}: ${parsed.message}`);
	};
	const number = (name: string): number => {
		const value = Number(text(name));
		if (Number.isFinite(value) && text(name).trim() !== '') return value;
		throw new RangeError(`--${name} "${text(name)}", column 1: a number without a unit is wanted, as in "2"`);
	};
	return {
		units: unitsOf(args, io),
		has,
		text,
		quantity,
		quantityOr: (name, kind, standard) => (has(name) ? quantity(name, kind) : standard),
		numberOr: (name, standard) => (has(name) ? number(name) : standard),
	};
}

/** Makes a command of a calculation: reads, works out, prints; what it cannot use is one line and status 2. */
export function workPart({ work, ...part }: Part): Command {
	const options = { ...part.options, ...shared };
	return {
		...part,
		options,
		run(args, io) {
			try {
				const [word] = args.positionals;
				if (word !== undefined)
					throw new RangeError(`"${word}" stands alone: put it behind an option, in quotes`);
				const { keys, lines, status } = work(givenBy(args, options, io));
				io.stdout.write(args.options.json ? `${JSON.stringify(keys)}\n` : `${lines.join('\n')}\n`);
				return status ?? 0;
			} catch (error) {
				if (!(error instanceof RangeError)) throw error;
				io.stderr.write(`fanwise work ${part.name}: ${error.message}\n`);
				return 2;
			}
		},
	};
}
