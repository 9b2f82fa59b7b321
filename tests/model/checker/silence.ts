import { gunCheckOf } from './checks.ts';
import { type Day, elapsed } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Note, type NoteOf } from './notes.ts';

const minute_ms = 60_000;
/** What is written may lie a second behind what it tells of. */
const slack_ms = 1000;

/** Whether more than so many minutes lie between two notes, by the clock that counts more. */
const isLonger = (from: Note, to: Note, limit_min: number) =>
	elapsed(from, to).most > limit_min * minute_ms + slack_ms;

const inMinutes = (from: Note, to: Note) => (elapsed(from, to).most / minute_ms).toFixed(1);

const hasBreak = (day: Day, from: Note, to: Note) =>
	allOf(day.notes.slice(from.n, to.n + 1), 'break.began').length > 0;

/** What was read and answered in a check or a list, by its number. */
const answersOf = (day: Day, check: number) =>
	day.notes.filter(
		(note): note is NoteOf<'reading.taken'> | NoteOf<'item.answered'> =>
			is(note, 'reading.taken', 'item.answered') && note.check === check,
	);

/** Minutes without an answer, within one check or list, that pass for no break. */
function withinList(day: Day, began: NoteOf<'check.began'>): Finding[] {
	const limit = { 'gun-check': day.limits.silence_min, 'before-spraying': day.limits.listSilence_min }[
		began.list
	];
	if (limit === undefined) return [];
	const answers = answersOf(day, began.check);
	return answers.flatMap((answer, nth) => {
		const before = answers[nth - 1];
		if (!before || !isLonger(before, answer, limit) || hasBreak(day, before, answer)) return [];
		const says = `${inMinutes(before, answer)} min without an answer in check ${began.check}, and no break`;
		return [finding(19, answer, says)];
	});
}

/** What a start goes on from: the end of the pass before it, where that was later than its check, else the last answer of the check. */
function goneOnFrom(day: Day, start: NoteOf<'face.started'>): Note | undefined {
	const before = day.notes.slice(0, start.n);
	const checked = allOf(before, 'gun.checked').at(-1);
	const ended = allOf(before, 'face.ended').at(-1);
	if (checked && ended && ended.n > checked.n) return ended;
	return checked && answersOf(day, checked.check).at(-1);
}

function untilStart(day: Day, start: NoteOf<'face.started'>): Finding[] {
	const { silence_min, checkTakes_min } = day.limits;
	const from = goneOnFrom(day, start);
	const silent =
		silence_min !== undefined && from && isLonger(from, start, silence_min) && !hasBreak(day, from, start);
	const checked = allOf(day.notes.slice(0, start.n), 'gun.checked').at(-1);
	const isFirst = checked && allOf(day.notes.slice(checked.n, start.n), 'face.started').length === 0;
	const [first] = checked && isFirst && gunCheckOf(day, checked) ? answersOf(day, checked.check) : [];
	const slow =
		checkTakes_min !== undefined &&
		first &&
		isLonger(first, start, checkTakes_min) &&
		!hasBreak(day, first, start);
	return [
		...(silent
			? [finding(19, start, `${start.face} starts ${inMinutes(from, start)} min after line ${from.line}`)]
			: []),
		...(slow
			? [
					finding(
						19,
						start,
						`${start.face} starts ${inMinutes(first, start)} min after the first reading of its check`,
					),
				]
			: []),
	];
}

/**
 * Silence is a break: between two readings of a check, from its last one or the end of a pass to the start that follows, over the
 * whole check to its start, and in the list before spraying (property 19). The limits are those that the day says; an older
 * day says none.
 */
export function silenceBreaks(day: Day): Finding[] {
	return day.notes.flatMap(note => {
		if (is(note, 'check.began')) return withinList(day, note);
		return is(note, 'face.started') ? untilStart(day, note) : [];
	});
}
