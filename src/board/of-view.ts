import type { View } from '../day/view.ts';
import type { Job } from '../job/job.ts';
import { pictureOf } from './face-picture.ts';
import type { DayShown, TimerShown } from './shown.ts';

/** The state by the first step of its name. No word of a question, an answer or an instruction goes to the board. */
const words: Record<string, string> = {
	air: 'AIR',
	account: 'BACK',
	closed: 'CLOSED',
	finish: 'CLEAN UP',
	gunCheck: 'CHECK',
	hold: 'HOLD',
	list: 'LIST',
	mix: 'MIX',
	prep: 'PREPARE',
	ready: 'READY',
	rework: 'REWORK',
	spraying: 'SPRAY',
	touch: 'TOUCH',
	trouble: 'TROUBLE',
	wait: 'WAIT',
};

const wordOf = (state: string): string =>
	state.startsWith('hold.air-') ? 'AIR LOST' : (words[state.split('.')[0] ?? ''] ?? 'BENCH');

/** The soonest first; none while a face is sprayed: that it will be late is the painter's alone. */
const timersOf = ({ ask, timers }: View): TimerShown[] =>
	ask === 'spraying'
		? []
		: timers
				.map(({ left_s: _, ...timer }) => timer)
				.toSorted((one, other) => Date.parse(one.due) - Date.parse(other.due));

/** What the board shows of a view: less than the painter's own screen, and nothing beside it. */
export const ofView = (
	view: View,
	sheet: Job,
	id: number,
): Pick<
	DayShown,
	'zone' | 'word' | 'face' | 'coat' | 'coats' | 'cup' | 'faces' | 'timers' | 'open' | 'picture'
> => ({
	zone: view.zone,
	word: wordOf(view.state),
	face: view.face,
	coat: view.coat,
	coats: view.coats,
	...(view.cup && { cup: view.cup }),
	faces: view.faces,
	timers: timersOf(view),
	open: view.open.length,
	picture: pictureOf(view, sheet, id),
});
