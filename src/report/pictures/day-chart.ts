import type { Report } from '../page/context.ts';
import { html, type Markup, type Piece, percent } from '../page/markup.ts';
import { plain, spot, word } from '../said.ts';
import { type ClockAxis, clockAxis, clockMarks } from './clock-axis.ts';
import { glyphOf } from './coat-mark.ts';
import { type Lane, lanesOf } from './day-lanes.ts';
import { type Row, rowDrawn, rowName, rowsOf } from './day-rows.ts';
import { bar, filled, inPieces, label, picture, rule } from './picture.ts';

/** The day in one chart: faces by coat, and the gun and the paint under them, with bands for breaks and what is in doubt. */

const top = 36;
/** Rows that find room in one picture on one sheet. */
const most = 30;
const tall = (kind: Band['kind']): number => (kind === 'doubt' ? 26 : 18);

type Span = { says: string; from: string; to: string };
type Band = { says: string; kind: 'wait' | 'break' | 'doubt'; spans: Span[] };

/** What runs across the rows: waits, breaks, and how long the likeliest cause of each fault was in doubt. */
function bandsOf({ tables, traces, times, end, faults }: Report): Band[] {
	const spans = (rows: readonly { began: string; ended: string | null }[]): Span[] =>
		rows
			.filter(({ began }) => began < end)
			.map(({ began, ended }) => ({
				says: '',
				from: began,
				to: ended !== null && ended < end ? ended : end,
			}));
	const doubts = traces.flatMap(({ fault, trace }): Band[] => {
		if (!trace || trace.bracket.from >= end) return [];
		const { from } = trace.bracket;
		const to = trace.bracket.to < end ? trace.bracket.to : end;
		const said = plain(faults.faults[fault]?.say ?? word(fault));
		const says = `${times.clock(from)} to ${times.clock(to)}: ${said}`;
		return [{ says: 'in doubt', kind: 'doubt', spans: [{ says, from, to }] }];
	});
	return [
		...doubts.slice(0, 3),
		{ says: 'breaks', kind: 'break', spans: spans(tables.breaks) },
		{ says: 'waits', kind: 'wait', spans: spans(tables.waits) },
	];
}

/** A span in its lane, and where it matters its shade over all rows down to the foot. */
function spanDrawn(
	{ kind }: Band,
	{ from, to }: Span,
	axis: ClockAxis,
	y: number,
	foot: number,
	id: string,
): Piece {
	const [left, right] = [axis.at(from), axis.at(to)];
	const fill = kind === 'doubt' ? 'currentColor' : filled(id, kind);
	const from_y = y + tall(kind);
	const shade = { from: left, to: right, y: from_y, height: foot - from_y };
	const top_y = kind === 'doubt' ? y + 18 : y + 4;
	return [
		bar({ from: left, to: right, y: top_y, height: kind === 'doubt' ? 4 : 10, fill, kind }),
		kind === 'wait' ? null : bar({ ...shade, fill: 'currentColor', kind: `band ${kind}` }),
		kind === 'doubt' ? [rule(left, top_y, foot, 'doubt-edge'), rule(right, top_y, foot, 'doubt-edge')] : null,
	];
}

function described({ tables, times, end, traces }: Report): string {
	const coats = tables.coats.length;
	const faces = new Set(tables.coats.map(({ face }) => face)).size;
	const doubts = traces.flatMap(({ face, coat, trace }) =>
		trace
			? [
					`In doubt for ${spot(face, coat)}: ${times.clock(trace.bracket.from)} to ${times.clock(trace.bracket.to)}.`,
				]
			: [],
	);
	return [
		`From ${times.clock(tables.day.opened)} to ${times.clock(end)}, times in ${times.zone}: a row a face with its coats at the moment they were sprayed, ${coats} coats on ${faces} faces;`,
		`under them gun checks, readings that differed, batches and air.`,
		`Bands across the rows: ${tables.breaks.length} breaks, and what is in doubt.`,
		...doubts,
		'The tables below have every instant.',
	].join(' ');
}

type Placed<One> = { one: One; y: number };

/** Things of their own heights one under the other, and where the last ends. */
function stacked<One>(
	all: readonly One[],
	height: (one: One) => number,
	from: number,
): [Placed<One>[], number] {
	let y = from;
	const placed = all.map(one => {
		const mine = { one, y };
		y += height(one);
		return mine;
	});
	return [placed, y];
}

/** The day by the hour, in as many pictures as find room on paper; the lanes stand under the last. */
export function dayChart(report: Report): Markup[] {
	const { tables, faces, times, end, units, day } = report;
	const axis = clockAxis(tables.day.opened, end, times);
	const materials = Object.keys(day.job.materials);
	const bands = bandsOf(report);
	return inPieces(rowsOf(faces), most).map((some, nth, all) => {
		const id = `day-${nth + 1}`;
		const lanes = nth === all.length - 1 ? lanesOf(tables, materials, axis, end, units, id) : [];
		const [banded, under] = stacked(bands, ({ kind }) => tall(kind), top);
		const [rows, below] = stacked<Row>(some, ({ height }) => height, under + 4);
		const [laned, foot] = stacked<Lane>(lanes, ({ height }) => height, below + 6);
		const named = (says: string, y: number) => rowName(says, 'row', axis, y);
		const part = all.length > 1 ? `, part ${nth + 1} of ${all.length}` : '';
		return picture({ id, title: `The day by the hour${part}`, desc: described(report), height: foot + 6 }, [
			label(`Times in ${times.zone}`, { x: 0, y: 12, kind: 'tick' }),
			banded.map(({ one, y }) => one.spans.map(span => spanDrawn(one, span, axis, y, foot, id))),
			clockMarks(axis, 30, foot),
			rows.map(
				({ y, one }) =>
					html`<rect x="0" y="${y}" width="${percent(100)}" height="${one.kind === 'name' ? 0 : 1}" class="row-line"/>`,
			),
			banded.map(({ one, y }) => [
				named(one.says, y + 13),
				one.spans.map(({ says }) =>
					says === ''
						? null
						: label(says, { x: axis.first, y: y + 12, dx: 4, kind: 'value', room_px: axis.row_px - 4 }),
				),
			]),
			rows.map(({ one, y }) => rowDrawn(report, one, axis, y)),
			laned.map(({ one, y }) => [named(one.says, y + one.height / 2 + 4), one.draw(y + one.height / 2)]),
		]);
	});
}

/** How the chart is read; the shape of a mark is its material. */
export function dayCaption({ day: { job } }: Report): string {
	const materials = Object.values(job.materials).map(({ name }, nth) => `${glyphOf(nth)} ${plain(name)}`);
	return `Coats by their number: ${materials.join(', ')}; pale: in part. The line after a coat: the flash, until the next may go on. ▲ a fault and △ a rule passed over, at their coat; ✕ set aside. Hatched: waits, and batches mixed and alive; solid: in the gun. Gun checks: ● full, ○ short, ✕ broken off. Air: surface, dew point dashed, ■ outside.`;
}

/** What the day's chart is coloured by. */
export const dayStyle = `
.flash{fill:var(--soft);fill-opacity:.6;stroke:none}.flash-end{stroke:var(--soft);stroke-width:2}.row-line{fill:var(--line)}
.band{stroke:none}.band.break{color:var(--stop);fill-opacity:.45}.band.doubt{color:var(--warn);fill-opacity:.1}
.doubt{color:var(--warn)}.doubt-edge{stroke:var(--warn);stroke-width:1.5;stroke-dasharray:2 3}.label,.row{fill:var(--ink)}`;
