import { coatKey } from '../../records/passes.ts';
import type { CoatRow } from './coats.ts';
import { type Day, ofType } from './day.ts';
import type { FilmRow } from './film.ts';
import type { BreakRow } from './happenings.ts';
import type { CheckRow, FirstRow } from './readings.ts';

/** The figures of a day, counted here and nowhere else: page, summary, tables, data and `now` say these. */
export type Counts = {
	/** Whole coats on the faces of the sheet, those of earlier days with them, and those that it plans. */
	coats_on: number;
	coats_planned: number;
	/** Laid whole on this day, and the faces that they lie on; begun and not whole, or nobody said. */
	coats_laid: number;
	faces_sprayed: number;
	coats_in_part: number;
	sprayed_s: number;
	/** Of features that something was wanted of. */
	first_readings: number;
	first_differed: number;
	/** … and what they lasted, those that never ended left out. */
	breaks: number;
	broken_off_s: number;
	checks_passed: number;
	overrides: number;
	faults: number;
	batches: number;
	/** Coats whose film follows from the trigger's pulls, and those that a gauge was read on. */
	films_worked_out: number;
	films_read: number;
	/** Coats whose film departs from its target, its uncertainty counted. */
	films_over: number;
	films_under: number;
};

type Counted = {
	coats: readonly CoatRow[];
	film: readonly FilmRow[];
	first: readonly FirstRow[];
	breaks: readonly BreakRow[];
	checks: readonly CheckRow[];
	overrides: readonly unknown[];
	faults: readonly unknown[];
	batches: readonly unknown[];
};

const sum = <Row>(rows: readonly Row[], of: (row: Row) => number): number =>
	rows.reduce((all, row) => all + of(row), 0);

/** A coat that is on whole. */
export const isWhole = ({ extent }: CoatRow): boolean => extent === 'all';

/** How many whole coats lie on a face, those of earlier days with them. */
export const coatsOn = ({ opened }: Day, coats: readonly CoatRow[], id: string): number =>
	(opened.before.faces[id]?.coats.length ?? 0) + coats.filter(row => row.face === id && isWhole(row)).length;

/** The figures of a day, from its tables. */
export function countsOf(day: Day, { coats, film, first, breaks, checks, ...rows }: Counted): Counts {
	const whole = coats.filter(isWhole);
	return {
		coats_on: sum(day.job.faces, ({ id }) => coatsOn(day, coats, id)),
		coats_planned: sum(day.job.faces, face => face.coats.length),
		coats_laid: whole.length,
		faces_sprayed: new Set(whole.map(({ face }) => face)).size,
		coats_in_part: coats.filter(({ extent }) => extent === 'part' || extent === 'unsaid').length,
		sprayed_s: sum(coats, ({ took_s }) => took_s),
		first_readings: sum(first, ({ asked }) => asked),
		first_differed: sum(first, ({ differed }) => differed),
		breaks: breaks.length,
		broken_off_s: sum(breaks, ({ lasted_s }) => lasted_s ?? 0),
		checks_passed: checks.filter(({ passed }) => passed !== null).length,
		overrides: rows.overrides.length,
		faults: rows.faults.length,
		batches: rows.batches.length,
		films_worked_out: film.filter(({ laid_wet_um }) => laid_wet_um !== null).length,
		films_read: new Set(ofType(day, 'film.read').map(coatKey)).size,
		films_over: film.filter(({ against_target }) => against_target === 'over').length,
		films_under: film.filter(({ against_target }) => against_target === 'under').length,
	};
}
