import { type GunCheck, gunCheckOf, patternFeatures } from './checks.ts';
import { type Day, type Material, materialOf } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Note, type NoteOf } from './notes.ts';

type Began = NoteOf<'check.began'>;

/** Features by which an item of a list may be answered, where its code is not itself a feature. */
const second = ['horns', 'gauge', 'pattern-height', 'flooded'];
const features: Record<string, string[]> = {
	mask: ['breathing'],
	letter: ['batch'],
	'batch-letter': ['batch'],
	pressure: ['gauge'],
	second,
	'second-feature': second,
	pattern: patternFeatures,
};

const itemOf = (day: Day, began: Began, code: string) =>
	day.lists.find(({ list }) => list === began.list)?.items.find(item => item.code === code);

/** Whether an answer closes its item by the list that the day carries; null where the list leaves the answers to the program. */
export function closes(
	day: Day,
	began: Began,
	code: string,
	answer: string,
	isocyanate: boolean,
): boolean | null {
	const found = itemOf(day, began, code)?.answers?.find(one => one.code === answer);
	return found ? found.passes === 'yes' || (found.passes === 'unless-isocyanate' && !isocyanate) : null;
}

function open(day: Day, began: Began, notes: Note[], code: string): string | null {
	const answer = allOf(notes, 'item.answered').findLast(
		note => note.check === began.check && note.item === code,
	);
	const wanted = features[code] ?? [code];
	const read = allOf(notes, 'reading.taken').some(
		({ check, feature, matched }) => check === began.check && matched && wanted.includes(feature),
	);
	const passed = answer?.passed === true && closes(day, began, code, answer.answer, false) !== false;
	const air = /^(air|surface|humidity|dew-point)/.test(code) && allOf(notes, 'air.read').length > 0;
	if (passed || read || air) return null;
	const given = allOf(notes, 'override.given').some(note => note.rule === code && note.reason.trim() !== '');
	if (given && itemOf(day, began, code)?.overridable !== false) return null;
	return answer ? `${code} was answered ${answer.answer}` : `${code} was not answered`;
}

function openItems(day: Day, began: Began, notes: Note[]): string[] {
	return began.items.flatMap(code => open(day, began, notes, code) ?? []);
}

/** An open item keeps a gun check open (property 11). */
export function gunItemsClosed(day: Day): Finding[] {
	return allOf(day.notes, 'gun.checked').flatMap(checked => {
		const check: GunCheck | null = gunCheckOf(day, checked);
		const says = check ? openItems(day, check.began, check.notes) : [];
		return says.map(text => finding(11, checked, `check ${checked.check} passes though ${text}`));
	});
}

/** The notes of a list from its beginning until it is broken off, begun again, or `n`. */
function within(day: Day, began: Began, n: number): Note[] {
	const notes = day.notes.slice(began.n + 1, n);
	const end = notes.findIndex(
		note =>
			note.run !== began.run ||
			is(note, 'break.began') ||
			(is(note, 'check.began') && note.list === began.list),
	);
	return end < 0 ? notes : notes.slice(0, end);
}

/** No face starts before the list before spraying was gone through from its first item to its last (property 11). */
export function listDone(day: Day): Finding[] {
	const [start] = allOf(day.notes, 'face.started');
	if (!start) return [];
	const begun = allOf(day.notes, 'check.began').filter(
		note => note.list === 'before-spraying' && note.n < start.n,
	);
	const left = begun.map(began => openItems(day, began, within(day, began, start.n)));
	if (left.some(says => says.length === 0)) return [];
	const says = left.at(-1) ?? ['it was never begun'];
	return says.map(text => finding(11, start, `${start.face} starts before the list is done: ${text}`));
}

function breathing(
	day: Day,
	n: number,
): { answer: string; item: boolean; line: number; passes: boolean | null } | null {
	const before = day.notes.slice(0, n);
	const note = before.findLast(
		one =>
			(is(one, 'reading.taken') && one.feature === 'breathing' && one.matched) ||
			(is(one, 'item.answered') && one.item === 'mask' && one.passed),
	);
	if (!is(note, 'reading.taken', 'item.answered')) return null;
	const item = is(note, 'item.answered');
	const answer = is(note, 'item.answered') ? note.answer : String(note.value);
	const began = allOf(before, 'check.began').findLast(({ check }) => check === note.check);
	const passes = began
		? (closes(day, began, 'mask', answer, true) ?? closes(day, began, 'breathing', answer, true))
		: null;
	return { answer, item, line: note.line, passes };
}

/** Why a paint is sprayed on supplied air alone; null: a filter mask serves too. */
function onAirAlone(paint: Material | undefined): string | null {
	if (paint?.isocyanate) return 'isocyanate';
	const named = paint?.breathing?.spraying;
	const hasCartridge = named?.gear === 'filter-mask' && (named.cartridge ?? '').trim() !== '';
	return paint?.breathing === undefined || hasCartridge ? null : 'paint for which no cartridge is named';
}

/**
 * Paint with isocyanate, and paint whose sheet names no cartridge, is sprayed on supplied air and on nothing else
 * (property 11).
 */
export function suppliedAir(day: Day): Finding[] {
	return allOf(day.notes, 'face.started').flatMap(start => {
		const [why] = start.cup.flatMap(batch => onAirAlone(materialOf(day, batch)) ?? []);
		if (why === undefined) return [];
		const gear = breathing(day, start.n);
		if (gear && /^(supplied|air-fed)/.test(gear.answer) && gear.passes !== false) return [];
		const says = gear ? `${gear.answer} at line ${gear.line}` : 'nothing read';
		return [finding(11, start, `${start.face} gets ${why}, breathing gear: ${says}`)];
	});
}
