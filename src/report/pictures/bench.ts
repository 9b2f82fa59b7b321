import { scaleLinear } from 'd3-scale';
import { curveStepAfter, line } from 'd3-shape';
import type { UnitSystem } from '../../trade/quantity.ts';
import { format } from '../../trade/shown.ts';
import { html, type Markup, type Piece } from '../page/markup.ts';
import type { BatchRow } from '../tables/batches.ts';
import type { AirRow } from '../tables/happenings.ts';
import type { Tables } from '../tables/tables.ts';
import { type ClockAxis, clockMarks } from './clock-axis.ts';
import { mark } from './marks.ts';
import { bar, filled, label, picture } from './picture.ts';

const id = 'bench';
const top = 26;
const lane_height = 39;
const air_height = 76;

type Lane = { says: string; height: number; draw(y: number): Piece };

const lane = (says: string, draw: (y: number) => Piece): Lane => ({ says, height: lane_height, draw });

function waitsAndBreaks({ waits, breaks }: Tables, axis: ClockAxis, end: string): Lane[] {
	const spans =
		(
			rows: readonly { began: string; ended: string | null }[],
			fill: 'wait' | 'break',
		): ((y: number) => Piece) =>
		y =>
			rows.map(({ began, ended }) =>
				bar({
					from: axis.at(began),
					to: axis.at(ended ?? end),
					y,
					height: 12,
					fill: filled(id, fill),
					kind: fill,
				}),
			);
	return [lane('Waits', spans(waits, 'wait')), lane('Breaks', spans(breaks, 'break'))];
}

function checks({ checks: rows }: Tables, axis: ClockAxis): Lane {
	return lane('Gun checks: ● full, ○ short, ✕ broken off', y =>
		rows.map(({ began, passed, size }) =>
			mark(passed === null ? 'broken' : size, axis.at(passed ?? began), y + 6),
		),
	);
}

function readings({ differed, overrides }: Tables, axis: ClockAxis): Lane {
	return lane('Readings that differed ◆ and overrides △', y => [
		differed.map(({ at }) => mark('differed', axis.at(at), y + 6)),
		overrides.map(({ at }) => mark('override', axis.at(at), y + 6)),
	]);
}

/** A batch from its first pour to the end of its life; solid while it was in the gun. */
function batch(row: BatchRow, axis: ClockAxis, end: string): Lane {
	const gone = [row.discarded?.at, row.emptied, row.lives_until, end].filter(
		(at): at is string => typeof at === 'string',
	);
	const until = [...gone, end].sort()[0] ?? end;
	const [load] = row.loads;
	const emptied = row.emptied ?? row.discarded?.at ?? end;
	return lane(`Batch ${row.batch}, ${row.material}`, y => [
		bar({
			from: axis.at(row.started),
			to: axis.at(until),
			y: y + 3,
			height: 6,
			fill: filled(id, 'wait'),
			kind: 'mixed',
		}),
		load
			? bar({
					from: axis.at(load.at),
					to: axis.at(emptied < end ? emptied : end),
					y,
					height: 12,
					fill: 'currentColor',
					kind: 'in-gun',
				})
			: null,
		row.lives_until !== null && row.lives_until <= end
			? mark('broken', axis.at(row.lives_until), y + 6)
			: null,
	]);
}

/** Surface temperature and dew point between readings, each in force until the next. */
function air(rows: readonly AirRow[], axis: ClockAxis, end: string, units: UnitSystem): Lane {
	const last = rows.at(-1);
	const temperature = (value: number) => format(value, 'temperature', units);
	const all = rows.flatMap(({ surface_C, dew_point_C }) => [surface_C, dew_point_C]);
	const scale = scaleLinear()
		.domain([Math.min(...all), Math.max(...all) + 0.1])
		.range([46, 12]);
	const steps = (of: (row: AirRow) => number, kind: string): Piece => {
		const points = [...rows, ...(last ? [{ ...last, at: end }] : [])];
		const d = line<AirRow>()
			.x(row => axis.at(row.at) * 10)
			.y(row => scale(of(row)))
			.curve(curveStepAfter)(points);
		return html`<path d="${d ?? ''}" class="${kind}" vector-effect="non-scaling-stroke"/>`;
	};
	const says = 'Air: surface, dew point dashed, ■ outside';
	return {
		says,
		height: air_height,
		draw: y => [
			html`<svg x="0" y="${y}" width="100%" height="56" viewBox="0 0 1000 56" preserveAspectRatio="none">${steps(row => row.surface_C, 'surface')}${steps(row => row.dew_point_C, 'dew')}</svg>`,
			rows.map(({ at, surface_C, spray }) => mark(spray ? 'good' : 'out', axis.at(at), y + scale(surface_C))),
			last
				? [
						label(temperature(last.surface_C), {
							x: 100,
							y: y + scale(last.surface_C) - 4,
							anchor: 'end',
							kind: 'value',
						}),
						label(temperature(last.dew_point_C), {
							x: 100,
							y: y + scale(last.dew_point_C) - 4,
							anchor: 'end',
							kind: 'value',
						}),
					]
				: null,
		],
	};
}

/** What happened round the gun and the paint on the same hours as the faces. */
export function bench(tables: Tables, axis: ClockAxis, end: string, units: UnitSystem): Markup {
	const lanes: Lane[] = [
		...waitsAndBreaks(tables, axis, end),
		checks(tables, axis),
		readings(tables, axis),
		...tables.batches.map(row => batch(row, axis, end)),
		...(tables.air.length > 0
			? [
					air(
						tables.air.filter(({ at }) => at <= end),
						axis,
						end,
						units,
					),
				]
			: []),
	];
	let y = top;
	const drawn = lanes.map(({ says, height, draw }) => {
		const piece = [label(says, { x: 0, y: y + 11, kind: 'name' }), draw(y + 17)];
		y += height;
		return piece;
	});
	return picture(
		{
			id,
			title: 'Waits, breaks, gun checks, batches and air over the day',
			desc: 'One row a subject, on the same hours as the faces. The tables of each subject have every instant.',
			height: y + 6,
		},
		[clockMarks(axis, y + 2), drawn],
	);
}
