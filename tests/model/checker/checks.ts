import { type Cause, causesOf } from './causes.ts';
import { type Day, elapsed } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Note, type NoteOf } from './notes.ts';

export type Reading = NoteOf<'reading.taken'>;
/** A finished gun check with where it began and what was read within it. */
export type GunCheck = {
	checked: NoteOf<'gun.checked'>;
	began: NoteOf<'check.began'>;
	notes: Note[];
	readings: Reading[];
};

export const patternFeatures = ['pattern', 'card'];

/** The gun check that a `gun.checked` completes, or null where no check of that number was begun before it. */
export function gunCheckOf(day: Day, checked: NoteOf<'gun.checked'>): GunCheck | null {
	const began = allOf(day.notes, 'check.began').findLast(
		note => note.check === checked.check && note.list === 'gun-check' && note.n < checked.n,
	);
	if (!began) return null;
	const notes = day.notes.slice(began.n + 1, checked.n);
	const readings = allOf(notes, 'reading.taken').filter(({ check }) => check === checked.check);
	return { checked, began, notes, readings };
}

/**
 * The causes that a finished check clears. A cause stands at the note by which it had happened: it is cleared when it lies
 * before the check began; a turn or a knob also within it, where the pattern came after.
 */
function cleared(check: GunCheck, cause: Cause): boolean {
	if (cause.size === 'full') return check.checked.size === 'full' && cause.n <= check.began.n;
	const pattern = check.readings.findLast(
		({ feature, matched }) => matched && patternFeatures.includes(feature),
	);
	return cause.n <= check.began.n || (pattern !== undefined && cause.n < pattern.n);
}

/** No face starts while the gun is unknown: each cause before it must have been cleared by a check since (properties 1 and 4). */
export function gunKnown(day: Day): Finding[] {
	const causes = causesOf(day);
	const checks = allOf(day.notes, 'gun.checked').flatMap(checked => gunCheckOf(day, checked) ?? []);
	return allOf(day.notes, 'face.started').flatMap(start => {
		const since = checks.filter(({ checked }) => checked.n < start.n);
		const owed = causes.filter(cause => cause.n <= start.n && !since.some(check => cleared(check, cause)));
		const worst = [1, 4].flatMap(property => owed.findLast(cause => cause.property === property) ?? []);
		return worst.map(({ property, size, why, n }) =>
			finding(
				property,
				start,
				`${start.face} starts without the ${size} check owed since line ${n + 1}: ${why}`,
			),
		);
	});
}

/** A check older than its limit is made again before a face starts (property 4). */
export function checkYoung(day: Day): Finding[] {
	const limit_ms = day.limits.checkAge_min * 60_000;
	return allOf(day.notes, 'face.started').flatMap(start => {
		const checked = allOf(day.notes.slice(0, start.n), 'gun.checked').at(-1);
		const old = checked && elapsed(checked, start).most > limit_ms;
		return old
			? [finding(4, start, `${start.face} starts on a check older than ${day.limits.checkAge_min} min`)]
			: [];
	});
}

/** At least the settling time lies between coming back from a break and the check passed after it (property 1). */
export function settled(day: Day): Finding[] {
	return allOf(day.notes, 'gun.checked').flatMap(checked => {
		const back = allOf(day.notes.slice(0, checked.n), 'break.ended').at(-1);
		const soon = back && elapsed(back, checked).least < day.limits.settle_s * 1000;
		return soon ? [finding(1, checked, `ready within ${day.limits.settle_s} s of coming back`)] : [];
	});
}

/** A check has its own number, and its size is the one it was begun with. */
export function numbered(day: Day): Finding[] {
	const findings: Finding[] = [];
	let last = 0;
	for (const note of day.notes) {
		if (is(note, 'check.began')) {
			if (note.check <= last)
				findings.push(finding('form', note, `check ${note.check} follows check ${last}`));
			last = Math.max(last, note.check);
		} else if (is(note, 'gun.checked')) {
			const check = gunCheckOf(day, note);
			if (!check) findings.push(finding(1, note, `check ${note.check} was passed but never begun`));
			else if (check.began.size !== note.size)
				findings.push(finding(1, note, `a check begun as ${check.began.size} passes as ${note.size}`));
			else if (check.began.check !== last)
				findings.push(finding(1, note, `check ${note.check} passes after check ${last} was begun`));
		}
	}
	return findings;
}
