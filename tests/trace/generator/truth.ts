import type { Horns, Job } from '../../../src/job/job.ts';

/**
 * What is really so, kept beside the records and never in them. The model of cause and effect is this file's
 * own: limits at which paint goes wrong lie beyond the limits a data sheet gives.
 */
export type Gun = { horns: Horns; bad: boolean; pressure_kPa: number; flow: number };

export type BatchTruth = {
	letter: string;
	material: string;
	mixed: number;
	/** Share of the hardener, and of the reducer, that ought to be in it. */
	hardener: number;
	reducer: number;
	rightCans: boolean;
	stood: boolean;
	seconds: number;
	mL: number;
};

export type Hidden = {
	fanAlong: boolean;
	bad: boolean;
	/** Real pressure ÷ wanted. */
	pressure: number;
	hardener: number;
	reducer: number;
	rightCans: boolean;
	stood: boolean;
	seconds: number;
	/** Age of the oldest batch ÷ its pot life. */
	age: number;
	humidity: number;
	airC: number;
	/** Wait before this coat ÷ the wait really needed; null for a first coat. */
	wait: number | null;
	/** Past the last moment a coat could be laid without sanding, and not sanded. */
	shut: boolean;
	/** Film ÷ the film wanted. */
	film: number;
	missed: boolean;
	extra: boolean;
	clean: boolean;
	snagged: boolean;
};

export type Sprayed = {
	face: string;
	coat: number;
	day: number;
	began: number;
	ended: number;
	cup: string[];
	hidden: Hidden;
};

/** What truly went wrong with one coat on one face: the codes of all true causes at work. */
export function wrong(hidden: Hidden): string[] {
	const found: [boolean, string][] = [
		[hidden.fanAlong, 'fan-along-stroke'],
		[hidden.bad, 'bad-pattern'],
		[hidden.pressure < 0.8 || hidden.pressure > 1.25, 'pressure-off'],
		[hidden.hardener < 0.1, 'no-hardener'],
		[!hidden.rightCans, 'wrong-can'],
		[(hidden.hardener >= 0.1 && hidden.hardener < 0.85) || hidden.reducer > 1.4, 'wrong-ratio'],
		[hidden.age > 1.15, 'batch-too-old'],
		[!hidden.stood, 'not-stood'],
		[hidden.seconds < 15 || hidden.seconds > 26, 'viscosity-off'],
		[hidden.humidity > 0.86 || hidden.airC < 12 || hidden.airC > 35, 'air-out-of-limits'],
		[hidden.wait !== null && hidden.wait < 0.6, 'coat-too-early'],
		[hidden.shut, 'window-missed'],
		[hidden.film > 1.5, 'film-too-heavy'],
		[hidden.film < 0.6 && !hidden.missed, 'film-too-light'],
		[hidden.missed, 'face-missed'],
		[hidden.extra, 'too-many-coats'],
		[!hidden.clean, 'surface'],
		[hidden.snagged, 'handling'],
	];
	return found.filter(([is]) => is).map(([, code]) => code);
}

/** When a fault can first be seen after the coat was laid, minutes: from the trade's own table. */
const shows: Record<string, [number, number]> = {
	run: [0.5, 8],
	sag: [1, 15],
	fisheye: [0.2, 3],
	spit: [0.1, 2],
	blush: [3, 30],
	wrinkling: [5, 60],
	lifting: [5, 60],
	'solvent-pop': [20, 1500],
	pinholes: [20, 600],
	'orange-peel': [30, 240],
	'dry-spray': [30, 240],
	stripes: [30, 240],
	thin: [20, 240],
	bare: [5, 600],
	peeling: [900, 2000],
	'stays-soft': [900, 1500],
	'die-back': [1500, 20000],
	'torn-edge': [1440, 2880],
	bridging: [1440, 2880],
};

export const delay = (fault: string): [number, number] => shows[fault] ?? [1, 10];

/** Faults that a coat may hide until the next one lies on it. */
export const seenOnNext = new Set(['solvent-pop', 'pinholes', 'die-back']);

/** The faults that one true cause may make on a face. */
export function faultsOf(
	cause: string,
	hidden: Hidden,
	attitude: Job['faces'][number]['attitude'],
): string[] {
	const upright = attitude !== 'flat';
	const table: Record<string, string[]> = {
		'fan-along-stroke': upright ? ['run'] : ['stripes'],
		'bad-pattern': ['stripes', 'spit'],
		'pressure-off': hidden.pressure < 1 ? ['orange-peel'] : ['dry-spray'],
		'no-hardener': ['stays-soft'],
		'wrong-can': ['stays-soft', 'solvent-pop'],
		'wrong-ratio': hidden.hardener < 0.85 ? ['stays-soft'] : ['run', 'sag'],
		'batch-too-old': ['orange-peel'],
		'not-stood': ['pinholes'],
		'viscosity-off': hidden.seconds > 20 ? ['orange-peel'] : ['sag', 'run'],
		'air-out-of-limits': hidden.humidity > 0.86 ? ['blush'] : hidden.airC < 20 ? ['sag'] : ['dry-spray'],
		'coat-too-early': ['wrinkling', 'solvent-pop'],
		'window-missed': ['lifting', 'peeling'],
		'film-too-heavy': upright ? ['run', 'sag', 'solvent-pop', 'die-back'] : ['solvent-pop', 'die-back'],
		'film-too-light': ['dry-spray', 'thin'],
		'face-missed': ['bare'],
		'too-many-coats': upright ? ['run', 'sag'] : ['solvent-pop'],
		surface: ['fisheye', 'peeling'],
		handling: ['torn-edge'],
	};
	return table[cause] ?? [];
}
