import { scaleLinear } from 'd3-scale';
import { curveStepAfter, line } from 'd3-shape';
import type { UnitSystem } from '../../trade/quantity.ts';
import { format } from '../../trade/shown.ts';
import { html, type Piece } from '../page/markup.ts';
import { plain } from '../said.ts';
import type { BatchRow } from '../tables/batches.ts';
import type { AirRow } from '../tables/happenings.ts';
import type { Tables } from '../tables/tables.ts';
import type { ClockAxis } from './clock-axis.ts';
import { coatMark } from './coat-mark.ts';
import { mark } from './marks.ts';
import { at, bar, filled, label } from './picture.ts';

/** What happened round the gun and the paint, under the faces on the same hours: a lane a subject, its name beside it. */

export type Lane = { says: string; height: number; draw(y: number): Piece };

const lane_height = 22;
const air_height = 64;

const lane = (says: string, draw: (y: number) => Piece): Lane => ({ says, height: lane_height, draw });

/** A batch from its first pour to the end of its life; solid while it was in the gun. */
function batch(row: BatchRow, materials: readonly string[], axis: ClockAxis, end: string, id: string): Lane {
	const gone = [row.discarded?.at, row.emptied, row.lives_until].flatMap(when => when ?? []);
	const until = [...gone, end].sort()[0] ?? end;
	const [load] = row.loads;
	const emptied = row.emptied ?? row.discarded?.at ?? end;
	const dead = row.lives_until !== null && row.lives_until <= end ? row.lives_until : null;
	const bars = (y: number): Piece => [
		bar({
			...{ from: axis.at(row.started), to: axis.at(until), y: y - 3, height: 6 },
			...{ fill: filled(id, 'wait'), kind: 'mixed' },
		}),
		load
			? bar({
					...{ from: axis.at(load.at), to: axis.at(emptied < end ? emptied : end), y: y - 6, height: 12 },
					...{ fill: 'currentColor', kind: 'in-gun' },
				})
			: null,
	];
	const material = materials.indexOf(row.material);
	return lane(`batch ${plain(row.batch)}`, y => [
		bars(y),
		at(axis.at(row.started), y, coatMark({ material, stands: 'all', says: plain(row.batch) }, 0, 0)),
		dead === null ? null : mark('broken', axis.at(dead), y),
	]);
}

/** Surface temperature and dew point between readings, each in force until the next. */
function air(rows: readonly AirRow[], axis: ClockAxis, end: string, units: UnitSystem): Lane {
	const last = rows.at(-1);
	const all = rows.flatMap(({ surface_C, dew_point_C }) => [surface_C, dew_point_C]);
	const scale = scaleLinear()
		.domain([Math.min(...all), Math.max(...all) + 0.1])
		.range([air_height - 20, 14]);
	const steps = (of: (row: AirRow) => number, kind: string): Piece => {
		const points = [...rows, ...(last ? [{ ...last, at: end }] : [])];
		const d = line<AirRow>()
			.x(row => axis.at(row.at) * 10)
			.y(row => scale(of(row)))
			.curve(curveStepAfter)(points);
		return html`<path d="${d ?? ''}" class="${kind}" vector-effect="non-scaling-stroke"/>`;
	};
	const value = (C: number, y: number) =>
		label(format(C, 'temperature', units), { x: 100, y, anchor: 'end', kind: 'value' });
	return {
		says: 'air',
		height: air_height,
		draw: middle => {
			const y = middle - air_height / 2;
			return [
				html`<svg x="0" y="${y}" width="100%" height="${air_height}" viewBox="0 0 1000 ${air_height}" preserveAspectRatio="none">${steps(row => row.surface_C, 'surface')}${steps(row => row.dew_point_C, 'dew')}</svg>`,
				rows.map(row => mark(row.spray ? 'good' : 'out', axis.at(row.at), y + scale(row.surface_C))),
				last ? value(last.surface_C, y + scale(last.surface_C) - 5) : null,
				last ? value(last.dew_point_C, y + scale(last.dew_point_C) + 14) : null,
			];
		},
	};
}

/** The lanes of a day: checks, readings that differed, overrides of no face, batches, air. */
export function lanesOf(
	tables: Tables,
	materials: readonly string[],
	axis: ClockAxis,
	end: string,
	units: UnitSystem,
	id: string,
): Lane[] {
	const within = <One extends { at: string }>(rows: readonly One[]) => rows.filter(row => row.at <= end);
	const read = within(tables.air);
	const passed = within(tables.overrides.filter(({ face }) => face === null));
	return [
		lane('gun check', y =>
			tables.checks.map(row =>
				mark(row.passed === null ? 'broken' : row.size, axis.at(row.passed ?? row.began), y),
			),
		),
		lane('differed', y => within(tables.differed).map(row => mark('differed', axis.at(row.at), y))),
		...(passed.length > 0
			? [lane('passed over', y => passed.map(row => mark('override', axis.at(row.at), y)))]
			: []),
		...tables.batches.map(row => batch(row, materials, axis, end, id)),
		...(read.length > 0 ? [air(read, axis, end, units)] : []),
	];
}
