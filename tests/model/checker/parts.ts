import { type Day, materialOf } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, type NoteOf } from './notes.ts';
import { level, pours } from './pots.ts';

type Poured = NoteOf<'batch.poured'>;

/** The share of its own part by which one may be off (property 22). */
const share = 0.05;

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

/** Of several reducers none is poured but from the can that holds for the surface as it was read last before its mark was. */
export function reducerBySurface(day: Day): Finding[] {
	return allOf(day.notes, 'batch.poured').flatMap(poured => {
		const { reducers } = materialOf(day, poured.batch) ?? {};
		const can = day.cans.find(({ mark }) => mark === poured.can);
		if (poured.component !== 'reducer' || !reducers || (can && can.name === undefined)) return [];
		const before = day.notes.slice(0, poured.n);
		const taken = allOf(before, 'reading.taken').findLast(
			({ feature, batch, matched }) => feature === 'can' && batch === poured.batch && matched,
		);
		const surface_C = allOf(before.slice(0, taken?.n ?? 0), 'air.read').at(-1)?.surfaceC ?? Number.NaN;
		const fits = reducers.filter(({ from_C, to_C }) => surface_C >= from_C && surface_C <= to_C);
		return can && taken?.value === can.mark && fits.some(({ name }) => name === can.name)
			? []
			: [
					finding(
						22,
						poured,
						`batch ${poured.batch}: reducer from can ${poured.can}, ${can?.name ?? 'not known'}, on a surface of ${surface_C} °C`,
					),
				];
	});
}

/** The pours of a batch are right within the share of their own parts (property 22). */
export function poursRight(day: Day): Finding[] {
	return allOf(day.notes, 'batch.poured').flatMap(poured => notRight(day, poured));
}
