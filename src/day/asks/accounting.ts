import { inert } from '../../job/inert.ts';
import { faceName, numberedPart } from '../../words/say.ts';
import { about } from '../../words/spoken.ts';
import { isEdgeUsual, shutWindow } from '../allowed.ts';
import { isoAt } from '../instant.ts';
import { faceBook, faceOf, facesIn, inLineOf, jobOf, laidOn, type Moment } from '../moment.ts';
import { orderOf } from '../order.ts';
import { asHome, type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { strokesOf } from '../strokes.ts';
import { reasonPrompt } from './override.ts';
import { reading } from './reading.ts';
import { setAside } from './set-aside.ts';
import { whyAsked, worded } from './worded.ts';

/** After a break: how much of the coat is on the face, or on the faces of the stretch, that was being sprayed. */

type Extent = 'all' | 'part' | 'none';

const ended = (
	moment: Moment,
	face: string,
	extent: Extent,
	lastStroke: number | null = null,
	share: { began?: string; ended?: string } = {},
): DayEvent => ({
	type: 'face.ended',
	face,
	coat: laidOn(moment, face) + 1,
	extent,
	lastStroke,
	estimated: true,
	...share,
});

/** The time from the start to the break, shared out among the faces that were reached. */
function sharesOf(moment: Moment, reached: readonly string[]): { began?: string; ended?: string }[] {
	const passes = reached.map(face => faceBook(moment, face).pass);
	const began = passes[0]?.began.wall ?? 0;
	const whole = passes.reduce((sum, pass) => sum + (pass?.spray_s ?? 0), 0);
	const noticed = passes[0]?.stopped?.wall ?? 0;
	const seen = passes[0]?.watched ? noticed : (passes[0]?.seen?.wall ?? noticed);
	const stopped = Math.min(noticed, Math.max(seen, began + whole * 1000));
	/** A clock set back since lays the end of the pass ahead of now: no share of it can be said. */
	const isAhead = stopped > moment.now.wall;
	if (stopped < began || isAhead || whole === 0) return reached.map(() => ({}));
	let from = began;
	return passes.map((pass, index) => {
		const until =
			index === passes.length - 1 ? stopped : from + ((stopped - began) * (pass?.spray_s ?? 0)) / whole;
		const share = { began: isoAt(Math.round(from)), ended: isoAt(Math.round(until)) };
		from = until;
		return share;
	});
}

function accountFor(moment: Moment, faces: readonly string[], last: string): Prompt {
	const coat = laidOn(moment, last) + 1;
	const place = faces.indexOf(last);
	const on = { face: last, coat };
	const reached = (extent: Extent, lastStroke: number | null): DayEvent[] => {
		const until = extent === 'none' ? place - 1 : place;
		const shares = sharesOf(moment, faces.slice(0, until + 1));
		return faces.map((face, index) => {
			if (index < place) return ended(moment, face, 'all', null, shares[index]);
			return index > place
				? ended(moment, face, 'none')
				: ended(moment, face, extent, lastStroke, shares[index]);
		});
	};
	const which = faces.length > 1 ? [reading(moment, 'which-face', last, null, on)] : [];
	const told = (value: Extent, lastStroke: number | null = null): DayEvent[] => [
		...which,
		reading(moment, 'last-face', value, null, on),
		...reached(value, lastStroke),
	];
	const strokePrompt = (): Prompt => {
		const strokes = strokesOf(faceOf(moment, last), jobOf(moment), laidOn(moment, last));
		return {
			state: 'account.stroke',
			ask: 'number',
			say: worded(moment, 'after-a-break', 'last-face', 'stroke', { face: faceName(last) }),
			lines: [
				`About ${strokes} ${strokes === 1 ? 'stroke' : 'strokes'} here. Count from where you began.`,
				...whyAsked(moment, 'after-a-break', 'last-face'),
			],
			face: last,
			coat,
			number: {
				of: 'stroke',
				unit: 'stroke',
				min: 1,
				max: strokes * 2,
				step: 1,
				reply: value => ({ events: told('part', Math.round(value)) }),
			},
			options: [option('cannot-tell', 'CANNOT TELL', ...told('part'))],
		};
	};
	// The corner that came back is left empty: struck twice, it must not say what is on the face.
	return {
		state: 'account.last-face',
		ask: 'last-face',
		say: worded(moment, 'after-a-break', 'last-face', 'last-face', {
			face: faceName(last),
			coat: String(coat),
		}),
		lines: whyAsked(moment, 'after-a-break', 'last-face'),
		face: last,
		coat,
		options: [
			{ ...option('none', 'NOTHING', ...told('none')), at: 'topRight' },
			{ ...opens('part', 'PART', strokePrompt), at: 'bottomLeft' },
			{ ...option('all', 'ALL', ...told('all')), at: 'bottomRight' },
		],
	};
}

/** As many faces as have a corner each; of more the tag by the part is read. */
const mostCorners = 4;

/** Which face of a stretch was the last, then how much of it. */
export function accountPrompt(moment: Moment, broken: readonly string[]): Prompt {
	const faces = [...broken].sort((one, other) => orderOf(moment, one) - orderOf(moment, other));
	const [only] = faces;
	if (faces.length === 1 && only !== undefined) return accountFor(moment, faces, only);
	const asked = {
		state: 'account.which-face',
		ask: 'which-face' as const,
		say: worded(moment, 'after-a-break', 'last-face', 'which-face'),
		lines: whyAsked(moment, 'after-a-break', 'last-face'),
	};
	const which = (of: readonly string[]): Prompt => ({
		...asked,
		options: of.map(face => opens(face, faceName(face).toUpperCase(), () => accountFor(moment, faces, face))),
	});
	const numbers = faces.map(face => numberedPart(faceOf(moment, face).part));
	const kinds = new Set(numbers.map(({ kind, number }) => (number === null ? null : kind)));
	const [kind] = kinds;
	if (faces.length <= mostCorners || kinds.size > 1 || kind === undefined || kind === null)
		return which(faces);
	const known = numbers.map(({ number }) => number ?? 0);
	return {
		...asked,
		number: {
			of: 'part',
			unit: inert(kind),
			min: Math.min(...known),
			max: Math.max(...known),
			step: 1,
			reply: value => {
				const its = faces.filter((_, at) => known[at] === value);
				const [one] = its;
				if (one === undefined) return { notice: () => `${inert(kind)} ${value} was not in that stretch.` };
				return { next: () => (its.length > 1 ? which(its) : accountFor(moment, faces, one)) };
			},
		},
	};
}

/** Nothing of a day is ended, and no fault told, before it is known what is on a face that was broken off; null: it is. */
export function untoldPrompt(moment: Moment): Prompt | null {
	const untold = facesIn(moment, 'broken');
	return untold.length > 0 ? asHome(accountPrompt(moment, untold)) : null;
}

/** A face that ran over its time: did it go through in one go? */
export function oneGoPrompt(moment: Moment): Prompt {
	const { face, coat } = moment.state.book.late ?? { face: null, coat: null };
	const on = { face, coat };
	return {
		state: 'account.one-go',
		ask: 'one-go',
		say: 'That face took long. Did it go through in one go?',
		...on,
		options: [
			option('yes', 'IN ONE GO', reading(moment, 'one-go', 'yes', 'yes', on)),
			{
				...option('stopped', 'STOPPED BETWEEN', reading(moment, 'one-go', 'stopped', 'yes', on)),
				notice: () => 'It stopped: look there for a seam.',
			},
		],
	};
}

const leaves = (moment: Moment, face: string, why: string): Option => {
	const inLine = inLineOf(moment, faceOf(moment, face).part);
	return option('set-aside', 'SET THE PART ASIDE', ...setAside(moment, face, why, inLine));
};

/** A face broken off and past its wet edge: joining it now leaves a seam. */
export function edgePrompt(moment: Moment, face: string): Prompt {
	const coat = laidOn(moment, face) + 1;
	const { part } = faceBook(moment, face);
	return {
		state: 'edge',
		ask: 'choose',
		say: about(
			faceName(face),
			isEdgeUsual(moment, face)
				? 'its wet edge was never measured: no join.'
				: 'wet edge is gone. The join will show.',
		),
		lines: part?.lastStroke ? [`Stroke ${part.lastStroke} was laid last.`] : [],
		face,
		coat,
		options: [
			option('wait-flash', 'LET IT FLASH', { type: 'edge.left', face, coat }),
			leaves(moment, face, 'broken off past the wet edge'),
		],
	};
}

/** A face broken off, its flash over, and the coat under it outside its window: no waiting makes that good. */
export function shutPrompt(moment: Moment, face: string): Prompt {
	const coat = laidOn(moment, face) + 1;
	const window = shutWindow(moment, face);
	const flashed: DayEvent[] = faceBook(moment, face).part?.left ? [] : [{ type: 'edge.left', face, coat }];
	const why = () =>
		reasonPrompt(
			'window',
			about(faceName(face), 'why finish it now?'),
			reason => [{ type: 'override.given', rule: 'window', reason, face, coat, window }, ...flashed],
			'DO NOT FINISH IT',
		);
	return {
		state: 'edge.shut',
		ask: 'choose',
		say: about(faceName(face), 'the coat under it is outside its window.'),
		lines: ['Set aside, it is sanded and sprayed again.'],
		face,
		coat,
		options: [
			leaves(moment, face, 'broken off, and the coat under it outside its window'),
			opens('go-on', 'FINISH, WITH A REASON', why),
		],
	};
}
