import { windowReasoned } from '../../../machines/face.ts';
import { inert } from '../../job/inert.ts';
import { clock, date } from '../../words/clock.ts';
import { duration, faceName, sentence } from '../../words/say.ts';
import { about } from '../../words/spoken.ts';
import { airNow, outlookOf, reworkDue, waitEnds } from '../allowed.ts';
import { isoAt } from '../instant.ts';
import { contextOf, faceOf, faceState, facesIn, isAside, jobOf, laidOn, type Moment } from '../moment.ts';
import { pending } from '../order.ts';
import { finishingIn_s, plannedPrep } from '../prep.ts';
import { type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { airPrompt } from './air.ts';
import { extractStaysOn } from './cautions.ts';
import { cleanUpList, endOfDay } from './clean-up.ts';
import { leftOverPrompt } from './left-over.ts';
import { setAside } from './set-aside.ts';
import { gunLines, soonerPrompt } from './waiting.ts';

/** The end of the day: clean-up, closing, and what comes next. */

/** The end: `early` where a coat of the sheet is not on, or a part stands set aside. Half a coat is set aside for sanding. */
export const closed = (moment: Moment): DayEvent[] => {
	const { faces } = contextOf(moment);
	const isShort = faces.some(
		face => face.context.laid < face.context.rules.coats.length || face.matches('aside'),
	);
	return [
		...facesIn(moment, 'part').flatMap(face =>
			setAside(moment, face, 'broken off, and the day ended', [face]),
		),
		{ type: 'day.closed', job: jobOf(moment).name, why: isShort ? 'early' : 'done' },
	];
};

/** Faces with part of a coat on: by the next day its edge is hard, and it is never gone over from its start. */
export const partLines = (moment: Moment): string[] =>
	facesIn(moment, 'part').map(face => about(faceName(face), 'broken off, it is set aside.'));

/** Every coat that today allows is on, or nothing can be sprayed for hours. */
export function finishPrompt(moment: Moment): Prompt {
	const left = pending(moment);
	const aside = facesIn(moment, 'aside');
	const cleaned = contextOf(moment).listsDone.includes('clean-up');
	const dues = [
		...left.map(({ face }) => ({ face, due: waitEnds(moment, face), why: 'window' as const })),
		...aside.map(face => ({ face, due: reworkDue(moment, face).due, why: 'rework' as const })),
		...facesIn(moment, 'open').flatMap(face => {
			const left_s = cleaned ? finishingIn_s(moment, face) : null;
			return left_s === null ? [] : [{ face, due: moment.now.wall + left_s * 1000, why: 'window' as const }];
		}),
	];
	const soonest = dues
		.filter(
			(one): one is { face: string; due: number; why: 'window' | 'rework' } =>
				one.due !== null && one.due > moment.now.wall,
		)
		.sort((one, other) => one.due - other.due)[0];
	const shut = cleaned
		? undefined
		: left.find(
				({ face }) => waitEnds(moment, face) === null && !windowReasoned(faceState(moment, face).context),
			);
	const sooner: Option[] = shut
		? [
				opens('sooner', 'SPRAY, WITH A REASON', () =>
					soonerPrompt(moment, shut.face, laidOn(moment, shut.face) + 1),
				),
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
	const isRefused = !cleaned && left.some(({ face }) => airNow(moment, face) === 'out');
	const read: Option[] = isRefused
		? [opens('read-again', 'READ THE AIR AGAIN', () => airPrompt(moment))]
		: [];
	const lines = [
		isRefused ? 'Air: outside the limits. A slip in it? Read it again.' : '',
		...(cleaned ? [extractStaysOn, ...partLines(moment)] : gunLines(moment)),
		aside.length > 0
			? `Set aside: ${[...new Set(aside.map(face => inert(faceOf(moment, face).part)))].join(', ')}.`
			: '',
		soonest ? `Next: ${faceName(soonest.face)} in ${duration((soonest.due - moment.now.wall) / 1000)}.` : '',
		!cleaned && left.length > 0 ? 'Once cleaned up, nothing more is sprayed today.' : '',
	].filter(Boolean);
	return {
		state: cleaned ? 'finish.close' : 'finish',
		ask: 'choose',
		say: cleaned
			? 'Cleaned up. Close the day when you leave.'
			: left.length > 0
				? 'No coat can go on for hours. Clean up.'
				: 'All coats that can go on are on.',
		lines,
		options: cleaned
			? [option('close', 'CLOSE THE DAY', ...closed(moment)), ...stay, ...sooner]
			: [
					contextOf(moment).cup.length > 0
						? opens('clean-up', 'CLEAN UP', () => leftOverPrompt(moment, endOfDay, cleanUpList(moment)))
						: option('clean-up', 'CLEAN UP', cleanUpList(moment)),
					...read,
					...stay,
					...sooner,
				],
	};
}

/** What comes next for a face, and when, where that is known. */
function comesNext(moment: Moment, face: ReturnType<typeof contextOf>['faces'][number]) {
	const { id, coats } = face.context.rules;
	if (face.matches('aside')) {
		const { due, step } = reworkDue(moment, id);
		return { id, what: `set aside, ${step.replace('-', ' ')}`, due };
	}
	if (face.matches('beside')) return { id, what: 'set aside with its part', due: Number.POSITIVE_INFINITY };
	if (face.context.laid >= coats.length) return afterLast(moment, id);
	const coat = `coat ${face.context.laid + 1}`;
	const does = outlookOf(moment, id)?.does ?? 'spray';
	return { id, what: does === 'spray' ? coat : `${does} before ${coat}`, due: waitEnds(moment, id) };
}

/** Work after the last coat, or nothing. */
function afterLast(moment: Moment, id: string) {
	const left_s = finishingIn_s(moment, id);
	const step = plannedPrep(moment, id);
	return left_s === null || !step
		? { id, what: 'all coats on', due: Number.POSITIVE_INFINITY }
		: { id, what: step.step, due: moment.now.wall + left_s * 1000 };
}

/** Faces of one kind as one name: the face, its part where no other is among them, else how many. */
function together(moment: Moment, ids: readonly string[]): string {
	const [first = ''] = ids;
	const parts = new Set(ids.map(id => faceOf(moment, id).part));
	if (ids.length === 1) return faceName(first);
	return parts.size === 1 ? inert(faceOf(moment, first).part) : `${ids.length} faces`;
}

/** What comes next for the faces, after the day is closed: those alike on one line, what wants most care first. */
export function closedPrompt(moment: Moment): Prompt {
	const { zone } = moment.state.book.opened;
	const whenOf = (due: number | null) => {
		if (due === null) return ', when not known';
		return Number.isFinite(due) ? `, ${date(due, zone)} ${clock(due, zone)}` : '';
	};
	const alike = new Map<string, { ids: string[]; due: number; isAside: boolean }>();
	for (const face of contextOf(moment).faces) {
		const { id, what, due } = comesNext(moment, face);
		const text = `${what}${whenOf(due)}`;
		const same = alike.get(text) ?? { ids: [], due: due ?? 0, isAside: isAside(moment, id) };
		alike.set(text, { ...same, ids: [...same.ids, id] });
	}
	const sorted = [...alike].sort(
		([, one], [, other]) => Number(other.isAside) - Number(one.isAside) || one.due - other.due,
	);
	const [shown, rest] = sorted.length <= 3 ? [sorted, []] : [sorted.slice(0, 2), sorted.slice(2)];
	const others = rest.reduce((sum, [, { ids }]) => sum + ids.length, 0);
	return {
		state: 'closed',
		ask: 'closed',
		say: 'Day closed.',
		lines: [
			...shown.map(([text, { ids }]) => sentence(`${together(moment, ids)}: ${text}.`)),
			...(others > 0 ? [`${others} faces more: fanwise now tells each.`] : []),
		],
	};
}
