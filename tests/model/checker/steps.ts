import { lastLaid } from './coats.ts';
import { type Day, faceOf, plannedCoat } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Moment, type NoteOf } from './notes.ts';
import { overridesOf } from './overrides.ts';
import { freshList, struck, tooSoon } from './place.ts';
import { toldEarlier, toldIn } from './told.ts';

/** Whether the painter gave a reason not to wait for a face, after note `from` and by a moment. */
const hurriedBy = (day: Day, face: string, from: number) => (at: Moment) =>
	allOf(day.notes.slice(from), 'override.given').some(
		given => given.rule === 'window' && given.face === face && given.t <= at.t && given.reason.trim() !== '',
	);

/** What the sheet puts before a coat; one beyond the plan has the list of the last. */
const listOf = (day: Day, start: NoteOf<'face.started'>) =>
	plannedCoat(day, start.face, start.coat) ?? faceOf(day, start.face)?.coats.at(-1);

/**
 * Where a coat more than planned was given for a reason, since note `from`: it begins a list of its own, which follows no
 * planned coat. What was told before is past, the line of a face with a fault included.
 */
const moreFrom = (day: Day, start: NoteOf<'face.started'>, from: number): number | null =>
	overridesOf(day, start, 'coats').findLast(({ n }) => n > from)?.n ?? null;

/** Every step that the sheet puts before a coat is done, or left out with a reason, in its place, as often as it stands there, and behind its wait (property 16). */
export function stepsInPlace(day: Day): Finding[] {
	return day.notes.flatMap(start => {
		if (!is(start, 'face.started') || start.from === 'part') return [];
		const planned = listOf(day, start);
		const laid = lastLaid(day, start.face, start.n);
		if (!planned || laid?.coat === start.coat) return [];
		const reasons = new Set(overridesOf(day, start, 'prep').map(({ n }) => n));
		const more = moreFrom(day, start, laid?.n ?? 0);
		const from = more ?? laid?.n ?? 0;
		const isHurried = hurriedBy(day, start.face, laid?.n ?? 0);
		const told = [
			...(more === null ? toldEarlier(day, start.face, laid) : []),
			...toldIn(day, start.face, day.notes.slice(from, start.n), ({ n }) => reasons.has(n)),
		];
		const hours = more === null ? planned.wait_h : 0;
		const wait = laid && hours > 0 ? { from: laid.at, hours, behind: 'the coat' } : null;
		const done = told.reduce((now, one) => struck(now, one, isHurried), freshList(planned.prep, wait));
		const soon = isHurried(start) ? [] : tooSoon(done, start, 0, 'it is sprayed');
		return [...done.wrong, ...soon, ...done.left.map(({ step }) => `${step} is not recorded`)].map(says =>
			finding(16, start, `${start.face} gets coat ${start.coat}: ${says}`),
		);
	});
}
