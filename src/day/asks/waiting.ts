import { batchInHand } from '../../../machines/day-context.ts';
import { duration, faceName, sentence } from '../../words/say.ts';
import { about } from '../../words/spoken.ts';
import { cupLife_s, gunClock, outlookOf, shutWindow, stoodAt } from '../allowed.ts';
import { beyondOf } from '../beyond-table.ts';
import { contextOf, type Moment, nextCoat, settingsOf } from '../moment.ts';
import { reworkNow } from '../next.ts';
import { pending } from '../order.ts';
import { isMixWanted, mixTakes_min } from '../paint.ts';
import { hardens_s, plannedPrep } from '../prep.ts';
import { asHome, type Option, opens, option, type Prompt } from '../prompt.ts';
import { workOn } from '../work.ts';
import { mixPrompt } from './batch-begin.ts';
import { suitUp } from './cautions.ts';
import { leftOverPrompt } from './left-over.ts';
import { reasonPrompt } from './override.ts';
import { closesSoon } from './preparing.ts';
import { oneMorePrompt, reworkPrompt } from './rework.ts';
import { inTrouble } from './trouble.ts';

/** Waits, and what fits into them. */

const resume = (batch: string): Option =>
	option('go-on-mixing', `GO ON WITH ${batch}`, { type: 'batch.stood', batch, facts: { stood: true } });

/** The face that a batch is to be mixed for in a wait; null: nothing is to be mixed, or a batch is in hand. */
function toMixFor(moment: Moment, face: string | null): string | null {
	const next = face ?? pending(moment)[0]?.face ?? null;
	return next !== null && isMixWanted(moment, next) ? next : null;
}

/** Mixing, flushing and rework that fit into a wait. */
function meanwhile(moment: Moment, face: string | null): Option[] {
	const inHand = batchInHand(contextOf(moment));
	const stood = inHand && stoodAt(moment, inHand[0]) <= moment.now.wall ? [resume(inHand[0])] : [];
	const mixed = toMixFor(moment, face);
	const alive = contextOf(moment).cup.length > 0 && cupLife_s(moment) > 0;
	const mix: Option[] =
		mixed === null
			? []
			: [opens('mix', alive ? 'MIX ANOTHER' : 'MIX', () => asHome(mixPrompt(moment, mixed)))];
	const due = reworkNow(moment);
	const rework: Option[] = due ? [opens('rework', 'REWORK', () => dueRework(moment, due))] : [];
	const flush: Option[] =
		contextOf(moment).cup.length > 0
			? [opens('flush', 'FLUSH THE GUN', () => leftOverPrompt(moment, 'flushed'))]
			: [];
	const { why, coat = null } = moment.state.book.wait ?? {};
	const isForCoat = why === 'window' || why === 'flash';
	const sooner: Option[] =
		face !== null && coat !== null && isForCoat && shutWindow(moment, face) === 'wait'
			? [opens('sooner', 'SOONER', () => soonerPrompt(moment, face, coat))]
			: [];
	return [...stood, ...mix, ...rework, ...flush, ...sooner];
}

const dueRework = (moment: Moment, due: NonNullable<ReturnType<typeof reworkNow>>): Prompt =>
	due.kind === 'rework' ? reworkPrompt(moment, due.face, due.step) : asHome(oneMorePrompt(moment, due.face));

/** What the gun needs while nobody sprays. */
export function gunLines(moment: Moment): string[] {
	const clock = gunClock(moment);
	if (!clock) return [];
	const { wall } = moment.now;
	if (clock.flush <= wall) return ['Gun: air off and bled, then flush it.'];
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

/** A wait over a coat that work comes after is told by that work. */
const befores: Partial<Record<string, string>> = { sand: 'before sanding', scuff: 'before scuffing' };

function whyOf(moment: Moment, face: string | null, why: string): string {
	if (why === 'window' && face && hardens_s(moment, face) > 0) return 'the coat hardens';
	if (why === 'touch' && face && workOn(moment, face)?.step === 'turn over') return 'not dry to handle';
	const isOver = why === 'window' || why === 'flash';
	const side = face && isOver ? beyondOf(moment, face) : null;
	if (side) return `surface ${side} the sheet's table`;
	const step = face && isOver ? (plannedPrep(moment, face)?.step ?? outlookOf(moment, face)?.does) : null;
	return (step && befores[step]) ?? whys[why] ?? 'wait';
}

/** A window overridden: the wait ends with the reason, and everything after it is asked as ever. */
export const soonerPrompt = (moment: Moment, face: string, coat: number): Prompt =>
	reasonPrompt(
		'window',
		about(faceName(face), 'why not wait?'),
		reason => [
			{
				type: 'override.given',
				rule: 'window',
				reason,
				face,
				coat,
				window: shutWindow(moment, face),
			},
		],
		'WAIT AFTER ALL',
	);

/** What is left to do before a wait ends, once its time has come: a batch is begun so early that it is ready then. */
function soonLine(moment: Moment, left_s: number): string {
	const { face = null, why } = moment.state.book.wait ?? {};
	/** Nobody knows when a tab is dry: it is touched first. */
	if (why === 'touch') return '';
	const early_s = settingsOf(moment).warnEarly_min * 60;
	const mixed = toMixFor(moment, face);
	if (mixed !== null) {
		const takes_s = mixTakes_min(moment, nextCoat(moment, mixed)) * 60;
		if (left_s <= Math.max(early_s, takes_s)) return `Suit up, mix: the batch takes ${duration(takes_s)}.`;
	}
	if (left_s > early_s || why === 'rework') return '';
	return why === 'stand' ? 'Be back at the pot: it has nearly stood.' : `${suitUp}.`;
}

/** The face that is waited for, after a wet tab with the time that its window is about to close. */
function nextLines(moment: Moment, face: string, afterTab: boolean): string[] {
	const closes = afterTab ? closesSoon(moment, face) : [];
	return closes.length > 0 ? closes : [`Next: ${faceName(face)}.`];
}

export function waitPrompt(moment: Moment): Prompt {
	const { wait } = moment.state.book;
	const left_s = wait ? (Date.parse(wait.due) - moment.now.wall) / 1000 : 0;
	const face = wait?.face ?? null;
	/** The extractor stays on while a coat gives off vapour: source in `cautions.ts`. */
	const isDrying = wait?.why === 'flash' || wait?.why === 'window' || wait?.why === 'touch';
	const lines = [
		soonLine(moment, left_s),
		...gunLines(moment),
		face && wait?.why === 'rework' ? `Then: ${faceName(face)} is sanded flat.` : '',
		...(face && wait?.why !== 'rework' ? nextLines(moment, face, wait?.why === 'touch') : []),
	].filter(Boolean);
	return {
		state: 'wait',
		ask: 'wait',
		say: sentence(
			`Wait ${duration(left_s)}${isDrying ? ', extractor on' : ''}: ${whyOf(moment, face, wait?.why ?? 'flash')}.`,
		),
		lines,
		face,
		options: [...meanwhile(moment, face), { ...inTrouble(moment), at: 'bottomRight' }],
	};
}
