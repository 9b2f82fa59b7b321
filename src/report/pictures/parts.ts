import { symbol, symbolTriangle } from 'd3-shape';
import type { FaultData } from '../../trace/faults.ts';
import type { UnitSystem } from '../../trade/quantity.ts';
import type { Report } from '../page/context.ts';
import { html, type Markup, type Piece } from '../page/markup.ts';
import { asSentence, face as faceSaid, plain, word } from '../said.ts';
import { type CoatMark, coatMark, coatMarkStyle, mark_px, standsSaid } from './coat-mark.ts';
import { departureSaid } from './departure.ts';
import { type Box, type FaceScale, faceDrawn, faceWords, scaleFor } from './face.ts';
import { type FaceTold, facesTold } from './face-told.ts';
import { shadeOf, shadeScale, shadeStyle } from './film-shade.ts';

/** The parts of a job, every face to scale, with what the day tells of it. */

/** Longer side of the largest face, px; so many faces more and they are drawn smaller. */
const room_px = 124;
const smaller_px = 84;
const many = 20;
/** Marks of coats in a row, and the gap round a face in which its ring lies, px. */
const inRow = 5;
const ring_px = 6;
const least_px = 62;

type Drawing = { units: UnitSystem; scale: FaceScale; materials: readonly string[]; faults: FaultData };

const faultSaid = ({ faults }: FaultData, fault: string): string => plain(faults[fault]?.say ?? word(fault));

const coatSaid = (coat: number | null): string => (coat === null ? '' : `, coat ${coat}`);

/** What is said under a face: what is wrong with it, what it may have got, what was passed over. */
function notesOf(told: FaceTold, { units, faults }: Drawing): string[] {
	const { film, suspect, coats } = told;
	const over = coats.filter(one => one.over).map(({ coat }) => coat);
	return [
		...told.faults.map(({ fault, coat }) => `▲ ${faultSaid(faults, fault)}${coatSaid(coat)}`),
		...suspect
			.filter(({ look }) => look > 0)
			.map(({ fault, look, judged }) =>
				judged === null
					? `look ${look}: ${faultSaid(faults, fault)}?`
					: `${word(judged)}: ${faultSaid(faults, fault)}`,
			),
		...(film && film.lies !== 'on' ? [`coat ${film.row.coat}: ${departureSaid(film, units)}`] : []),
		...(over.length > 0 ? [`△ passed over, coat ${over.join(', ')}`] : []),
	];
}

/** The whole of it in words, for who cannot see the picture. */
function wordsOf(told: FaceTold, drawing: Drawing): string {
	const { asked, coats, film, aside } = told;
	const laid = coats.map(({ coat, stands }) => `coat ${coat} ${standsSaid[stands]}`).join(', ');
	const known = film
		? `film of coat ${film.row.coat}: ${departureSaid(film, drawing.units)}`
		: 'film not known';
	const ring = told.suspect.some(({ judged, look }) => judged === null && look > 0);
	return [
		asked ? faceWords(asked, drawing.units) : 'not in the sheet',
		laid,
		known,
		...notesOf(told, drawing),
		...(ring ? ['not looked at yet'] : []),
		...(aside ? ['set aside'] : []),
	]
		.filter(text => text !== '')
		.map(text => `${asSentence(text)}.`)
		.join(' ');
}

/** So many faces are to be looked at first. */
const first = 3;

type Ring = 'first' | 'likely' | 'maybe';

/** The ring of a face that may have got a fault too and was not judged: the likelier, the heavier. */
function ringOf({ suspect }: FaceTold): Ring | null {
	const open = suspect.filter(({ judged, look }) => judged === null && look > 0);
	if (open.length === 0) return null;
	if (open.some(({ look }) => look <= first)) return 'first';
	return open.some(({ likely }) => likely) ? 'likely' : 'maybe';
}

function ring(told: FaceTold, { x, y, width, height }: Box): Piece {
	const kind = ringOf(told);
	if (kind === null) return null;
	return html`<rect x="${x - ring_px}" y="${y - ring_px}" width="${width + 2 * ring_px}" height="${height + 2 * ring_px}" rx="4" class="ring ${kind}"/>`;
}

/** A fault on its face, beside the fan. */
function fault({ faults }: FaceTold, { x, y, width, height }: Box): Piece {
	if (faults.length === 0) return null;
	const [right, down] = height >= width ? [0.5, 0.2] : [0.8, 0.5];
	const d = symbol(symbolTriangle, 330)() ?? '';
	return html`<path d="${d}" class="mark fault" transform="translate(${x + right * width} ${y + down * height})"/>`;
}

/** Marks of the coats in rows under a face. */
function coatMarks(told: FaceTold, { materials }: Drawing, width: number, top: number): Piece {
	return told.coats.map(({ coat, material, stands }, nth) => {
		const row = Math.floor(nth / inRow);
		const inThis = Math.min(inRow, told.coats.length - row * inRow);
		const step = mark_px + 2;
		const x = width / 2 + ((nth % inRow) - (inThis - 1) / 2) * step;
		const mark: CoatMark = { material: materials.indexOf(material), stands, says: String(coat) };
		return coatMark(mark, x, top + step * (row + 0.5));
	});
}

function tile(told: FaceTold, nth: number, drawing: Drawing): Markup {
	const id = `face-${nth + 1}`;
	const { asked, coats, film } = told;
	const laid = coats.some(({ stands }) => stands !== 'due');
	const drawn = asked && faceDrawn(asked, drawing.scale, laid ? 'laid' : 'bare', `shade ${shadeOf(film)}`);
	const shown = drawn ?? { width: 0, height: 0, face: { x: 0, y: 0, width: 0, height: 0 }, drawn: null };
	const rows = Math.ceil(coats.length / inRow);
	const width = Math.ceil(
		Math.max(least_px, shown.width + 2 * ring_px, Math.min(inRow, coats.length) * (mark_px + 2)),
	);
	const left = (width - shown.width) / 2;
	const foot = Math.ceil(shown.height + 2 * ring_px);
	const height = foot + rows * (mark_px + 2) + 2;
	const box = { ...shown.face, x: shown.face.x + left, y: shown.face.y + ring_px };
	const [, ...name] = told.id.split('/');
	return html`<div class="tile"><svg role="img" aria-labelledby="${id}-title ${id}-desc" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" xmlns="http://www.w3.org/2000/svg">
<title id="${id}-title">${faceSaid(told.id)}, drawn to scale</title>
<desc id="${id}-desc">${wordsOf(told, drawing)}</desc>
<g transform="translate(${left} ${ring_px})">${shown.drawn}</g>${ring(told, box)}${fault(told, box)}${coatMarks(told, drawing, width, foot)}
</svg><b>${plain(name.join('/'))}</b>${notesOf(told, drawing).map(note => html`<span>${note}</span>`)}</div>`;
}

/** Parts in the order of the sheet, their faces with them. */
function byPart(told: readonly FaceTold[]): Map<string, FaceTold[]> {
	const parts = new Map<string, FaceTold[]>();
	for (const one of told) parts.set(one.part, [...(parts.get(one.part) ?? []), one]);
	return parts;
}

/** What the marks mean, each beside its name. */
function key({ day, traces }: Report, materials: readonly string[], told: readonly FaceTold[]): Markup {
	const one = (mark: CoatMark, says: string) =>
		html`<li><svg aria-hidden="true" width="18" height="18" viewBox="-9 -9 18 18">${coatMark(mark, 0, 0)}</svg> ${says}</li>`;
	const plainMark = { material: 0, says: '1' };
	const stands = (['part', 'before', 'due'] as const).filter(stand =>
		told.some(({ coats }) => coats.some(coat => coat.stands === stand)),
	);
	const ringed = (kind: string, says: string) =>
		html`<li><svg aria-hidden="true" width="18" height="18" viewBox="-9 -9 18 18"><rect x="-7" y="-7" width="14" height="14" rx="3" class="ring ${kind}"/></svg> ${says}</li>`;
	return html`<ul class="key">
${materials.map((id, material) => one({ material, stands: 'all', says: 'n' }, `coat n of ${plain(day.job.materials[id]?.name ?? id)}`))}
${stands.map(stand => one({ ...plainMark, stands: stand }, standsSaid[stand]))}
${
	traces.some(({ trace }) => trace)
		? [
				ringed('first', 'look here first: may have got a fault too'),
				ringed('likely', 'likely cause touches it'),
				ringed('maybe', 'another cause does'),
			]
		: null
}
</ul>`;
}

/** Every part of the job with its faces to scale: strokes, fan, coats, film, faults, what is set aside and what is in doubt. */
export function partsDrawn(report: Report): Markup {
	const told = facesTold(report);
	const asked = told.flatMap(one => one.asked ?? []);
	const scale = scaleFor(asked, told.length > many ? smaller_px : room_px);
	const materials = Object.keys(report.day.job.materials);
	const drawing: Drawing = { units: report.units, scale, materials, faults: report.faults };
	const place = (one: FaceTold) => told.indexOf(one);
	const parts = [...byPart(told)].map(
		([part, faces]) =>
			html`<div class="part${faces.some(({ aside }) => aside) ? ' aside' : ''}"><p>${plain(part)}${faces.some(({ aside }) => aside) ? ' ✕ set aside' : ''}</p><div class="tiles">${faces.map(one => tile(one, place(one), drawing))}</div></div>\n`,
	);
	return html`<div class="parts">${parts}</div>${key(report, materials, told)}${told.some(({ film }) => film) ? shadeScale() : null}`;
}

export const partsCaption =
	'Every face to one scale, a long strip with a break. Oval: the fan on the work; arrow: the way of the gun; thin lines: its strokes. ▲ a fault, △ a rule passed over.';

/** What the parts are laid out and coloured by. */
export const partsStyle = `
.parts,.tiles{display:flex;flex-wrap:wrap;gap:10px 14px;align-items:flex-end}.parts{align-items:stretch}
.part{border:1px solid var(--line);border-radius:4px;padding:6px 10px 8px;break-inside:avoid}.part p{margin:0 0 4px;font-weight:600}.part.aside{border:2px dashed var(--warn)}
.tile{max-width:150px;text-align:center;font-size:.8125rem;line-height:1.3}.tile svg{margin:0 auto}.tile b,.tile span{display:block}.tile b{font-weight:600}
.ring{fill:none;stroke:var(--warn);stroke-width:1.5}.ring.first{stroke-width:4}.ring.maybe{stroke-dasharray:4 3}
.key{display:flex;flex-wrap:wrap;gap:2px 16px;margin:10px 0 6px;padding:0;list-style:none;font-size:.875rem}.key li{display:flex;gap:6px;align-items:center}
${coatMarkStyle}${shadeStyle}`;
