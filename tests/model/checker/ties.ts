import { cupAt } from './cup.ts';
import { type Day, elapsed, faceOf } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, type NoteOf } from './notes.ts';
import { overrideOf } from './overrides.ts';

type Start = NoteOf<'face.started'>;

const same = (one: string[], other: string[]) => [...one].sort().join() === [...other].sort().join();

function checkTie(day: Day, start: Start): string[] {
	const last = allOf(day.notes.slice(0, start.n), 'gun.checked').at(-1);
	if (!last) return ['no check has been passed'];
	return [
		...(last.check === start.check ? [] : [`it names check ${start.check}, in force is ${last.check}`]),
		...(same(last.cup, start.cup)
			? []
			: [`the check was passed on cup ${last.cup.join(' ')}, it names ${start.cup.join(' ')}`]),
	];
}

function airTie(day: Day, start: Start): string[] {
	const last = allOf(day.notes.slice(0, start.n), 'air.read').at(-1);
	if (last?.seq !== (start.air ?? undefined))
		return [`it names air reading ${start.air}, in force is ${last?.seq ?? 'none'}`];
	if (overrideOf(day, start, 'air')) return [];
	if (!last) return ['no air reading is in force'];
	// Wall clocks are written in whole milliseconds: of four hours to the hair some are over.
	const old = elapsed(last, start).most > day.limits.airAge_h * 3_600_000 + 1000;
	return old ? [`the air was read more than ${day.limits.airAge_h} h before`] : [];
}

/** Every face is tied to the check, the cup and the air reading that were in force when it started (property 15). */
export function tied(day: Day): Finding[] {
	return allOf(day.notes, 'face.started').flatMap(start => {
		const cup = cupAt(day, start.n);
		const says = [
			...checkTie(day, start),
			...(same(cup, start.cup)
				? []
				: [`it names cup ${start.cup.join(' ')}, in the cup is ${cup.join(' ')}`]),
			...airTie(day, start),
		];
		return says.map(text => finding(15, start, `${start.face}: ${text}`));
	});
}

/** A check is made for a face of the sheet, with the batches in it that are in the cup (property 15). */
export function checksTied(day: Day): Finding[] {
	return allOf(day.notes, 'gun.checked').flatMap(checked => {
		const cup = cupAt(day, checked.n);
		return [
			...(faceOf(day, checked.face) ? [] : [finding(15, checked, `the sheet has no face ${checked.face}`)]),
			...(same(cup, checked.cup)
				? []
				: [
						finding(
							15,
							checked,
							`a check passes on cup ${checked.cup.join(' ')}, in the cup is ${cup.join(' ')}`,
						),
					]),
		];
	});
}
