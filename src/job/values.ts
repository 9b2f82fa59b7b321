import * as z from 'zod/mini';
import { parseQuantity, type Quantity, unitWritten } from '../trade/quantity.ts';
import { boundsOf, outOf } from './bounds.ts';
import { unseenIn } from './inert.ts';

/** How the texts of a sheet are read: each a schema from what was written to a value in base units. */

type Context = z.core.ParsePayload;
/** A schema that reads a value out of what was written. */
export const fromText = <T>(read: (text: string, ctx: Context) => T) => z.pipe(z.string(), z.transform(read));

/** Says what is wrong with a text, and at which column of it. */
export const complain = (ctx: Context, message: string, column = 1) => {
	ctx.issues.push({ code: 'custom', message, input: ctx.value, params: { column } });
	return z.NEVER;
};

/** Base value of one quantity that begins at a column of a longer text. */
function amount(kind: Quantity, text: string, ctx: Context, from = 1): number {
	const read = parseQuantity(text, kind);
	if (!read.ok) return complain(ctx, read.message, from - 1 + read.column);
	const wrong = outOf(boundsOf[kind], read.value);
	return wrong ? complain(ctx, wrong, from) : read.value + 0;
}

/** One quantity with its unit, in the base unit of its kind and within what can be meant. */
export const quantity = (kind: Quantity) => fromText((text, ctx): number => amount(kind, text, ctx));

/** A quantity above zero. */
export const some = (kind: Quantity) =>
	quantity(kind).check(z.refine(found => found > 0, { message: 'allowed: more than 0' }));

/** One quantity, and the unit it is written in where that is one of those asked about. */
export const writtenIn = <const Unit extends string>(kind: Quantity, units: readonly Unit[]) =>
	fromText((text, ctx): { value: number; unit: Unit | undefined } => {
		const value = amount(kind, text, ctx);
		const written = parseQuantity(text, kind).ok ? unitWritten(text, kind) : undefined;
		return { value, unit: units.find(unit => unit === written) };
	});

/** A quantity, or `none` for zero. */
export const orNone = (kind: Quantity) =>
	fromText((text, ctx): number => (text === 'none' ? 0 : amount(kind, text, ctx)));

/** Splits at a word, and says at which column the second half begins. */
function halves(text: string, between: RegExp): { left: string; right: string; column: number } | undefined {
	const match = between.exec(text);
	if (!match) return undefined;
	const column = match.index + match[0].length + 1;
	return { left: text.slice(0, match.index), right: text.slice(column - 1), column };
}

const bare = /^[+\-−]?(?:[\d.]+|(?:\d+\s+)?\d+\/\d+)$/;
const unitOf = (text: string): string =>
	text.replace(/^[+\-−]?(?:(?:\d+\s+)?\d+\/\d+|[\d.]+(?:e[+-]?\d+)?)/i, '');

/** `60 to 75 °F`: both ends, rising; the first may lean on the unit of the second. */
export const range = (kind: Quantity) =>
	fromText((text, ctx): [number, number] => {
		const parts = halves(text, /\s+to\s+/);
		if (!parts) return complain(ctx, 'a range is wanted, as in "60 °F to 75 °F"');
		const left = bare.test(parts.left) ? `${parts.left}${unitOf(parts.right)}` : parts.left;
		const low = amount(kind, left, ctx);
		const high = amount(kind, parts.right, ctx, parts.column);
		return low < high ? [low, high] : complain(ctx, 'the second must be more than the first', parts.column);
	});

/** `5 h to 8 h`, or `from 24 h` without an end; seconds. */
export const span = fromText((text, ctx): { from_s: number; until_s: number | null } => {
	const open = /^(?:from|after)\s+/.exec(text);
	if (open)
		return { from_s: amount('time', text.slice(open[0].length), ctx, open[0].length + 1), until_s: null };
	const parts = halves(text, /\s+to\s+/);
	if (!parts) return complain(ctx, 'a span is wanted, as in "5 h to 8 h" or "from 24 h"');
	const left = bare.test(parts.left) ? `${parts.left}${unitOf(parts.right)}` : parts.left;
	const from_s = amount('time', left, ctx);
	const until_s = amount('time', parts.right, ctx, parts.column);
	if (from_s >= until_s) return complain(ctx, 'it ends before it begins', parts.column);
	return { from_s, until_s };
});

/** `07:30`, or `7:30 am`, in minutes from midnight; undefined: it is no time of day. */
export function timeOfDay_min(text: string): number | undefined {
	const [, hour = '', minute, half] = /^(\d{1,2}):([0-5]\d)(?:\s*([ap]m))?$/i.exec(text.trim()) ?? [];
	const isPast = Number(hour) > (half ? 12 : 23) || (half !== undefined && Number(hour) === 0);
	if (minute === undefined || isPast) return undefined;
	const at = half === undefined ? Number(hour) : (Number(hour) % 12) + (half.toLowerCase() === 'pm' ? 12 : 0);
	return at * 60 + Number(minute);
}

/** A time of day as screens and sheets have it. */
export const timeOfDay = (minutes: number): string =>
	[Math.floor(minutes / 60), minutes % 60].map(count => String(count).padStart(2, '0')).join(':');

/** `4 h at 70 °F`. */
export const timeAt = fromText((text, ctx): { at_C: number; hours: number } => {
	const parts = halves(text, /\s+at\s+/);
	if (!parts) return complain(ctx, 'a time at a temperature is wanted, as in "4 h at 70 °F"');
	const hours = amount('time', parts.left, ctx) / 3600;
	const at_C = amount('temperature', parts.right, ctx, parts.column);
	return hours > 0 ? { at_C, hours } : complain(ctx, 'allowed: more than 0');
});

/** `30 min at 20 °C`, or `30 min to 8 h at 20 °C`. */
export const waitAt = fromText((text, ctx): { from_s: number; to_s: number | null; at_C: number } => {
	const parts = halves(text, /\s+at\s+/);
	if (!parts) return complain(ctx, 'a time at a temperature is wanted, as in "30 min at 20 °C"');
	const at_C = amount('temperature', parts.right, ctx, parts.column);
	const both = halves(parts.left, /\s+to\s+/);
	if (!both) return { from_s: amount('time', parts.left, ctx), to_s: null, at_C };
	const left = bare.test(both.left) ? `${both.left}${unitOf(both.right)}` : both.left;
	return { from_s: amount('time', left, ctx), to_s: amount('time', both.right, ctx, both.column), at_C };
});

export const cupKinds = ['gravity', 'suction', 'pressure'] as const;
/** `600 mL gravity`. */
export const cupLine = fromText((text, ctx) => {
	const kind = cupKinds.find(one => text.endsWith(` ${one}`));
	if (!kind) return complain(ctx, 'what it holds and its kind are wanted, as in "600 mL gravity"');
	return {
		holds: amount('volume', text.slice(0, -kind.length).trimEnd(), ctx),
		kind,
		tilted: 'pours' as const,
	};
});

/** `25 cm at 15 cm`: the fan, and the distance at which it was measured; mm. */
export const fanLine = fromText((text, ctx): { fan: number; distance?: number } => {
	const parts = halves(text, /\s+at\s+/);
	const fan = amount('length', parts?.left ?? text, ctx);
	return parts ? { fan, distance: amount('length', parts.right, ctx, parts.column) } : { fan };
});

/** A flow cup: `din4, 17 to 20 s`, or with the temperature that its seconds are given for: `… at 20 °C`. */
export const flowCupLine = fromText((text, ctx): { kind: string; runs: [number, number]; at?: number } => {
	const [, kind, times = '', degrees] = /^(.+?)\s*,\s*(.+?)(?:\s+at\s+(.+))?$/.exec(text) ?? [];
	if (kind === undefined) return complain(ctx, 'as in "din4, 17 to 20 s at 20 °C"');
	const runs = range('time').safeParse(times);
	if (!runs.success) return complain(ctx, `${runs.error.issues[0]?.message}; as in "din4, 17 to 20 s"`);
	const at = degrees === undefined ? {} : { at: amount('temperature', degrees, ctx) };
	return { kind, runs: runs.data, ...at };
});

/** `42% ± 3%`, or without a tolerance. */
export const shareWithin = (least: number, tolerance: number) =>
	fromText((text, ctx): { share: number; tolerance: number } => {
		const parts = halves(text, /\s*(?:±|\+\/-)\s*/);
		const share = amount('share', parts?.left ?? text, ctx);
		if (share < least) return complain(ctx, `allowed: ${least * 100}% to 100%`);
		const off = parts ? amount('share', parts.right, ctx, parts.column) : tolerance;
		return off <= 0.5 ? { share, tolerance: off } : complain(ctx, 'allowed: ± up to 50%', parts?.column);
	});

/** `200 mL/min`, or what a cup caught: `100 mL in 30 s`; mL/min. */
function flowOf(text: string, ctx: Context): number {
	const caught = halves(text, /\s+in\s+/);
	if (!caught) return amount('flow', text, ctx);
	const [volume_mL, time_s] = [
		amount('volume', caught.left, ctx),
		amount('time', caught.right, ctx, caught.column),
	];
	const flow_mL_per_min = (volume_mL / time_s) * 60;
	if (flow_mL_per_min > 0 && flow_mL_per_min <= 20_000) return flow_mL_per_min;
	return complain(ctx, `allowed: ${boundsOf.flow?.allowed}`);
}

/** `7 fl oz/min ± 3%`: the ± is a share of it; without one, what is not measured is. */
export const flowWithin = (tolerance: number) =>
	fromText((text, ctx): { mL_per_min: number; tolerance: number } => {
		const parts = halves(text, /\s*(?:±|\+\/-)\s*/);
		const mL_per_min = flowOf(parts?.left ?? text, ctx);
		const off = parts ? amount('share', parts.right, ctx, parts.column) : tolerance;
		return off < 1 ? { mL_per_min, tolerance: off } : complain(ctx, 'allowed: ± up to 99%', parts?.column);
	});

/** `1.0 mil`, or `0.8 to 1.2 mil`: aimed at is the middle. */
export const filmAim = fromText((text, ctx): { aim_um: number; range_um: [number, number] | null } => {
	const parts = halves(text, /\s+to\s+/);
	if (!parts) return { aim_um: amount('film', text, ctx), range_um: null };
	const left = bare.test(parts.left) ? `${parts.left}${unitOf(parts.right)}` : parts.left;
	const low = amount('film', left, ctx);
	const high = amount('film', parts.right, ctx, parts.column);
	if (low >= high) return complain(ctx, 'the second must be more than the first', parts.column);
	return { aim_um: (low + high) / 2, range_um: [low, high] };
});

/** Lengths with an x between them, mm; a bare number leans on the unit of the last one. */
export function lengthsOf(text: string, ctx: Context, from = 1): number[] {
	const last = unitOf(text.split(/\s*[x×]\s*/).at(-1) ?? '');
	const lengths: number[] = [];
	for (let rest = text, column = from; ; ) {
		const parts = halves(rest, /\s*[x×]\s*/);
		const one = parts?.left ?? rest;
		lengths.push(amount('length', bare.test(one) ? `${one}${last}` : one, ctx, column));
		if (!parts) return lengths;
		rest = parts.right;
		column += parts.column - 1;
	}
}

/** `24 in x 36 in`: across and along, mm. */
export const size = fromText((text, ctx): [number, number] => {
	const [across, along, ...more] = /[x×]/.test(text) ? lengthsOf(text, ctx) : [];
	if (across !== undefined && along !== undefined && more.length === 0) return [across, along];
	return complain(ctx, 'a size is wanted: width by height, as in "24 in x 36 in"');
});

/** A plain number without a unit. */
export const plainNumber = (least: number, most: number) =>
	fromText((text, ctx): number => {
		const found = /^\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
		if (found >= least && found <= most) return found;
		return complain(ctx, `allowed: a number from ${least} to ${most}`);
	});

export const wholeNumber = (least: number, most: number) =>
	plainNumber(least, most).check(z.refine(Number.isInteger, { message: 'allowed: a whole number' }));

/** `400`, `400 grit` or `P400`. */
export const grit = z.pipe(
	fromText(text => text.replace(/\s*grit$/, '').replace(/^[Pp](?=\d)/, '')),
	wholeNumber(24, 10_000),
);

export const yesOrNo = z.pipe(
	z.enum(['yes', 'no']),
	z.transform(word => word === 'yes'),
);

/** One of some words, and what each stands for. */
export const word = <const T extends Record<string, unknown>>(words: T) =>
	z.pipe(
		z.enum(Object.keys(words) as [Extract<keyof T, string>]),
		z.transform((key): T[keyof T] => words[key] as T[keyof T]),
	);

const longest = 60;

/** A name of the painter's own choosing, on one line and short enough for a screen. */
export const name = fromText((text, ctx): string => {
	const unseen = unseenIn(text);
	if (unseen) return complain(ctx, `${unseen.code} cannot be seen or is obeyed by terminals: take it out`);
	const tidy = text.normalize('NFC').replaceAll(/\s+/g, ' ');
	if ([...tidy].length > longest)
		return complain(ctx, `${[...tidy].length} letters; allowed: up to ${longest}`);
	return tidy;
});

/** A name that others refer to: no slash, and none that the program keeps for itself. */
export const key = name.check(
	z.refine(text => !text.includes('/'), { message: 'a name has no "/"' }),
	z.refine(text => !(text in {}), { message: 'the program keeps this word for itself: choose another name' }),
);
