import type { View } from '../day/view.ts';
import { asksNumber } from './captions.ts';
import type { KeyNames } from './keys/names.ts';

/** How a screen is answered: the keys that are named on it, or one switch whose presses are counted. */
export type Answering = { keys: KeyNames | null; counted: boolean };

/** Says what leaves a closed day. */
function leaving(view: View, { keys, counted }: Answering): string[] {
	const [first] = keys?.topLeft ?? [];
	if (counted) return ['one press: leave'];
	const any = Object.keys(view.corners).length > 0 ? 'any other' : 'any';
	return [...(first ? [`${first}, or ${any} corner: leave`] : []), `${any} corner: leave`];
}

function holding({ keys, counted }: Answering, does: string): string[] {
	const names = keys?.hold ?? ['space'];
	const all = names.length > 1 ? [`${names.join(' or ')}: ${does}`] : [];
	if (!counted) return [...all, `space: ${does}`];
	return [`press 1 to 4 times, then once more; keep it down: ${does}`, `keep it down: ${does}`];
}

/**
 * What stands between the lower answers, the best liked first and the shortest last: what the space bar does, which is
 * hold wherever a day runs.
 */
export function hintsOf(view: View, answering: Answering): string[] {
	if (view.state.startsWith('keys.')) return [];
	if (view.ask === 'closed') return leaving(view, answering);
	if (view.state === 'pick.day') return ['Ctrl-C: leave'];
	if (view.state.startsWith('pick.')) return holding(answering, 'back');
	const hold = holding(answering, view.ask === 'hold' ? 'stay held' : 'hold');
	const [first = ''] = hold;
	const typing = asksNumber(view) ? [`type it, then Enter; ${first}`] : [];
	if (!view.rehearsal) return [...typing, ...hold];
	const clock = [`${first}, arrows: right +1 min, up +10 min`, `${first}, right: +1 min`];
	return [...typing, ...clock, ...hold];
}
