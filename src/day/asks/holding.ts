import { duration, faceName, inert } from '../../words/say.ts';
import { isoAt } from '../instant.ts';
import { contextOf, facesIn, jobOf, type Moment } from '../moment.ts';
import { inside, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { accountPrompt } from './accounting.ts';
import { troublePrompt } from './trouble.ts';
import { gunLines } from './waiting.ts';

/** Holds: what broke off, how long ago, and the ways on. */

const breakWords: Record<string, string> = {
	hold: 'Held.',
	trouble: 'Held for trouble.',
	restart: 'The program was started again.',
	suspend: 'The machine slept.',
	clock: 'The clock jumped.',
	hangup: 'The terminal was closed.',
	overdue: 'The pass ran far over its time.',
	'trigger-pause': 'The trigger paused.',
};

/** Nothing about paint or gun until the painter is back and says that the air is. */
function airLostPrompt(menu: readonly string[]): Prompt {
	if (menu[0] !== 'air')
		return {
			state: 'hold.air-lost',
			ask: 'hold',
			say: 'Air lost: leave now. Mask on until you are outside.',
			options: [{ code: 'back', text: 'I AM BACK', reply: () => ({ ui: { menu: ['air'] } }) }],
		};
	return {
		state: 'hold.air-back',
		ask: 'choose',
		say: 'Breathing air: is the supply back and tested?',
		options: [
			option('air-back', 'AIR IS BACK', { type: 'break.ended', kind: 'air-lost', by: 'painter' }),
			{ code: 'not-yet', text: 'NOT YET', reply: () => ({ ui: { menu: [] } }) },
		],
	};
}

const places: Record<string, string> = {
	bench: 'at the bench',
	list: 'in a list',
	mix: 'at the pot',
	check: 'in the gun check',
	ready: 'ready to spray',
	wait: 'in a wait',
};

/** Where the break found the painter. */
function whereLine({ state }: Moment, broken: string | undefined): string {
	if (broken) return `${faceName(broken)} was being sprayed.`;
	const place = places[state.book.break?.from ?? ''];
	return place ? `You were ${place}.` : '';
}

/** The coat laid last, of all faces. */
function lastLine({ state }: Moment): string {
	const ended = [...state.book.faces].flatMap(([id, { laid }]) => {
		const last = laid.at(-1);
		return last ? [{ id, coat: last.coat, at: last.ended.wall }] : [];
	});
	const last = ended.sort((one, other) => other.at - one.at)[0];
	return last ? `Last sprayed: ${faceName(last.id)}, coat ${last.coat}.` : '';
}

const back = ({ state }: Moment) =>
	option('back', 'BACK', {
		type: 'break.ended',
		kind: state.book.break?.kind ?? 'hold',
		by: 'painter',
	});

/** The clock went back in this break: every wait and window hangs on it. */
const clockIsBack = ({ state }: Moment): boolean => (state.book.break?.clockBack_s ?? 0) > 0;

function clockPrompt(moment: Moment): Prompt {
	const behind = duration(moment.state.book.break?.clockBack_s ?? 0);
	return {
		state: 'hold.clock',
		ask: 'choose',
		say: `Clock: it went back ${behind}. Is it right now?`,
		lines: [`It says ${isoAt(moment.now.wall).slice(0, 16).replace('T', ' ')} UTC.`],
		options: [
			{ ...back(moment), code: 'clock-right', text: 'IT IS RIGHT' },
			{ code: 'clock-wrong', text: 'SET IT FIRST', reply: () => ({ ui: { menu: [] } }) },
		],
	};
}

export function holdPrompt(moment: Moment, menu: readonly string[]): Prompt {
	const held = moment.state.book.break;
	if (held?.kind === 'air-lost') return airLostPrompt(menu);
	const untold = facesIn(moment, 'broken');
	if ((menu[0] === 'close' || menu[0] === 'wet') && untold.length > 0)
		return inside(menu[0], accountPrompt(moment, untold, menu.slice(1)));
	if (menu[0] === 'close') return closeEarlyPrompt(moment);
	if (menu[0] === 'clock') return clockPrompt(moment);
	if (menu.length > 0) return troublePrompt(moment, menu);
	const away = duration((moment.now.wall - (held?.since.wall ?? moment.now.wall)) / 1000);
	const [broken] = untold;
	const { clearance } = jobOf(moment).shop;
	const clears = clearance
		? `Clearance here: ${clearance.minutes} min, measured ${inert(clearance.measured)}.`
		: 'Clearance time of this shop: not known.';
	return {
		state: 'hold',
		ask: 'hold',
		say: `${breakWords[held?.kind ?? 'hold'] ?? 'Held.'} Away ${away}.`,
		lines: [whereLine(moment, broken), lastLine(moment), ...gunLines(moment), broken ? clears : '']
			.filter(Boolean)
			.slice(0, 3),
		face: broken ?? null,
		options: [
			clockIsBack(moment) ? opens('back', 'BACK', 'clock') : back(moment),
			{ code: 'trouble', text: 'TROUBLE', reply: () => ({ ui: { menu: ['trouble'] } }) },
			{ code: 'close', text: 'CLOSE THE DAY', at: 'bottomLeft', reply: () => ({ ui: { menu: ['close'] } }) },
		],
	};
}

/** Faces whose coats are not all on: what the day leaves behind. */
export const closed = (moment: Moment): DayEvent => ({
	type: 'day.closed',
	job: jobOf(moment).name,
	why: contextOf(moment).faces.some(
		face => face.context.laid < face.context.rules.coats.length || face.matches('aside'),
	)
		? 'early'
		: 'done',
});

function closeEarlyPrompt(moment: Moment): Prompt {
	const { cup } = contextOf(moment);
	return {
		state: 'hold.close',
		ask: 'choose',
		say: cup.length > 0 ? 'Day: close it with paint in the gun?' : 'Day: close it now?',
		lines: cup.length > 0 ? ['Paint sets in the gun. Going back and cleaning is better.'] : [],
		options: [
			option('close', 'CLOSE THE DAY', closed(moment)),
			{ code: 'not', text: 'DO NOT', reply: () => ({ ui: { menu: [] } }) },
		],
	};
}
