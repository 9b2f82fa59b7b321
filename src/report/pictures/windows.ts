import { scaleSymlog } from 'd3-scale';
import { duration } from '../../words/say.ts';
import type { Markup, Piece } from '../page/markup.ts';
import { face as faceSaid, word } from '../said.ts';
import { ms } from '../tables/day.ts';
import type { WindowRow } from '../tables/windows.ts';
import { bar, filled, inPieces, inside, label, picture, rule } from './picture.ts';

const top = 26;
const row_height = 44;
/** Rows that find room in one picture on one sheet. */
const most = 12;

type Segment = { does: WindowRow['windows'][number]['does']; from_h: number; until_h: number | null };
type Group = { says: string; segments: Segment[] };

const hour_ms = 3_600_000;
const hours = [0, 0.5, 1, 2, 4, 8, 12, 24, 48, 72, 168, 336, 720];

function segmentsOf({ ended, windows }: WindowRow): Segment[] {
	const after = (iso: string) => (ms(iso) - ms(ended)) / hour_ms;
	return windows.map(({ does, from, until }) => ({
		does,
		from_h: after(from),
		until_h: until === null ? null : after(until),
	}));
}

/** Rows whose windows lie at the same hours after the coat are one row. */
function groupsOf(rows: readonly WindowRow[]): Group[] {
	const groups = new Map<string, { faces: string[]; coat: number; segments: Segment[] }>();
	for (const row of rows) {
		const segments = segmentsOf(row);
		const minutes = segments.map(({ does, from_h }) => `${does} ${Math.round(from_h * 60)}`);
		const key = JSON.stringify([row.coat, minutes]);
		const group = groups.get(key) ?? { faces: [], coat: row.coat, segments };
		group.faces.push(faceSaid(row.face));
		groups.set(key, group);
	}
	return [...groups.values()].map(({ faces, coat, segments }) => {
		const [first = '', ...rest] = faces;
		const others = rest.length === 0 ? '' : ` and ${rest.length} more`;
		return { says: `coat ${coat}: ${first}${others}`, segments };
	});
}

/** Letters that a window's word takes, in percent of the narrowest picture. */
const room = (text: string): number => text.length * 2.2 + 2;

function segment(one: Segment, x: (h: number) => number, y: number, id: string): Piece {
	const from = x(one.from_h);
	const to = one.until_h === null ? 100 : x(one.until_h);
	const says = one.until_h === null ? `${word(one.does)} →` : word(one.does);
	return [
		bar({ from, to, y, height: 18, fill: filled(id, one.does), kind: `window ${one.does}` }),
		to - from > room(says) ? label(says, { x: from, y: y + 13, dx: 4, kind: 'value' }) : null,
	];
}

/** What each coat allows as the hours pass; later hours stand closer together. */
export function windows(rows: readonly WindowRow[]): Markup[] {
	const groups = groupsOf(rows.toSorted((one, other) => one.coat - other.coat));
	const latest = Math.max(
		1,
		...groups.flatMap(({ segments }) => segments.flatMap(({ from_h, until_h }) => [from_h, until_h ?? 0])),
	);
	const scale = scaleSymlog()
		.constant(1)
		.domain([0, latest * 1.6])
		.range([0, 100]);
	const ticks = hours.filter(h => h <= latest * 1.5);
	return inPieces(groups, most).map((some, nth, all) => {
		const id = `windows-${nth + 1}`;
		const height = top + some.length * row_height;
		let last = -100;
		const marks = ticks.map(h => {
			const x = scale(h);
			if (x - last < 11) return rule(x, 18, height, 'grid');
			last = x;
			return [
				rule(x, 18, height, 'grid'),
				label(h === 0 ? '0 h' : h < 1 ? `${h * 60} min` : `${h} h`, {
					x,
					y: 12,
					anchor: inside(x),
					kind: 'tick',
				}),
			];
		});
		const drawn = some.map(({ says, segments }, place) => {
			const y = top + place * row_height;
			return [
				label(says, { x: 0, y: y + 12, kind: 'name' }),
				segments.map(one => segment(one, scale, y + 18, id)),
			];
		});
		const part = all.length > 1 ? `, part ${nth + 1} of ${all.length}` : '';
		return picture(
			{
				id,
				title: `Recoat windows after each coat${part}`,
				desc: `One row for faces whose windows lie at the same hours: ${some.map(said).join(' ')} The table below has the instants.`,
				height,
			},
			[marks, drawn],
		);
	});
}

const said = ({ says, segments }: Group): string =>
	`${says}: ${segments
		.map(
			({ does, from_h, until_h }) =>
				`${word(does)} from ${duration(from_h * 3600)}${until_h === null ? ' on' : ` to ${duration(until_h * 3600)}`}`,
		)
		.join(', ')}.`;
