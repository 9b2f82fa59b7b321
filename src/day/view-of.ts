import { batchInHand, knownOf } from '../../machines/day-context.ts';
import { gunClock, lifeLeft_s, outlookOf, overridesOn, settledAt, stoodAt, windowEdge } from './allowed.ts';
import { placeAt } from './ask.ts';
import { lateAt } from './asks/spraying.ts';
import type { Book } from './book.ts';
import { isoAt } from './instant.ts';
import { activityOf, contextOf, faceOf, isAside, jobOf, laidOn, type Moment } from './moment.ts';
import { waitAhead } from './next.ts';
import { pending } from './order.ts';
import type { Option, Prompt, Ui } from './prompt.ts';
import { type Corner, corners, type Timer, type View } from './view.ts';

/** Options in their corners; more than four turn pages in the last corner. */
export function cornersOf(prompt: Prompt, ui: Ui): Map<Corner, Option> {
	const options = prompt.options ?? [];
	if (options.length <= corners.length) return placed(options);
	const pages = Math.ceil(options.length / 3);
	const page = ui.page % pages;
	const shown = options.slice(page * 3, page * 3 + 3);
	const more: Option = { code: 'more', text: 'MORE', at: 'bottomRight', page: page + 1 };
	return placed([...shown, more]);
}

function placed(options: readonly Option[]): Map<Corner, Option> {
	const map = new Map<Corner, Option>();
	for (const one of options) if (one.at) map.set(one.at, one);
	for (const one of options) {
		const free = corners.find(corner => !map.has(corner));
		if (!one.at && free) map.set(free, one);
	}
	return map;
}

/** Air was lost: nothing about paint or gun until the painter is back and says that the air is. */
const isLeaving = ({ state }: Moment): boolean => state.book.break?.kind === 'air-lost';

/** Most short lines beside the instruction. */
const mostLines = 3;
/** What stands whole in the smallest window with what was said of the last key among it. */
const smallest = { columns: 38, rows: 3 };

/** Rows that a text takes there. */
const rowsOf = (text: string): number =>
	text
		.split(' ')
		.reduce(
			({ rows, used }, { length }) =>
				used > 0 && used + 1 + length > smallest.columns
					? { rows: rows + 1, used: length }
					: { rows, used: used + (used > 0 ? 1 : 0) + length },
			{ rows: 1, used: 0 },
		).rows;

/** Rows that the lines have there, with what was said of the last key, or of batches that died, among them. */
function rowsFor(notice: string | null, thrown: string): number {
	if (notice) return smallest.rows;
	return thrown === '' ? Number.POSITIVE_INFINITY : smallest.rows + 2;
}

function linesOf(moment: Moment, prompt: Prompt, ui: Ui): string[] {
	const thrown = discarded(moment);
	const beside = isLeaving(moment) ? [] : [ui.notice ?? '', thrown];
	const own = prompt.lines ?? [];
	// The second question of a pair stands before all else: nobody answers what is not asked.
	const all = prompt.ask === 'pair' ? [...own, ...beside] : [...beside, ...own];
	const lines = all.filter(Boolean).slice(0, mostLines);
	if (isLeaving(moment)) return lines;
	let left = rowsFor(ui.notice, thrown);
	return lines.filter((line, at) => {
		const rows = rowsOf(line);
		if (at > 0 && rows > left) return false;
		left -= rows;
		return true;
	});
}

const timerAt = ({ now }: Moment, code: string, face: string | null, due: number): Timer => ({
	code,
	face,
	due: isoAt(Math.ceil(due)),
	left_s: Math.max(0, Math.ceil((due - now.wall) / 1000)),
});

/** What is waited for, in a hold what will still be; a recoat window is told as what it opens for. */
function waitTimers(moment: Moment, wait: NonNullable<Book['wait']>): Timer[] {
	const on = activityOf(moment) === 'hold' ? waitAhead(moment) : wait;
	if (!on) return [];
	const { why, face } = on;
	const due = typeof on.due === 'string' ? Date.parse(on.due) : on.due;
	const opens = why === 'window' && face !== null ? outlookOf(moment, face) : null;
	return [
		{
			...timerAt(moment, why === 'window' ? 'opens' : why, face, due),
			...(opens && { does: opens.does, follows: opens.follows }),
		},
	];
}

/** The next edge of each face's recoat windows. */
const windowTimers = (moment: Moment): Timer[] =>
	pending(moment).flatMap(({ face }) => {
		const edge = windowEdge(moment, face);
		return edge
			? [{ ...timerAt(moment, edge.code, face, edge.due), does: edge.does, follows: edge.follows }]
			: [];
	});

function timersOf(moment: Moment): Timer[] {
	const { now, state } = moment;
	const timer = (code: string, face: string | null, due: number) => timerAt(moment, code, face, due);
	const { wait } = state.book;
	const activity = activityOf(moment);
	if (isLeaving(moment)) return [];
	if (activity === 'spraying') return [timer('late', null, lateAt(moment))];
	const waits = activity === 'wait' || activity === 'hold';
	const waiting = waits && wait ? waitTimers(moment, wait) : [];
	const settling =
		activity === 'check' && contextOf(moment).check?.matches('passed')
			? [timer('settle', null, settledAt(moment))]
			: [];
	const inHand = batchInHand(contextOf(moment));
	const stands = inHand?.[1].matches('standing') && !(waits && wait?.why === 'stand');
	const standing = inHand && stands ? [timer('stand', null, stoodAt(moment, inHand[0]))] : [];
	const lives = contextOf(moment)
		.cup.map(letter => lifeLeft_s(moment, letter))
		.filter(Number.isFinite)
		.map(left => timer('pot-life', null, now.wall + left * 1000));
	const clock = gunClock(moment);
	const gun = clock ? [timer('wet-tip', null, clock.wet), timer('flush', null, clock.flush)] : [];
	const isWaited = ({ code, face }: Timer) => waiting.some(one => one.code === code && one.face === face);
	const windows = windowTimers(moment).filter(one => !isWaited(one));
	return [...waiting, ...settling, ...standing, ...lives, ...gun, ...windows];
}

/** Letters in the cup, once the batch was read in the check under way, or the gun is known. */
function cupShown(moment: Moment): string[] | undefined {
	const activity = activityOf(moment);
	const { cup, check } = contextOf(moment);
	if (activity === 'ready' || activity === 'spraying') return [...cup];
	const read = check && activity === 'check' ? check.context.items.indexOf('batch') : -1;
	return read >= 0 && check && check.context.at > read ? [...cup] : undefined;
}

/** Once the gun is known: how its horns stand and how the face is stroked. */
function gunShown(moment: Moment, { ask }: Prompt, face: string | null): View['gun'] {
	const known = knownOf(contextOf(moment));
	if (!known || face === null || (ask !== 'go' && ask !== 'spraying')) return undefined;
	const { tilt, coats } = faceOf(moment, face);
	const stroke = coats[laidOn(moment, face)]?.stroke;
	return stroke && { horns: known.horns, tilt, stroke };
}

/** Items passed over today, with their reasons. */
const openItems = ({ state }: Moment): string[] =>
	state.book.overrides.map(({ rule, face }) => (face ? `${rule} ${face}` : rule));

/** Batches were just given up without a key: their pots still stand there. */
function discarded({ state }: Moment): string {
	const [first, ...more] = state.book.thrown;
	if (!first) return '';
	if (more.length === 0) return `Batch ${first.batch}: ${first.why}. Discard it; heat builds in it.`;
	const letters = [first, ...more].map(({ batch }) => batch).join(', ');
	return `Batches ${letters}: past their life. Discard them; heat builds in them.`;
}

/** The coat that a face gets next, or its last: none comes after that without a reason. */
function coatShown(moment: Moment, face: string): number {
	const next = laidOn(moment, face) + 1;
	return overridesOn(moment, face).includes('coats')
		? next
		: Math.min(next, faceOf(moment, face).coats.length);
}

/** What the screen shows, from where the day stands. */
export function viewOf(moment: Moment, ui: Ui, rehearsal: boolean): View {
	const { prompt } = placeAt(moment, ui);
	const placedOptions = cornersOf(prompt, ui);
	const { number } = prompt;
	const cup = cupShown(moment);
	const face = isLeaving(moment) ? null : (prompt.face ?? moment.state.book.check?.face ?? null);
	const gun = gunShown(moment, prompt, face);
	return {
		at: isoAt(moment.now.wall),
		zone: moment.state.book.opened.zone,
		state: prompt.state,
		ask: prompt.ask,
		...(number && (prompt.ask === 'number' || prompt.ask === 'level') && { of: number.of }),
		say: prompt.say,
		lines: linesOf(moment, prompt, ui),
		unit: number?.unit ?? null,
		...(number && { min: number.min, max: number.max, step: number.step }),
		corners: Object.fromEntries(
			[...placedOptions].map(([corner, { code, text }]) => [corner, { code, text }]),
		),
		face,
		coat: prompt.coat ?? (face ? coatShown(moment, face) : null),
		coats: face ? faceOf(moment, face).coats.length : null,
		...(cup && { cup }),
		...(gun && { gun }),
		do: [...(prompt.do ?? [])],
		timers: timersOf(moment),
		faces: jobOf(moment).faces.map(({ id, coats }) => ({
			face: id,
			coats: laidOn(moment, id),
			planned: coats.length,
			aside: isAside(moment, id),
		})),
		open: openItems(moment),
		rehearsal,
	};
}
