import type { Cause } from './causes.ts';
import { fromHandbook } from './effects-faa.ts';
import { fromManual } from './effects-tm.ts';

/** What a cause shows as. */
export type Effect = {
	kind: string;
	/** How much oftener than another kind of the same cause. */
	weight: number;
	source: string;
};
export type Effects = (cause: Cause) => readonly Effect[];

/** Kinds of a cause, by its code, and by form where its forms differ: `pressure-off low`. */
export type Table = Readonly<Record<string, readonly string[]>>;

/** A kind that a book names under a cause comes twice as often as one that the trade alone knows: books give no rates. */
const weights = { book: 2, trade: 1 } as const;

/** Where the books are silent: common practice, no source. */
const common: Table = {
	'fan-along-stroke': ['run', 'sag', 'stripes', 'thin'],
	'bad-pattern': ['stripes', 'run', 'thin', 'spit'],
	'pressure-off low': ['spit', 'stripes'],
	'pressure-off high': ['thin'],
	'no-hardener': ['stays-soft', 'stays-soft', 'wrinkling'],
	'wrong-ratio hardener short': ['stays-soft', 'stays-soft', 'die-back'],
	'wrong-ratio hardener over': ['solvent-pop', 'die-back'],
	'wrong-ratio reducer short': ['orange-peel'],
	'wrong-ratio reducer over': ['thin'],
	'wrong-can reducer': ['solvent-pop'],
	'wrong-can hardener': ['stays-soft', 'stays-soft', 'die-back'],
	'viscosity-off thick': ['spit', 'solvent-pop'],
	'viscosity-off thin': ['thin'],
	'batch-too-old': ['orange-peel', 'spit', 'peeling', 'die-back'],
	'air-out-of-limits humid': ['die-back'],
	'air-out-of-limits cold': ['sag', 'stays-soft'],
	'air-out-of-limits warm': ['dry-spray', 'solvent-pop'],
	'air-line': ['fisheye', 'blush'],
	// Under 6 in: NAVEDTRA 14018, by the trade facts.
	'gun-too-near': ['orange-peel'],
	'gun-too-far': ['thin', 'orange-peel'],
	'film-too-heavy': ['solvent-pop', 'die-back'],
	'film-too-light': ['thin', 'dry-spray', 'orange-peel', 'stripes'],
	'face-missed': ['bare', 'bare', 'thin'],
	'too-many-coats': ['run', 'sag', 'solvent-pop', 'die-back'],
	'coat-too-early': ['solvent-pop', 'die-back', 'lifting'],
	'window-missed': ['lifting', 'peeling'],
	surface: ['lifting'],
	handling: ['fisheye', 'peeling', 'torn-edge', 'bridging'],
	'not-stood': ['pinholes', 'pinholes', 'blush'],
	'dirt-in-paint': ['bits', 'bits', 'spit'],
};

const rows = (table: Table, { code, form }: Cause): readonly string[] => [
	...(table[code] ?? []),
	...(form === '' ? [] : (table[`${code} ${form}`] ?? [])),
];

/** @param by `faa`: the main table; `tm`: the second one, on which nothing is tuned */
export function effectsFor(by: 'faa' | 'tm'): Effects {
	const book = by === 'faa' ? fromHandbook : fromManual;
	return cause => [
		...rows(book.table, cause).map(kind => ({ kind, weight: weights.book, source: book.source })),
		...rows(common, cause).map(kind => ({
			kind,
			weight: weights.trade,
			source: 'common practice, no source',
		})),
	];
}
