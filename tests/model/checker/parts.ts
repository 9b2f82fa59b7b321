import type { Day, Material } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, type NoteOf } from './notes.ts';
import { level, pours } from './pots.ts';

type Started = NoteOf<'batch.started'>;
type Poured = NoteOf<'batch.poured'>;
type Parts = Record<string, number>;

/** The share of its own part by which one may be off (property 22). */
const share = 0.05;

const total = (parts: Parts) => Object.values(parts).reduce((sum, part) => sum + part, 0);

/** From mark to mark, or from digit to digit of a scale: a tenth of a US fluid ounce (29.5735 mL), a millilitre, a gram. */
function markOf(day: Day, { by, batch }: Started): number {
	const bare = by === 'weight' ? 1 : day.units === 'us' ? 2.95735 : 1;
	const finer = allOf(day.notes, 'override.given').some(
		given => given.rule === 'marks' && given.batch === batch && given.reason.trim() !== '',
	);
	return finer ? bare / 10 : bare;
}

/** What each component of a batch comes to, in the unit it is poured in. */
function partsOf({ ratio, by, make_mL }: Started, material: Material | undefined): Parts {
	const parts = ratio as Parts;
	const density = by === 'weight' ? material?.density_kg_per_L : null;
	const volume = total(
		Object.fromEntries(Object.entries(parts).map(([name, part]) => [name, part / (density?.[name] ?? 1)])),
	);
	return Object.fromEntries(Object.entries(parts).map(([name, part]) => [name, (part * make_mL) / volume]));
}

/** No batch is begun one of whose parts is no whole number of marks, within the share. */
function notGiven(day: Day, started: Started): Finding[] {
	const mark = markOf(day, started);
	return Object.entries(partsOf(started, day.sheet.materials[started.material])).flatMap(([name, part]) =>
		Math.abs(Math.round(part / mark) * mark - part) > share * part + 1e-3
			? [
					finding(
						22,
						started,
						`batch ${started.batch}: marks ${mark} apart do not give ${part.toFixed(2)} of ${name}`,
					),
				]
			: [],
	);
}

/** No pour is called right that is further off than the share of all that is to go in of its component. */
function notRight(day: Day, poured: Poured): Finding[] {
	const now = level(poured);
	const aim = poured.wanted_g ?? poured.wanted_mL;
	if (poured.found !== 'right' || now === undefined || aim === undefined) return [];
	let before = 0;
	let own = aim;
	for (const pour of pours(day, poured.batch, poured.n)) {
		const stood = level(pour) ?? before;
		if (pour.component !== poured.component) own -= stood - before;
		before = stood;
	}
	return Math.abs(now - aim) > share * own + 1e-6
		? [
				finding(
					22,
					poured,
					`batch ${poured.batch}: ${poured.component} is called right at ${now}, wanted was ${aim}, ${own.toFixed(2)} of it`,
				),
			]
		: [];
}

/** A batch is one that the marks of its pot give, and its pours are right within the share of their parts (property 22). */
export function partsGiven(day: Day): Finding[] {
	return [
		...allOf(day.notes, 'batch.started').flatMap(started => notGiven(day, started)),
		...allOf(day.notes, 'batch.poured').flatMap(poured => notRight(day, poured)),
	];
}
