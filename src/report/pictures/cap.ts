import type { Job } from '../../job/job.ts';
import { html, type Markup, type Piece } from '../page/markup.ts';
import { word } from '../said.ts';

/** One way of holding gun and cap that the job asks for, seen from behind the gun. */
export type Hold = {
	horns: 'level' | 'upright';
	tilt: number;
	stroke: string;
	fan_deg: number;
	coats: string[];
};

/** Angle of the fan on the work, 0 upright: tilt, and a quarter turn for horns upright, modulo 180°. */
const fanAngle = (horns: string, tilt: number): number => (tilt + (horns === 'level' ? 0 : 90) + 360) % 180;

/** The ways of holding that a job's faces and coats ask for. */
export function holdsOf(job: Job): Hold[] {
	const holds = new Map<string, Hold>();
	for (const face of job.faces)
		for (const [nth, { horns, stroke }] of face.coats.entries()) {
			const key = `${horns} ${face.tilt} ${stroke}`;
			const hold = holds.get(key) ?? {
				horns,
				tilt: face.tilt,
				stroke,
				fan_deg: fanAngle(horns, face.tilt),
				coats: [],
			};
			hold.coats.push(`${face.id}#${nth + 1}`);
			holds.set(key, hold);
		}
	return [...holds.values()];
}

export const patternOf = ({ fan_deg }: Hold): string => (fan_deg === 0 ? 'tall' : 'wide');

const arrow = (turn: number): Piece =>
	html`<g transform="rotate(${turn})" class="stroke" stroke-width="2.5"><path d="M-62 0H62"/><path d="M-54 -6L-62 0L-54 6M54 -6L62 0L54 6"/></g>`;

/** Cap, fan and stroke of one way of holding the gun. */
export function cap(hold: Hold, nth: number): Markup {
	const id = `cap-${nth}`;
	const turn = hold.tilt + (hold.horns === 'level' ? 0 : 90);
	const title = `Horns ${hold.horns}${tiltSaid(hold.tilt)}, stroke ${word(hold.stroke)}`;
	const horn = (side: number): Piece =>
		html`<path d="M${side * 13} -6L${side * 24} -9V9L${side * 13} 6Z" class="horn"/>`;
	return html`<svg role="img" aria-labelledby="${id}-title ${id}-desc" width="136" height="136" viewBox="-68 -68 136 136" xmlns="http://www.w3.org/2000/svg">
<title id="${id}-title">${title}</title>
<desc id="${id}-desc">The air cap with its two horns, the fan ${patternOf(hold)} on the work, and the stroke across it.</desc>
<ellipse rx="10" ry="50" transform="rotate(${hold.fan_deg})" class="fan"/>
${arrow(hold.stroke === 'side-to-side' ? 0 : 90)}
<g transform="rotate(${turn})"><circle r="14" class="cap"/>${horn(1)}${horn(-1)}<circle r="3" class="tip"/></g>
</svg>`;
}

export const tiltSaid = (tilt: number): string =>
	tilt === 0 ? '' : `, gun laid over to the ${tilt > 0 ? 'left' : 'right'}`;
