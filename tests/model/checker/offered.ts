import type { Day, Material } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, type NoteOf } from './notes.ts';

type Started = NoteOf<'batch.started'>;
type Parts = Record<string, number>;

/** The share of a part by which it may be off (property 22). */
const share = 0.05;
/** Parts are worked out in binary, marks are told in tenths. */
const rounding = 1e-6;

const total = (parts: Parts) => Object.values(parts).reduce((sum, part) => sum + part, 0);

/** A reason to read by finer marks is given with the batch: it cannot make good what was begun without. */
const isByFiner = (day: Day, { batch, write }: Started) =>
	allOf(day.notes, 'override.given').some(
		given =>
			given.rule === 'marks' && given.batch === batch && given.write === write && given.reason.trim() !== '',
	);

/** From mark to mark, or from digit to digit of a scale: a tenth of a US fluid ounce (29.5735 mL), a millilitre, a gram. */
function markOf(day: Day, started: Started): number {
	const bare = started.by === 'weight' || day.units !== 'us' ? 1 : 2.95735;
	return isByFiner(day, started) ? bare / 10 : bare;
}

/** What each component of a batch comes to, in the unit it is poured in and in the order of the sheet: by mass where it is mixed by weight. */
function partsOf({ ratio, by, make_mL }: Started, material: Material | undefined): [string, number][] {
	const parts = ratio as Parts;
	const density = by === 'weight' ? material?.density_kg_per_L : null;
	const volume = total(
		Object.fromEntries(Object.entries(parts).map(([name, part]) => [name, part / (density?.[name] ?? 1)])),
	);
	const order = (material?.order ?? []).filter(name => name in parts);
	return [...new Set([...order, ...Object.keys(parts)])].flatMap((name): [string, number][] => {
		const part = parts[name] ?? 0;
		return part > 0 ? [[name, (part * make_mL) / volume]] : [];
	});
}

/**
 * The pot as its marks give it: each part told to the mark nearest to what belongs to all that is in, as it stands there. What
 * is in rules as in the larger of the batches that it may be for.
 */
function byMarks(parts: [string, number][], mark: number): { name: string; own: number; told: number }[] {
	let scale = 1;
	return parts.map(([name, part], n) => {
		const own = part * scale;
		const told = Math.round(own / mark) * mark;
		scale = n === 0 ? told / part : Math.max(scale, told / part);
		return { name, own, told };
	});
}

const isOff = (told: number, part: number) => Math.abs(told - part) > share * part + rounding;

function notGiven(day: Day, started: Started): Finding[] {
	const mark = markOf(day, started);
	const parts = partsOf(started, day.sheet.materials[started.material]);
	return byMarks(parts, mark).flatMap(({ name, own, told }, n) => {
		const part = parts[n]?.[1] ?? own;
		if (!isOff(told, own) && !isOff(told, part)) return [];
		const says = `marks ${mark} apart do not give ${own.toFixed(2)} of ${name}, ${part.toFixed(2)} of the batch`;
		return [finding(22, started, `batch ${started.batch}: ${says}`)];
	});
}

/**
 * No batch is begun whose parts the marks of its pot cannot give within the share, of what belongs to what is in and of the
 * batch that was wanted; but by finer marks, with a reason (property 22).
 */
export function marksGive(day: Day): Finding[] {
	return allOf(day.notes, 'batch.started').flatMap(started => notGiven(day, started));
}
