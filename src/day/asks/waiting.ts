import { batchInHand } from '../../../machines/day.ts';
import { duration, faceName, inert, sentence } from '../../words/say.ts';
import { cupLife_s, gunClock, overridesOn, reworkDue, stoodAt, waitEnds } from '../allowed.ts';
import { isoAt } from '../instant.ts';
import { contextOf, faceOf, facesIn, jobOf, laidOn, type Moment, settingsOf } from '../moment.ts';
import { paintShort_mL, pending, reworkNow } from '../next.ts';
import { inside, type Option, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { accountPrompt } from './accounting.ts';
import { reasonPrompt, reworkPrompt } from './bench.ts';
import { mixPrompt } from './mixing.ts';
import { inTrouble, troublePrompt } from './trouble.ts';

/** Waits and holds, and the end of the day. */

const resume = (batch: string): Option =>
	option('go-on-mixing', `GO ON WITH ${batch}`, { type: 'batch.stood', batch, facts: { stood: true } });

/** Mixing, flushing and rework that fit into a wait. */
function meanwhile(moment: Moment, face: string | null): Option[] {
	const inHand = batchInHand(contextOf(moment));
	const stood = inHand && stoodAt(moment, inHand[0]) <= moment.now.wall ? [resume(inHand[0])] : [];
	const next = face ?? pending(moment)[0]?.face ?? null;
	const wantsPaint = next !== null && paintShort_mL(moment, next) > 0;
	const alive = contextOf(moment).cup.length > 0 && cupLife_s(moment) > 0;
	const mix: Option[] =
		next !== null && !inHand && wantsPaint
			? [{ code: 'mix', text: alive ? 'MIX ANOTHER' : 'MIX', reply: () => ({ ui: { menu: ['mix', next] } }) }]
			: [];
	const rework: Option[] = reworkNow(moment)
		? [{ code: 'rework', text: 'REWORK', reply: () => ({ ui: { menu: ['rework'] } }) }]
		: [];
	const flush: Option[] =
		contextOf(moment).cup.length > 0
			? [
					option('flush', 'FLUSH THE GUN', {
						type: 'cup.emptied',
						volume_mL: moment.state.book.cup_mL,
						why: 'flushed',
					}),
				]
			: [];
	const why = moment.state.book.wait?.why;
	const sooner: Option[] =
		face !== null && (why === 'window' || why === 'flash')
			? [{ code: 'sooner', text: 'SOONER, WITH A REASON', reply: () => ({ ui: { menu: ['sooner'] } }) }]
			: [];
	return [...stood, ...mix, ...rework, ...flush, ...sooner];
}

/** What the gun needs while nobody sprays. */
export function gunLines(moment: Moment): string[] {
	const clock = gunClock(moment);
	if (!clock) return [];
	const { wall } = moment.now;
	if (clock.flush <= wall) return ['Gun: paint stood too long. Flush it.'];
	if (clock.wet <= wall) return [`Gun: wet the tip. Flush in ${duration((clock.flush - wall) / 1000)}.`];
	return [`Gun: wet the tip in ${duration((clock.wet - wall) / 1000)}.`];
}

const whys: Record<string, string> = {
	flash: 'the coat flashes',
	window: 'the coat flashes',
	touch: 'the tab was wet',
	stand: 'the batch stands',
	rework: 'it sets up',
};

/** A window overridden: the wait ends with the reason, and everything after it is asked as ever. */
const soonerPrompt = (face: string, coat: number): Prompt =>
	reasonPrompt('window', sentence(`${faceName(face)}: why not wait?`), reason => [
		{ type: 'override.given', rule: 'window', reason, face, coat },
	]);

export function waitPrompt(moment: Moment, menu: readonly string[]): Prompt {
	const { wait } = moment.state.book;
	if (menu[0] === 'mix') return mixPrompt(moment, menu[1] ?? '', menu.slice(2));
	const rework = menu[0] === 'rework' ? reworkNow(moment) : null;
	if (rework) return reworkPrompt(moment, rework.faces, rework.step);
	if (menu[0] === 'sooner' && wait?.face && wait.coat !== null) return soonerPrompt(wait.face, wait.coat);
	const left_s = wait ? (Date.parse(wait.due) - moment.now.wall) / 1000 : 0;
	const { warnEarly_min } = settingsOf(moment);
	const face = wait?.face ?? null;
	const lines = [
		face ? `Next: ${faceName(face)}, coat ${laidOn(moment, face) + 1}.` : '',
		left_s <= warnEarly_min * 60 ? 'Dress, stir, mix: the wait ends soon.' : '',
		...gunLines(moment),
	].filter(Boolean);
	return {
		state: 'wait',
		ask: 'wait',
		say: sentence(`Wait ${duration(left_s)}: ${whys[wait?.why ?? 'flash'] ?? 'wait'}.`),
		lines,
		face,
		coat: face ? laidOn(moment, face) + 1 : null,
		options: [...meanwhile(moment, face), { ...inTrouble, at: 'bottomRight' }],
	};
}

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

export function holdPrompt(moment: Moment, menu: readonly string[]): Prompt {
	const held = moment.state.book.break;
	if (held?.kind === 'air-lost') return airLostPrompt(menu);
	const untold = facesIn(moment, 'broken');
	if ((menu[0] === 'close' || menu[0] === 'wet') && untold.length > 0)
		return inside(menu[0], accountPrompt(moment, untold, menu.slice(1)));
	if (menu[0] === 'close') return closeEarlyPrompt(moment);
	if (menu.length > 0) return troublePrompt(moment, menu);
	const away = duration((moment.now.wall - (held?.since.wall ?? moment.now.wall)) / 1000);
	const [broken] = untold;
	const last = broken
		? `${faceName(broken)} was being sprayed.`
		: held?.from === 'spraying'
			? ''
			: held?.from
				? `You were at: ${held.from}.`
				: '';
	const { clearance } = jobOf(moment).shop;
	const clears = clearance
		? `Clearance here: ${clearance.minutes} min, measured ${inert(clearance.measured)}.`
		: 'Clearance time of this shop: not known.';
	return {
		state: 'hold',
		ask: 'hold',
		say: `${breakWords[held?.kind ?? 'hold'] ?? 'Held.'} Away ${away}.`,
		lines: [last, ...gunLines(moment), broken ? clears : ''].filter(Boolean).slice(0, 3),
		face: broken ?? null,
		options: [
			option('back', 'BACK', { type: 'break.ended', kind: (held?.kind ?? 'hold') as 'hold', by: 'painter' }),
			{ code: 'trouble', text: 'TROUBLE', reply: () => ({ ui: { menu: ['trouble'] } }) },
			{ code: 'close', text: 'CLOSE THE DAY', at: 'bottomLeft', reply: () => ({ ui: { menu: ['close'] } }) },
		],
	};
}

/** Faces whose coats are not all on: what the day leaves behind. */
const closed = (moment: Moment): DayEvent => ({
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

/** Clean-up empties the gun first: what is left in the cup is waste. */
const cleanUp = (moment: Moment): DayEvent[] => {
	const { book } = moment.state;
	const list = book.opened.lists.find(one => one.list === 'clean-up');
	const emptied: DayEvent[] =
		contextOf(moment).cup.length > 0
			? [{ type: 'cup.emptied', volume_mL: book.cup_mL, why: 'end of the day' }]
			: [];
	return [
		...emptied,
		{
			type: 'check.began',
			check: book.checks + 1,
			list: 'clean-up',
			size: null,
			items: list?.items.map(({ code }) => code) ?? [],
			face: null,
			coat: null,
		},
	];
};

/** Every coat that today allows is on, or nothing can be sprayed for hours. */
export function finishPrompt(moment: Moment, menu: readonly string[]): Prompt {
	if (menu[0] === 'sooner' && menu[1]) return soonerPrompt(menu[1], laidOn(moment, menu[1]) + 1);
	const left = pending(moment);
	const aside = facesIn(moment, 'aside');
	const cleaned = contextOf(moment).listsDone.includes('clean-up');
	const dues = [
		...left.map(({ face }) => ({ face, due: waitEnds(moment, face), why: 'window' as const })),
		...aside.map(face => ({ face, due: reworkDue(moment, face).due, why: 'rework' as const })),
	];
	const soonest = dues
		.filter(
			(one): one is { face: string; due: number; why: 'window' | 'rework' } =>
				one.due !== null && one.due > moment.now.wall,
		)
		.sort((one, other) => one.due - other.due)[0];
	const shut = left.find(
		({ face }) => waitEnds(moment, face) === null && !overridesOn(moment, face).includes('window'),
	);
	const sooner: Option[] = shut
		? [
				{
					code: 'sooner',
					text: 'SPRAY, WITH A REASON',
					reply: () => ({ ui: { menu: ['sooner', shut.face] } }),
				},
			]
		: [];
	const stay: Option[] = soonest
		? [
				option('stay', 'STAY AND WAIT', {
					type: 'wait.began',
					face: soonest.face,
					coat: laidOn(moment, soonest.face) + 1,
					due: isoAt(soonest.due),
					why: soonest.why,
				}),
			]
		: [];
	const lines = [
		aside.length > 0
			? `Set aside: ${[...new Set(aside.map(face => inert(faceOf(moment, face).part)))].join(', ')}.`
			: '',
		soonest ? `Next: ${faceName(soonest.face)} in ${duration((soonest.due - moment.now.wall) / 1000)}.` : '',
	].filter(Boolean);
	return {
		state: cleaned ? 'finish.close' : 'finish',
		ask: 'choose',
		say: left.length > 0 ? 'No coat can go on for hours. Clean up.' : 'All coats that can go on are on.',
		lines,
		options: cleaned
			? [option('close', 'CLOSE THE DAY', closed(moment)), ...stay, ...sooner]
			: [option('clean-up', 'CLEAN UP', ...cleanUp(moment)), ...stay, ...sooner],
	};
}

/** What comes next for each face, after the day is closed. */
export function closedPrompt(moment: Moment): Prompt {
	const next = contextOf(moment).faces.map(face => {
		const { id } = face.context.rules;
		const due = face.matches('aside') ? reworkDue(moment, id).due : waitEnds(moment, id);
		const what = face.matches('aside')
			? `set aside, ${reworkDue(moment, id).step}`
			: face.context.laid >= face.context.rules.coats.length
				? 'all coats on'
				: `coat ${face.context.laid + 1}`;
		const when =
			face.context.laid >= face.context.rules.coats.length && !face.matches('aside')
				? ''
				: due === null
					? ', when not known'
					: `, ${isoAt(due).slice(0, 16).replace('T', ' ')} UTC`;
		return sentence(`${faceName(id)}: ${what}${when}.`);
	});
	return { state: 'closed', ask: 'closed', say: 'Day closed.', lines: next };
}
