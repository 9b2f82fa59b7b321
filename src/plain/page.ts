import { corners, type View } from '../day/view.ts';
import { asksNumber, statusParts, timerLine, timersShown } from '../screen/captions.ts';
import type { Layout } from '../screen/keys/layouts.ts';
import { cornerNames } from './corner-names.ts';

function wanted(view: View): string[] {
	if (view.ask === 'text') return ['Type the words.'];
	if (!asksNumber(view)) return [];
	const unit = view.unit ? ` in ${view.unit}` : '';
	const limits = view.min !== undefined && view.max !== undefined ? `, ${view.min} to ${view.max}` : '';
	return [`Type a number${unit}${limits}.`];
}

/** A question as lines of text, in the order in which they are best heard: what is asked, what helps, what may be answered. */
export function pageOf(view: View, { blocks }: Layout): string[] {
	const answers = corners.flatMap(corner => {
		const choice = view.corners[corner];
		return choice ? [`${blocks[corner][0] ?? ''} (${cornerNames[corner]}): ${choice.text}`] : [];
	});
	const status = view.ask === 'closed' ? '' : statusParts(view, null).join(', ');
	return [
		view.say,
		...view.lines,
		...(status === '' ? [] : [status]),
		...timersShown(view).map(timer => timerLine(timer, view)),
		...wanted(view),
		...answers,
		...(view.ask === 'closed' && answers.length > 0 ? ['quit: leave'] : []),
	];
}
