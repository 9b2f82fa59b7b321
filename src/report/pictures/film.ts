import { scaleLog } from 'd3-scale';
import { symbol, symbolCircle, symbolDiamond } from 'd3-shape';
import type { UnitSystem } from '../../trade/quantity.ts';
import { format } from '../../trade/shown.ts';
import { html, type Markup, type Piece } from '../page/markup.ts';
import { face as faceSaid } from '../said.ts';
import { buildOf, type Departure, departureOf, departureSaid, type Filmed } from './departure.ts';
import { inPieces, narrowest_px } from './picture.ts';
import { fitted, width_px } from './text-room.ts';

/** Film as its departure from target: a small picture a coat, all on one scale, the heaviest first. */

const top = 46;
const row_height = 22;
/** Faces that find room in one picture on one sheet. */
const most = 40;
/** Ends of the scale, px: left of it stand the names, right of it the films. */
const [from_px, to_px] = [132, 262];
const ticks: [number, string][] = [
	[0.25, '¼'],
	[0.5, '½'],
	[2, '2 ×'],
	[4, '4 ×'],
	[8, '8 ×'],
];

/** Whether a coat has a film to show: by its pulls, or read on the day. */
export const isShown = (row: Filmed): boolean => departureOf(row) !== null || row.measured.length > 0;

type Scale = (share: number) => number;

const rounded = (px: number): number => Number(px.toFixed(1));
const upright = (x: number, from: number, to: number, kind: string): Markup =>
	html`<line x1="${rounded(x)}" x2="${rounded(x)}" y1="${from}" y2="${to}" class="${kind}"/>`;
const text = (says: string, x: number, y: number, anchor: 'start' | 'middle' | 'end', kind: string): Markup =>
	html`<text x="${rounded(x)}" y="${y}" text-anchor="${anchor}" class="${kind}">${says}</text>`;

/** A face's name in the room beside its row: its part is cut before its own word is. */
function nameOf(id: string): string {
	const room = from_px - 12;
	const whole = faceSaid(id);
	if (width_px(whole, 12) <= room) return whole;
	const [part = '', ...rest] = id.split('/');
	const own = faceSaid(rest.join('/'));
	const left = room - width_px(` ${own}`, 12);
	return left > 30 ? `${fitted(faceSaid(part), left)} ${own}` : fitted(whole, room);
}

/** One face: its interval from end to end, the film worked out or read, and the film at which it runs. */
function row(film: Departure, x: Scale, y: number, units: UnitSystem): Piece {
	const middle = y + row_height / 2;
	const [low, high] = [rounded(x(film.low)), rounded(x(film.high))];
	const sign = symbol(film.read ? symbolDiamond : symbolCircle, 70)() ?? '';
	return [
		text(nameOf(film.row.face), 0, middle + 4, 'start', 'row'),
		html`<path d="M${low} ${middle}H${high}M${low} ${middle - 4}v8M${high} ${middle - 4}v8" class="interval"/>`,
		film.limit === null ? null : upright(x(film.limit), y + 2, y + row_height - 2, 'sag'),
		html`<path d="${sign}" class="laid-dot ${film.lies}" transform="translate(${rounded(x(film.share))} ${middle})"/>`,
		text(
			format(film.film_um, 'film', units),
			narrowest_px,
			middle + 4,
			'end',
			film.lies === 'on' ? 'row' : 'coat',
		),
	];
}

/** `Coat 2: target 2.4 mil`, or how many they are where faces have several. */
function titleOf(coat: number, films: readonly Departure[], units: UnitSystem): string {
	const targets = new Set(films.map(one => format(one.target_um, 'film', units)));
	const [only] = targets;
	return targets.size === 1 ? `Coat ${coat}: target ${only} wet` : `Coat ${coat}: each against its target`;
}

/** The ticks whose words find room, the target's first; where a limit is, what is over it `runs`. */
function freeTicks(x: Scale, limit: number | null): [number, string][] {
	const taken: [number, number][] = [];
	const wanted: [number, string][] = [
		[1, 'target'],
		...(limit === null ? [] : [[limit, 'runs'] as [number, string]]),
		...ticks,
	];
	return wanted.filter(([share, says]) => {
		const half = width_px(says, 12) / 2 + 2;
		const [left, right] = [x(share) - half, x(share) + half];
		const free =
			x(share) >= from_px - 1 &&
			x(share) <= to_px + 1 &&
			taken.every(([low, high]) => right < low || left > high);
		if (free) taken.push([left, right]);
		return free;
	});
}

function panel(title: string, films: readonly Departure[], x: Scale, id: string, units: UnitSystem): Markup {
	const height = top + films.length * row_height + 4;
	const limit = films.find(one => one.limit !== null)?.limit ?? null;
	const marks = freeTicks(x, limit);
	const said = films.map(one => `${faceSaid(one.row.face)} ${departureSaid(one, units)}`).join('; ');
	return html`<svg role="img" aria-labelledby="${id}-title ${id}-desc" width="${narrowest_px}" height="${height}" viewBox="0 0 ${narrowest_px} ${height}" xmlns="http://www.w3.org/2000/svg">
<title id="${id}-title">Film against target, ${title}</title>
<desc id="${id}-desc">A row a face, the heaviest first, with what it may be off by: ${said}.</desc>
${text(title, 0, 14, 'start', 'name')}
${marks.map(([share, says]) => [
	upright(x(share), top - 8, height - 4, says === 'target' ? 'target' : says === 'runs' ? 'none' : 'grid'),
	text(says, x(share), top - 14, 'middle', 'tick'),
])}
${films.map((film, nth) => row(film, x, top + nth * row_height, units))}
</svg>`;
}

const heaviestFirst = (films: readonly Departure[]): Departure[] =>
	films.toSorted((one, other) => other.share - one.share);

/** Wet film of each coat given, as its departure from target; and what a dry gauge read against the whole build. */
export function film(rows: readonly Filmed[], units: UnitSystem): Markup {
	const films = rows.flatMap(one => departureOf(one) ?? []);
	const builds = rows.flatMap(one => buildOf(one) ?? []);
	const ends = [...films, ...builds].flatMap(({ low, high, limit }) => [low, high, limit ?? 1]);
	const scale = scaleLog()
		.domain([Math.min(0.5, ...ends) * 0.95, Math.max(2, ...ends) * 1.05])
		.range([from_px, to_px]);
	const coats = [...new Set(films.map(one => one.row.coat))].sort((one, other) => one - other);
	const panels = coats.flatMap(coat => {
		const own = heaviestFirst(films.filter(one => one.row.coat === coat));
		return inPieces(own, most).map((some, nth) =>
			panel(titleOf(coat, own, units), some, scale, `film-${coat}-${nth + 1}`, units),
		);
	});
	const build = inPieces(heaviestFirst(builds), most).flatMap((some, nth) =>
		some.length > 0 ? panel('Dry gauge, the whole build', some, scale, `build-${nth + 1}`, units) : [],
	);
	return html`<div class="multiples">${panels}${build}</div>`;
}

/** What the films are coloured by. */
export const filmStyle = `
.multiples{display:flex;flex-wrap:wrap;gap:18px 40px;align-items:flex-start}
.interval{stroke:var(--ink);stroke-width:1.5;fill:none}.laid-dot{fill:var(--pass);stroke:var(--paper)}.laid-dot.heavy,.laid-dot.light{fill:var(--ink)}.laid-dot.runs{fill:var(--warn)}`;
