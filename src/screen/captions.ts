import type { Timer, View } from '../day/view.ts';
import { coatCounted } from '../words/say.ts';
import { edgeSaid } from '../words/window-edge.ts';

/**
 * Time left as a painter reads it from afar: minutes while there is time, minutes and seconds near the end.
 *
 * @param seconds time left; below zero it is over by so much
 */
export function timeLeft(seconds: number): string {
	if (seconds < 0) return `over by ${timeLeft(-seconds)}`;
	if (seconds >= 3600) {
		const minutes = Math.ceil(seconds / 60);
		return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')}`;
	}
	if (seconds >= 600) return `${Math.ceil(seconds / 60)} min`;
	const whole = Math.ceil(seconds);
	return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

const plainCode = (code: string) => code.replaceAll('-', ' ');

/** What each timer counts down to. */
const timerWords: Record<string, string> = {
	flash: 'Flash ends',
	opens: 'Wait ends',
	touch: 'Touch again',
	stand: 'Batch stands',
	rework: 'Rework',
	settle: 'Ready',
	'pot-life': 'Pot life ends',
	'wet-tip': 'Wet the tip',
	flush: 'Flush the gun',
};

const overWords: Record<string, string> = {
	stand: 'Batch has stood',
	'pot-life': 'Pot life is over',
	'wet-tip': 'Wet the tip now',
	flush: 'Flush the gun now',
};

/** One timer as a short line: a recoat window by the time of day, the others by the time left. */
export function timerLine(timer: Timer, { at, zone }: Pick<View, 'at' | 'zone'>): string {
	const { code, face, due, does, follows } = timer;
	if ((code === 'opens' || code === 'closes') && does && follows)
		return `${face}: ${edgeSaid({ code, due: Date.parse(due), does, follows }, Date.parse(at), zone)}`;
	const what = timerWords[timer.code] ?? plainCode(timer.code);
	const over = overWords[timer.code];
	if (timer.left_s <= 0 && over) return `${timer.face ? `${timer.face}: ` : ''}${over}`;
	return `${timer.face ? `${what}, ${timer.face}` : what}: ${timeLeft(timer.left_s)}`;
}

/** A number is to be typed, whatever it is read from. */
export const asksNumber = (view: View): boolean => view.ask === 'number' || view.step !== undefined;

/** In a wait and in a hold the gun's own line tells these. */
const gunTimers = ['wet-tip', 'flush'];
/** While something is asked, only what ends within the hour stands beside it. */
const soon_s = 3600;

/**
 * The timers to be shown beside the word, the soonest first: none while a face is being sprayed.
 * On a wait the first is the word itself, and stands beside it only where it has a time of day.
 */
export function timersShown(view: View): Timer[] {
	if (view.ask === 'spraying' || view.ask === 'closed') return [];
	const [first] = view.timers;
	const isWord = view.ask === 'wait' && first?.code !== 'opens';
	const rest = isWord ? view.timers.slice(1) : view.timers;
	const isAway = view.ask === 'wait' || view.ask === 'hold';
	const near = rest.filter(
		({ code, left_s }) => !(isAway && gunTimers.includes(code)) && (isAway || left_s < soon_s),
	);
	return [...near].sort((one, other) => one.left_s - other.left_s);
}

/** How words are typed where the space bar is hold. */
export const typingLines = (view: View): string[] =>
	view.ask === 'text' ? ['_ parts words, Enter keeps it.'] : [];

/** Ways to lay a face's name over lines. */
export function nameWays(face: string): string[][] {
	const [part = '', ...rest] = face.split('/');
	return rest.length > 0 ? [[face], [part, rest.join('/')]] : [[face]];
}

/** The line that says where the painter is in the day; a rehearsal is said first and never cut. */
export function statusParts(view: View, notice: string | null): string[] {
	const rehearsal = view.rehearsal ? ['REHEARSAL'] : [];
	if (notice !== null) return [...rehearsal, notice];
	return [
		...rehearsal,
		...(view.ask === 'wait' ? ['WAIT'] : []),
		...(view.face === null ? [] : [view.face]),
		...(view.coat === null ? [] : [coatCounted(view.coat, view.coats)]),
		...(view.cup && view.cup.length > 0 ? [`cup ${view.cup.join(' + ')}`] : []),
		...(view.open.length > 0 ? [`open: ${view.open.length}`] : []),
	];
}
