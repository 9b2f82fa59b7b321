import { batchInHand } from '../../../machines/day-context.ts';
import { inert } from '../../job/inert.ts';
import { itemIn } from '../../job/list-words.ts';
import { clock, date } from '../../words/clock.ts';
import { duration, faceName, sentence } from '../../words/say.ts';
import { lifeLeft_s } from '../allowed.ts';
import { wasLong } from '../book.ts';
import { atLeast_s, atMost_s } from '../instant.ts';
import { contextOf, facesIn, jobOf, lastSprayed, type Moment } from '../moment.ts';
import { nextStep, waitAhead } from '../next.ts';
import { pending } from '../order.ts';
import { isUnsettled } from '../passed.ts';
import { back, type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent, EventOf } from '../records.ts';
import { changedBy } from '../replanned.ts';
import { untoldPrompt } from './accounting.ts';
import { airPrompt } from './air.ts';
import { extractStaysOn } from './cautions.ts';
import { cleanUp } from './clean-up.ts';
import { closed, partLines } from './finishing.ts';
import { troublePrompt } from './trouble.ts';
import { gunLines } from './waiting.ts';

/** Holds: what broke off, how long ago, and the ways on. */

const breakWords: Record<string, string> = {
	hold: 'Held.',
	trouble: 'Held for trouble.',
	restart: 'The program was started again.',
	suspend: 'The program stood still.',
	clock: 'The clock jumped.',
	hangup: 'The terminal was closed.',
	overdue: 'The pass ran far over its time.',
	'trigger-pause': 'The trigger paused.',
	silence: 'Nobody answered for minutes.',
};

/** Nothing about paint or gun until the painter is back and says that the air is. */
const airLostPrompt = (moment: Moment): Prompt => ({
	state: 'hold.air-lost',
	ask: 'hold',
	say: 'Breathing air off: leave now. Mask on until you are outside.',
	options: [opens('back', 'I AM BACK', () => airBackPrompt(moment))],
});

/** The supply is read as before spraying; on an older day, whose list does not ask for it, the painter says so. */
function airBackPrompt(moment: Moment): Prompt {
	const { lists } = moment.state.book.opened;
	const supply = itemIn(lists, 'before-spraying', 'supply');
	const read = (supply?.answers ?? []).filter(({ passes }) => passes !== 'unless-isocyanate');
	const options = read.map(({ code, text, passes }) =>
		passes === 'yes'
			? option('air-back', text, ended(moment))
			: opens(code, text, () => airOffPrompt(moment)),
	);
	return {
		state: 'hold.air-back',
		ask: 'choose',
		say: supply?.say ?? 'Breathing air: is the supply back and tested?',
		lines: supply?.why ? [supply.why] : [],
		options: [
			...(supply ? options : [option('air-back', 'AIR IS BACK', ended(moment)), back('not-yet', 'NOT YET')]),
			closing(moment),
		],
	};
}

/** What failed at the hose is put right and read again, or the day is closed. */
const airOffPrompt = (moment: Moment): Prompt => ({
	state: 'hold.air-off',
	ask: 'choose',
	say: 'Supplied air: not back. Stay out until it is.',
	options: [back('not-yet', 'READ AGAIN'), closing(moment)],
});

const closing = (moment: Moment): Option =>
	opens('close', 'CLOSE THE DAY', () => untoldPrompt(moment) ?? closeEarlyPrompt(moment));

const places: Record<string, string> = {
	bench: 'at the bench',
	list: 'in a list',
	mix: 'at the pot',
	check: 'in the gun check',
	ready: 'ready to spray',
	wait: 'in a wait',
};

/** What has become of a wait: what comes next once the painter is back, where it does not hang on what is asked then. */
function waitLine(moment: Moment): string {
	if (jumped_s(moment) > 0) return 'You were in a wait.';
	const next = waitAhead(moment);
	if (next) return `You were in a wait, ${duration((next.due - moment.now.wall) / 1000)} left.`;
	return nextStep(moment).kind === 'finish' ? 'You were in a wait.' : 'You were in a wait. It is over.';
}

/** Where the break found the painter, and what has become of a wait meanwhile. */
function whereLine(moment: Moment, broken: string | undefined): string {
	if (broken) return sentence(`${faceName(broken)} was being sprayed.`);
	const { break: held, wait } = moment.state.book;
	const from = held?.from ?? '';
	const place = places[from];
	if (from === 'wait' && wait) return waitLine(moment);
	return place ? `You were ${place}.` : '';
}

function lastLine(moment: Moment): string {
	const last = lastSprayed(moment);
	return last ? `Last: ${faceName(last.face)}, coat ${last.coat}.` : '';
}

/** Paint that died meanwhile comes before all else: it may burn where it stands. */
function deadLine(moment: Moment): string {
	const dead = Object.entries(contextOf(moment).batches).flatMap(([letter, batch]) =>
		batch.value !== 'discarded' && lifeLeft_s(moment, letter) <= 0 ? [letter] : [],
	);
	return dead.length === 0
		? ''
		: `Batch ${dead.join(', ')}: past its life. Outside with it; heat builds in it.`;
}

type Jump = EventOf<'break.ended'>['jump'];

const ended = ({ state, now }: Moment, jump?: Jump): DayEvent => ({
	type: 'break.ended',
	kind: state.book.break?.kind ?? 'hold',
	by: 'painter',
	...(jump && { jump }),
	facts: { long: wasLong(state.book, now) },
});
/** Coming back says what the break has changed of the day. */
const isBack = (moment: Moment, jump?: Jump): Option => ({
	...option('back', 'GO ON', ended(moment, jump)),
	notice: () => changedBy(moment),
});

/** GO ON, once what the clocks leave open was asked. */
function backFrom(moment: Moment): Option {
	if (jumped_s(moment) > 0) return opens('back', 'GO ON', () => jumpPrompt(moment));
	return clockIsBack(moment) ? opens('back', 'GO ON', () => clockPrompt(moment)) : isBack(moment);
}

/** By how much the wall clock went on beyond what is proved, in this break, s: it was set, or the machine slept. */
function jumped_s({ state, now }: Moment): number {
	const doubted = now.gaps.slice(state.book.break?.gaps ?? now.gaps.length).filter(isUnsettled);
	return doubted.reduce((sum, { least, most }) => sum + most - least, 0) / 1000;
}

function jumpPrompt(moment: Moment): Prompt {
	const answer = (code: NonNullable<Jump>, text: string): Option =>
		clockIsBack(moment)
			? opens(code, text, () => clockPrompt(moment, code))
			: { ...isBack(moment, code), code, text };
	return {
		state: 'hold.jump',
		ask: 'choose',
		say: `Clock: it jumped ${duration(jumped_s(moment))} ahead. Was it set?`,
		lines: [itSays(moment), 'Not sure: waits count without it, windows and pots with it.'],
		options: [answer('not-sure', 'NOT SURE'), answer('set', 'IT WAS SET'), answer('slept', 'MACHINE SLEPT')],
	};
}

/** The clock went back in this break: every wait and window hangs on it. */
const clockIsBack = ({ state }: Moment): boolean => (state.book.break?.clockBack_s ?? 0) > 0;

const itSays = ({ state, now }: Moment): string => {
	const { zone } = state.book.opened;
	return `It says ${clock(now.wall, zone)}, ${date(now.wall, zone)}.`;
};

function clockPrompt(moment: Moment, jump?: Jump): Prompt {
	const behind = duration(moment.state.book.break?.clockBack_s ?? 0);
	return {
		state: 'hold.clock',
		ask: 'choose',
		say: `Clock: it went back ${behind}. Is it right now?`,
		lines: [itSays(moment)],
		options: [
			{ ...isBack(moment, jump), code: 'clock-right', text: 'IT IS RIGHT' },
			back('clock-wrong', 'SET IT FIRST'),
		],
	};
}

/** How long the break has lasted, as far as the clocks can tell. */
function awayWords({ state, now }: Moment): string {
	const since = state.book.break?.since ?? now;
	const least_s = atLeast_s(since, now);
	const isKnown = atMost_s(since, now) - least_s <= 60;
	return isKnown ? `Away ${duration(least_s)}.` : `Away ${duration(least_s)} or more.`;
}

export function holdPrompt(moment: Moment): Prompt {
	const held = moment.state.book.break;
	if (held?.kind === 'air-lost') return airLostPrompt(moment);
	const [broken] = facesIn(moment, 'broken');
	const { clearance } = jobOf(moment).shop;
	const clears = clearance
		? `Mist hangs here: ${clearance.minutes} min, measured ${inert(clearance.measured)}.`
		: 'Mist hangs here: not measured.';
	return {
		state: 'hold',
		ask: 'hold',
		say: `${breakWords[held?.kind ?? 'hold'] ?? 'Held.'} ${awayWords(moment)}`,
		lines: [
			deadLine(moment),
			whereLine(moment, broken),
			lastLine(moment),
			...gunLines(moment),
			broken ? clears : '',
		]
			.filter(Boolean)
			.slice(0, 3),
		face: broken ?? null,
		options: [
			backFrom(moment),
			opens('trouble', 'TROUBLE', () => troublePrompt(moment)),
			{ ...closing(moment), at: 'bottomLeft' },
			{ ...opens('put-right', 'PUT RIGHT', () => putRightPrompt(moment)), at: 'bottomRight' },
		],
	};
}

/** What the painter has found to be otherwise than the program has it. */
const putRightPrompt = (moment: Moment): Prompt => ({
	state: 'hold.put-right',
	ask: 'choose',
	say: 'Put right: what is it?',
	options: [opens('read-air', 'READ THE AIR', () => airPrompt(moment)), back('nothing', 'NOTHING')],
});

/** With the air lost the day can only be closed: cleaning the gun is work for a painter who has air. */
const closeWithoutAir = (moment: Moment): Prompt => ({
	state: 'hold.close',
	ask: 'choose',
	say: 'Day: close it now?',
	options: [option('close', 'CLOSE THE DAY', ...closed(moment)), notClosed],
});

const notClosed = back('not', 'DO NOT');

function closeEarlyPrompt(moment: Moment): Prompt {
	if (moment.state.book.break?.kind === 'air-lost') return closeWithoutAir(moment);
	const { cup } = contextOf(moment);
	const [inHand] = batchInHand(contextOf(moment)) ?? [];
	const waste: DayEvent[] =
		inHand === undefined ? [] : [{ type: 'batch.discarded', batch: inHand, why: 'the day ends' }];
	const clean = option('clean-up', 'CLEAN UP FIRST', ...waste, ended(moment), ...cleanUp(moment));
	const cleaned = contextOf(moment).listsDone.includes('clean-up');
	return {
		state: 'hold.close',
		ask: 'choose',
		say: cup.length > 0 ? 'Day: close it with paint in the gun?' : 'Day: close it now?',
		lines: [
			...(cup.length > 0 ? ['Paint sets in the gun. Cleaning it first is better.'] : []),
			cleaned || pending(moment).length === 0 || partLines(moment).length > 0
				? extractStaysOn
				: `${extractStaysOn} Once cleaned up, nothing more is sprayed today.`,
			...partLines(moment),
		].slice(0, 3),
		options: [...(cleaned ? [] : [clean]), option('close', 'CLOSE THE DAY', ...closed(moment)), notClosed],
	};
}
