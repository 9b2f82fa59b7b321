import { format, formatRange } from '../../trade/shown.ts';
import { tookSaid } from '../../words/took.ts';
import { cap, holdsOf, patternOf, tiltSaid } from '../pictures/cap.ts';
import { strokesAcross } from '../pictures/fan.ts';
import { film, isShown } from '../pictures/film.ts';
import { plain, spot, word } from '../said.ts';
import { fansOf } from '../tables/fan.ts';
import type { FilmRow } from '../tables/film.ts';
import { count, figure, type Report, type Section } from './context.ts';
import { facesSaid } from './day-section.ts';
import { html, type Piece } from './markup.ts';
import { type Column, table } from './table.ts';

type Units = Report['units'];

/** What a dry gauge read, beside the whole build under it: all coats to here. */
function drySaid(row: FilmRow, dry_um: number, units: Units): string {
	const um = (value: number) => format(value, 'film', units);
	const { build_target_dry_um: target, build_low_dry_um: low, build_high_dry_um: high } = row;
	const through = row.coat === 1 ? '' : ` through ${row.coat} coats`;
	const wanted = target === null ? '' : `, ${um(target)} wanted`;
	const laid = low === null || high === null ? '' : `, ${formatRange(low, high, 'film', units)} worked out`;
	return `${um(dry_um)} dry${through}${wanted}${laid}`;
}

const measured = (row: FilmRow, units: Units): string =>
	row.measured
		.map(({ wet_um, dry_um, by }) =>
			[
				wet_um === null ? '' : `${format(wet_um, 'film', units)} wet`,
				dry_um === null ? '' : drySaid(row, dry_um, units),
				`(${plain(by)})`,
			]
				.filter(text => text !== '')
				.join(' '),
		)
		.join('; ');

const against: Record<NonNullable<FilmRow['against_target']>, string> = {
	under: 'under its target',
	within: 'as planned',
	over: 'over its target',
};

/** Film against target, by what says so: never by the seconds that it took. */
const againstSaid = ({ against_target, against_by, over_sag }: FilmRow): string =>
	[
		against_target === null ? '' : against[against_target],
		over_sag ? 'over the sag limit' : '',
		against_by === null || against_by === 'pulls' ? '' : `by a ${against_by}`,
	]
		.filter(text => text !== '')
		.join(', ');

/** Columns of what a trigger line says of the film. */
const laidColumns = (units: Units): Column<FilmRow>[] => {
	const um = (value: number) => format(value, 'film', units);
	return [
		{
			head: 'Laid, wet',
			cell: ({ laid_wet_um, laid_low_wet_um: low, laid_high_wet_um: high }) =>
				laid_wet_um === null || low === null || high === null
					? ''
					: `${um(laid_wet_um)}, ${formatRange(low, high, 'film', units)}`,
			figure: true,
		},
	];
};

/** What the film of the day rests on. */
function groundsOf(rows: readonly FilmRow[]): Piece {
	const known = rows.filter(({ laid_wet_um }) => laid_wet_um !== null).length;
	return [
		known > 0
			? html`<p>Worked out by the sheet's flow, not measured: the film wanted × time the trigger was pulled ÷ time planned. It is no better than flow and transfer; the thin line under a bar shows what those two may be off by.</p>\n`
			: null,
		known < rows.length
			? html`<p>Without a trigger line no film is worked out: START and FINISHED tell how long a face took, walking and talk with it, not how long the trigger was pulled.</p>\n`
			: null,
	];
}

/** Film of each coat against its target. */
export function filmSection({ tables, units }: Report): Section {
	const um = (value: number) => format(value, 'film', units);
	const shown = tables.film.filter(isShown);
	return {
		id: 'film',
		title: 'Film against target',
		content: [
			groundsOf(tables.film),
			shown.length > 0
				? figure(
						film(shown, units),
						'A row a face, the heaviest first: how far its wet film lies from its target. Dot: worked out from the trigger; diamond: read by a gauge; line: what it may be off by. Dashed: the film at which it runs; flat work has none. Bold: off its target, whole line and all.',
					)
				: null,
			table(
				'Film of each coat',
				[
					{ head: 'Face', cell: row => spot(row.face, row.coat) },
					{ head: 'Target, wet', cell: row => um(row.target_wet_um), figure: true },
					...(tables.film.some(({ laid_wet_um }) => laid_wet_um !== null) ? laidColumns(units) : []),
					{ head: 'Wanted', cell: row => format(row.wants_mL, 'volume', units), figure: true },
					{
						head: 'Planned, least to most',
						cell: ({ planned_min_um: low, planned_peak_um: high }) =>
							low === null || high === null ? 'not known' : formatRange(low, high, 'film', units),
						figure: true,
					},
					{
						head: 'Runs over',
						cell: row => (row.sag_um === null ? 'flat work' : um(row.sag_um)),
						figure: true,
					},
					{
						head: 'Took',
						cell: row => `${tookSaid(row.took_s, row.should_s, false)}${row.estimated ? ', estimated' : ''}`,
						figure: true,
					},
					{ head: 'Measured', cell: row => measured(row, units) },
					{ head: 'Film', cell: againstSaid },
				],
				tables.film,
				'The sheet and the day give no film.',
			),
		],
	};
}

function holds({ day, units }: Report): Piece {
	const rows = holdsOf(day.job);
	return [
		figure(
			html`<div class="caps">${rows.map((row, nth) => html`<div>${cap(row, nth)}<span>horns ${row.horns}${tiltSaid(row.tilt)}: ${word(row.stroke)}</span></div>`)}</div>`,
			'Seen from behind the gun: the cap with its two horns, the fan, and the stroke as an arrow. The fan lies across the stroke.',
		),
		table(
			'How the gun is held',
			[
				{ head: 'Horns', cell: row => `${row.horns}${tiltSaid(row.tilt)}` },
				{ head: 'Pattern', cell: row => patternOf(row) },
				{ head: 'Stroke', cell: row => word(row.stroke) },
				{ head: 'For', cell: row => count(row.coats.length, 'coat of the sheet', 'coats of the sheet') },
			],
			rows,
		),
		...Object.values(day.job.guns ?? { gun: day.job.gun }).map(
			gun =>
				html`<p>${gun.called === undefined ? '' : `Gun ${gun.called}. `}Pressure with the trigger pulled: ${format(gun.pressure_kPa, 'pressure', units)}. Distance: ${format(gun.distance_mm, 'length', units)}.</p>\n`,
		),
	];
}

/** The fan as the sheet has it: on the work, across its strokes and along them. */
export function fanSection(report: Report): Section {
	const { day, units } = report;
	const fans = fansOf(day.job);
	const length = (mm: number) => format(mm, 'length', units);
	const um = (value: number) => format(value, 'film', units);
	const share = (value: number) => format(value, 'share', 'metric');
	const sags = Object.values(day.job.materials).map(({ sag_um }) => sag_um);
	const least = sags.length > 0 ? Math.min(...sags) : null;
	return {
		id: 'fan',
		title: 'Fan and overlap',
		content: [
			holds(report),
			fans.map((fan, nth) =>
				figure(
					strokesAcross(fan, least, nth + 1, units),
					'Film across five strokes at the overlap of the sheet, by the model of the fan. Solid line: the mean. Dashed line: the lowest film at which a material of this job runs upright.',
				),
			),
			table(
				'Fans of this job',
				[
					{
						head: 'Fan',
						cell: fan =>
							`${fan.gun === undefined ? '' : `${fan.gun}: `}${length(fan.fan_height_mm)} by ${length(fan.fan_depth_mm)}`,
					},
					{
						head: 'Strokes',
						cell: fan => `${length(fan.spacing_mm)} apart, ${share(fan.overlap)} overlap`,
						figure: true,
					},
					{ head: 'Mean, wet', cell: fan => um(fan.mean_wet_um), figure: true },
					{ head: 'Varies by', cell: fan => share(fan.variation), figure: true },
					{
						head: 'Widest good overlap',
						cell: fan => `${share(fan.best_overlap)}, varies by ${share(fan.variation_at_best)}`,
						figure: true,
					},
					{ head: 'Ridge, fan along', cell: fan => um(fan.peak_along_wet_um), figure: true },
					{
						head: 'Faces',
						cell: fan => (fan.faces.length === day.job.faces.length ? 'all' : facesSaid(fan.faces)),
					},
				],
				fans,
				'The figures of the sheet lie outside the model.',
			),
		],
	};
}
