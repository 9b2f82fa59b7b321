import { clockOn } from '../../words/clock.ts';
import { groupedFaces, sentence } from '../../words/say.ts';
import { aboutFaces } from '../../words/spoken.ts';
import { outlookOf, shutWindow } from '../allowed.ts';
import { contextOf, jobOf, laidOn, type Moment } from '../moment.ts';
import { type Option, opens, option, type Prompt } from '../prompt.ts';
import { cleanUpList, endOfDay } from './clean-up.ts';
import { leftOverPrompt } from './left-over.ts';
import { reasonPrompt } from './override.ts';

/** What the windows still let be done, and when; for faces that no window opens for any more, that. */
function leftLine(moment: Moment, face: string): string {
	const next = outlookOf(moment, face);
	const coat = laidOn(moment, face) + 1;
	if (!next) return 'No window opens for it by waiting.';
	if (next.opens_s <= 0) return sentence(`${next.does} it now, then coat ${coat}.`);
	const { wall } = moment.now;
	const at = clockOn(wall + next.opens_s * 1000, wall, moment.state.book.opened.zone);
	return sentence(`${next.does} from ${at}, then coat ${coat}.`);
}

/** The coats that missed their recoat window, every face by its name, and what now: asked once. */
export function missedPrompt(moment: Moment, faces: readonly string[]): Prompt {
	const [first = ''] = faces;
	const coat = laidOn(moment, first) + 1;
	const next = outlookOf(moment, first);
	const isAll = faces.length === jobOf(moment).faces.length;
	const names = isAll ? 'Every face of the job' : sentence(groupedFaces(faces));
	const say = aboutFaces(faces, `coat ${coat} missed.`);
	const why = () =>
		reasonPrompt(
			'window',
			aboutFaces(faces, 'why spray now?'),
			reason =>
				faces.map(face => ({
					type: 'override.given',
					rule: 'window',
					reason,
					face,
					coat,
					window: shutWindow(moment, face),
				})),
			'DO NOT SPRAY',
		);
	const isNow = next !== null && next.opens_s <= 0;
	const ends: Option =
		contextOf(moment).cup.length > 0
			? opens('clean-up', 'CLEAN UP', () => leftOverPrompt(moment, endOfDay, cleanUpList(moment)))
			: option('clean-up', 'CLEAN UP', cleanUpList(moment));
	return {
		state: 'missed',
		ask: 'choose',
		say,
		lines: [...(say.startsWith(names) ? [] : [`${names}.`]), leftLine(moment, first)],
		options: [
			option(
				'later',
				next ? `${next.does.toUpperCase()} ${isNow ? 'FIRST' : 'LATER'}` : 'LEAVE THEM',
				...faces.map(face => ({ type: 'edge.left' as const, face, coat })),
			),
			opens('spray', 'SPRAY, WITH A REASON', why),
			...(isNow ? [] : [ends]),
		],
	};
}
