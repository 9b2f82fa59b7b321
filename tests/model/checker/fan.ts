import { gunCheckOf, patternFeatures, type Reading } from './checks.ts';
import { type Day, faceOf, plannedCoat } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, type NoteOf } from './notes.ts';

/**
 * Directions in degrees modulo 180, by navy training course NAVEDTRA 14315: level horns give an upright fan.
 * A fan is 0 upright; a stroke is 0 side to side; the fan lies across the stroke when both are equal.
 */
const turn = (degrees: number) => ((degrees % 180) + 180) % 180;
const strokes: Record<string, number> = { 'side-to-side': 0, 'up-and-down': 90, 'to-and-fro': 90 };
const patterns: Record<string, number> = { tall: 0, wide: 90 };
const horns: Record<string, number> = { level: 0, upright: 90 };

const sameLetters = (one: string, other: string) => [...one].sort().join() === [...other].sort().join();

/** The fan's direction on paper as a pattern or a card showed it; null where it showed none. */
function seen({ feature, value, card }: Reading): number | null {
	if (feature === 'pattern') return patterns[value] ?? null;
	const { tall, wide } = (card ?? {}) as { tall?: string; wide?: string };
	if (tall !== undefined && sameLetters(String(value), tall)) return 0;
	return wide !== undefined && sameLetters(String(value), wide) ? 90 : null;
}

/** Horns (as an angle) that a pattern shot with the gun held as for `face` gives away. */
function impliedHorns(day: Day, reading: Reading, face: string): number | null {
	const fan = seen(reading);
	const held = faceOf(day, reading.face ?? face);
	return fan === null || !held ? null : turn(fan - held.tilt);
}

type Shown = { reading: Reading; horns: number | null };

function lastShown(day: Day, checked: NoteOf<'gun.checked'>): Shown | null {
	const fitting = gunCheckOf(day, checked)?.readings.filter(
		({ feature, matched }) => matched && patternFeatures.includes(feature),
	);
	const reading = fitting?.at(-1);
	return reading ? { reading, horns: impliedHorns(day, reading, checked.face) } : null;
}

/** No face starts whose stroke the fan, as the last pattern showed it, does not lie across (property 2). */
export function fanAcross(day: Day): Finding[] {
	return allOf(day.notes, 'face.started').flatMap(start => {
		const face = faceOf(day, start.face);
		const stroke =
			strokes[plannedCoat(day, start.face, start.coat)?.stroke ?? face?.coats.at(-1)?.stroke ?? ''];
		const shown = allOf(day.notes.slice(0, start.n), 'gun.checked').flatMap(
			note => lastShown(day, note) ?? [],
		);
		const now = shown.at(-1);
		if (!face || stroke === undefined) return [];
		if (!now || now.horns === null)
			return [finding(2, start, `${start.face} starts on no pattern that shows a fan`)];
		if (turn(face.tilt + now.horns) === stroke) return [];
		const says = `${start.face} starts with the fan along its stroke, as line ${now.reading.line} shows`;
		return [finding(2, start, says)];
	});
}

/** A passed check says of the gun what its readings showed, and of the tilt what the sheet says (property 2). */
export function checkAgrees(day: Day): Finding[] {
	return allOf(day.notes, 'gun.checked').flatMap(checked => {
		const shown = lastShown(day, checked);
		const says: string[] = [];
		if (shown && shown.horns !== horns[checked.horns])
			says.push(`horns are passed as ${checked.horns}, which line ${shown.reading.line} does not show`);
		if (faceOf(day, checked.face)?.tilt !== checked.tilt)
			says.push(`${checked.face} is not sprayed at ${checked.tilt}°`);
		const read = gunCheckOf(day, checked)?.readings.findLast(
			({ feature, matched }) => matched && feature === 'horns',
		);
		if (read && read.value !== checked.horns) says.push(`horns were read as ${read.value}`);
		return says.map(text => finding(2, checked, text));
	});
}
