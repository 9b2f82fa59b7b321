import type { UnitSystem } from '../trade/quantity.ts';
import { sagLimit_um } from '../trade/sag.ts';
import { format } from '../trade/shown.ts';
import type { FacePlan } from './coats.ts';
import type { Source } from './document.ts';
import { notAllowed } from './errors.ts';
import { type Job, type Material, type PlannedCoat, waits_h } from './job.ts';
import { wanted_um } from './on-work.ts';
import { ownFactor, standsOrNot_min } from './process-clocks.ts';
import { itself } from './recoat-keys.ts';
import { betweenBands } from './reducer-bands.ts';
import type { SheetEntry } from './sheet.ts';
import { coatsOn, type StageRead } from './stages.ts';
import { allows, windowsAt } from './windows.ts';

/** What no part of a sheet shows by itself: films against sags, faces against cup, coats against windows. */
export type Whole = {
	sheet: SheetEntry;
	stages: StageRead[];
	plans: FacePlan[];
	materials: ReadonlyMap<string, Material>;
	gunAt: (read: StageRead) => { gun: Job['gun'] };
	air_C: number | undefined;
	units: UnitSystem;
};

/** A wet film above the sag limit, said once a coat kind and material, at the film. */
function checkSags(source: Source, { sheet, plans, materials, units }: Whole): void {
	for (const { id, entry, from = source } of sheet.values.materials ?? []) {
		const material = materials.get(id);
		if (!material) continue;
		for (const kind of ['tack', 'medium', 'full'] as const) {
			const wet_um = wanted_um(material, kind);
			if (wet_um === null || wet_um <= material.sag_um) continue;
			const on = plans.find(({ draft, coats }) =>
				coats.some(
					planned =>
						planned.material === id &&
						planned.kind === kind &&
						sagLimit_um(1, planned.attitude ?? draft.entry.values.attitude ?? 'flat') === 1,
				),
			);
			if (!on) continue;
			const at = entry.values.coats?.values[kind]?.values.film?.at ?? entry.at;
			const wet = format(wet_um, 'film', units);
			from.fail(
				at,
				`material ${id}, coats, ${kind}, film: lies ${wet} wet and sags above ${format(material.sag_um, 'film', units)} on ${on.draft.entry.values.attitude} ${on.draft.id}; lay less, in more coats`,
			);
		}
	}
}

/** Paint that dies while it stands: the clock of its life runs from the hardener on. */
function checkStanding(source: Source, { sheet, materials, units }: Whole): void {
	for (const { id, entry, from = source } of sheet.values.materials ?? []) {
		const material = materials.get(id);
		const stands_min = material ? standsOrNot_min(material, material.potLife.at_C) : 0;
		if (!material || !Number.isFinite(stands_min) || stands_min < material.potLife.hours * 60) continue;
		const said = (minutes: number) => format(minutes * 60, 'time', units);
		from.fail(
			entry.place('standing'),
			`material ${id}, standing: stands ${said(stands_min)} and lives ${said(material.potLife.hours * 60)}, so that none of it can be sprayed; mend standing or pot life`,
		);
	}
}

/** A face whose film alone, nothing passing its edges, is more than a cup gives. */
function checkCup(source: Source, { plans, stages, gunAt, units }: Whole): void {
	for (const { draft, coats } of plans) {
		const over = coats.flatMap(coat => {
			const read = stages[coat.stage];
			const gun = read && gunAt(read).gun;
			const least_mL = (coat.landed_mL ?? 0) / (gun?.transfer ?? 1);
			return gun && least_mL > gun.cup_mL ? [{ ...coat, least_mL, gun }] : [];
		});
		const [worst] = over.toSorted((a, b) => b.least_mL - a.least_mL);
		if (!worst) continue;
		const { gun } = worst;
		const { entry } = draft;
		source.fail(
			entry.has('area') ? entry.place('area') : entry.place('size'),
			`${entry.name}: a ${worst.kind} coat of ${worst.material} takes ${format(worst.volume_mL, 'volume', units)}, the cup holds ${format(gun.cup_mL, 'volume', units)}; split the face or fit a larger cup`,
		);
	}
}

/** Coats that the stages lay on a face, whether their material could be read or not. */
const countOf = (stages: StageRead[], id: string): number =>
	stages.reduce((sum, read) => sum + coatsOn(read, id).length, 0);

/** What is said of a face that no stage sprays. */
export const neverCoated = 'is never coated';

function checkCoated(source: Source, { plans, stages }: Whole): void {
	for (const { draft } of plans) {
		const { entry } = draft;
		const coats = countOf(stages, draft.id);
		if (coats === 0)
			source.fail(entry.at, `${entry.name}: ${neverCoated}; take it out, or out of a stage's "leave out"`);
		for (const { value, at } of entry.values.crosswise ?? [])
			if (coats > 0 && value > coats)
				source.fail(at, `${entry.name}, crosswise: found coat ${value}; the face gets ${coats}`);
	}
}

/** What is done to a face before a coat opens these windows. */
const opened = (prep: PlannedCoat['prep']): ('spray' | 'scuff' | 'sand')[] => {
	const steps = prep.map(({ step }) => step);
	if (steps.includes('sand')) return ['spray', 'scuff', 'sand'];
	return steps.includes('scuff') ? ['spray', 'scuff'] : ['spray'];
};

/** A coat of a new stage over the one before: its windows must be given, and must open at some time. */
function wrongPair(whole: Whole, before: PlannedCoat, coat: PlannedCoat): string | undefined {
	const pair = `${coat.material} over ${before.material}`;
	const material = whole.materials.get(coat.material);
	const rows = material?.recoat.find(({ under }) => under === before.material)?.rows;
	if (!rows?.length) return `no recoat windows are given for ${pair}; add them to ${coat.material}`;
	const { air_C } = whole;
	const windows = air_C === undefined ? undefined : windowsAt(rows, air_C, material && ownFactor(material));
	if (!windows || allows(windows, opened(coat.prep), waits_h(coat), null)) return undefined;
	return `${waits_h(coat)} h on, no window of ${pair} is open with what is done before it; mend the wait, or sand or scuff`;
}

function checkWindows(source: Source, whole: Whole): void {
	const said = new Set<string>();
	for (const { draft, coats } of whole.plans)
		for (const [index, coat] of coats.entries()) {
			const before = coats[index - 1];
			if (!before || before.stage === coat.stage) continue;
			const key = `${coat.stage} ${before.material} ${waits_h(coat)} ${opened(coat.prep).length}`;
			const wrong = said.has(key) ? undefined : wrongPair(whole, before, coat);
			if (wrong) source.fail(whole.stages[coat.stage]?.at ?? 0, `stage, spray: on ${draft.id}, ${wrong}`);
			said.add(key);
		}
}

/** The shop's air stands for the surface: a day that falls between two reducers has none. */
function checkReducers(source: Source, { sheet, materials, stages, air_C, units }: Whole): void {
	const sprayed = stages.flatMap(({ stage }) => (stage?.kind === 'coats' ? [stage.material] : []));
	for (const { id, entry, from = source } of sheet.values.materials ?? []) {
		const material = materials.get(id);
		if (!material || air_C === undefined || !sprayed.includes(id)) continue;
		const wrong = betweenBands(material, air_C, units);
		if (wrong) from.fail(entry.place('reducer'), `material ${id}, reducer: ${wrong}`);
	}
}

/** Work that waits until a coat is dry to handle wants its time. */
function checkDry(source: Source, { plans, stages, materials }: Whole): void {
	for (const { coats, finishing } of plans)
		for (const [nth, { prep }] of [...coats, ...(finishing ? [finishing] : [])].entries()) {
			const under = materials.get(coats[nth - 1]?.material ?? '');
			if (!prep.some(({ dry }) => dry) || under?.dryTo?.handle) continue;
			const at = stages.find(({ stage }) => stage?.kind === 'prep' && stage.dry)?.at ?? 0;
			const says = under
				? `material ${under.id} has no time for it: write "dry to: { handle: 4 h at 20 °C }" there`
				: 'there is no coat on it yet';
			source.fail(at, `stage, unmask: dry to handle, and ${says}`);
		}
}

/** A material of the shelf tells of every other that it may lie on, whether this job has them or not. */
function checkNames(source: Source, { sheet }: Whole): void {
	const materials = sheet.values.materials ?? [];
	const ids = [...new Set(materials.flatMap(({ id, entry }) => [id, entry.values.name ?? id]))];
	for (const { entry, from } of materials)
		for (const { values } of from ? [] : (entry.values.recoat ?? []))
			if (values.over && values.over.value !== itself && !ids.includes(values.over.value))
				source.fail(values.over.at, `${entry.name}, recoat, over: ${notAllowed(values.over.value, ids)}`);
}

/** Says every contradiction of what could be read. */
export function checkContradictions(source: Source, whole: Whole): void {
	checkNames(source, whole);
	checkSags(source, whole);
	checkCup(source, whole);
	checkStanding(source, whole);
	checkReducers(source, whole);
	if (whole.stages.some(({ stage }) => !stage)) return;
	checkCoated(source, whole);
	checkWindows(source, whole);
	checkDry(source, whole);
}
