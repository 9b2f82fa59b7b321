import type { Material } from '../job/job.ts';
import { wanted_um } from '../job/on-work.ts';
import { isAt } from '../job/places.ts';
import { flashClocks } from '../job/process-clocks.ts';
import { coatKey } from '../records/passes.ts';
import { plannedPull_s } from '../trade/pulls.ts';
import { figure } from '../words/say.ts';
import { dayOf, faceOf, type Ground, materialOf, planOf } from './ground.ts';
import { lateUnmask_h, longPull, recorded } from './numbers.ts';
import { lasts_ms } from './read-since.ts';
import { differsOdds, measuredOdds, rightOdds, type Soft } from './soft.ts';
import type { Pass, Timeline } from './timeline.ts';

/** What a pass brings of its own for or against a cause: its wait, its window, its pulls, its preparation. */
export type OfPass = (ground: Ground, pass: Pass) => Soft[];

const says = (odds: number, text: string): Soft => ({
	odds,
	isRight: odds < 1,
	isRecord: odds > 1,
	says: () => text,
});
const silent: Soft = says(recorded.isNot, 'no record names it, and one would');

/** The pass that ended the coat under a pass, in the files given. */
export function under(timeline: Timeline, pass: Pass): Pass | undefined {
	return timeline.faces.get(pass.face)?.findLast(one => one.coat < pass.coat && one.ended <= pass.began);
}

const passedOver = (timeline: Timeline, pass: Pass, rule: string): boolean =>
	pass.start.overrides.includes(rule) ||
	dayOf(timeline, pass).changes.some(
		({ record }) =>
			record.type === 'override.given' &&
			record.rule === rule &&
			record.face === pass.face &&
			record.coat === pass.coat,
	);

const touched = (timeline: Timeline, pass: Pass, since: number) =>
	timeline.touches.get(pass.face)?.findLast(({ at }) => at >= since && at <= pass.began)?.record;

/** Minutes that the coat under a pass was to flash. */
function leastFlash_min(material: Material, timeline: Timeline, pass: Pass, before: Pass) {
	const least = flashClocks(material, planOf(timeline, before)?.kind ?? 'full')?.least;
	if (!least) return material.flash.min_min;
	const span = { from: before.ended, until: pass.began, of: 'surfaceC' } as const;
	return lasts_ms(timeline, dayOf(timeline, pass), least, span) / 60_000;
}

/** Whether a coat was laid too early: by its touch, its wait and its window. */
export const early: OfPass = ({ timeline, habits }, pass) => {
	const before = under(timeline, pass);
	if (!before || pass.start.from === 'part') return [];
	const touch = touched(timeline, pass, before.ended);
	if (touch && !touch.matched) return [says(differsOdds(habits.eye), `the touch test read ${touch.value}`)];
	const material = materialOf(timeline, pass);
	const wet = planOf(timeline, before)?.material === planOf(timeline, pass)?.material;
	if (material && wet && before.day === pass.day && !pass.estimated && !before.estimated) {
		const least = leastFlash_min(material, timeline, pass, before);
		const gap = (pass.began - before.ended) / 60_000;
		if (gap < least * 0.99)
			return [says(recorded.is, `it waited ${Math.round(gap)} of ${Math.round(least)} min`)];
	}
	if (pass.start.window === 'wait') return [says(recorded.is, 'its window was not open yet')];
	return touch ? [says(rightOdds(habits.eye), `the touch test of ${pass.face} read right`)] : [silent];
};

/** Most minutes between two coats, from the end of the one below; undefined: the sheet sets none. */
function mostFlash_min(timeline: Timeline, pass: Pass, before: Pass): number | undefined {
	const material = materialOf(timeline, pass);
	const clocks = material && flashClocks(material, planOf(timeline, before)?.kind ?? 'full');
	if (!clocks) return material?.flash.max_min ?? undefined;
	if (!clocks.most) return undefined;
	const span = { from: before.began, until: pass.began, of: 'surfaceC' } as const;
	const most_ms = lasts_ms(timeline, dayOf(timeline, pass), clocks.most, span);
	return (most_ms - (before.ended - before.began)) / 60_000;
}

/** Whether the recoat window of a coat was missed, and its sanding said. */
export const late: OfPass = ({ timeline, habits }, pass) => {
	const before = under(timeline, pass);
	if (!before || pass.start.from === 'part') return [];
	const max = mostFlash_min(timeline, pass, before);
	const gap = (pass.began - before.ended) / 60_000;
	const shut = pass.start.window === 'sand' || pass.start.window === 'scuff';
	const isOver = max !== undefined && before.day === pass.day && !pass.estimated && gap > max;
	if (!shut && !isOver) return [silent];
	const sanded = timeline.stages
		.get(pass.face)
		?.some(
			({ at, record: { stage } }) =>
				(stage === 'sand' || stage === 'scuff') && at >= before.ended && at <= pass.began,
		);
	if (sanded && !passedOver(timeline, pass, 'window'))
		return [says(rightOdds(habits.eye), `the sanding of ${pass.face} was ticked, not read`)];
	return [says(recorded.is, `${Math.round(gap / 60)} h after the coat under it, not sanded`)];
};

function filmWanted(timeline: Timeline, pass: Pass, dry: boolean): number | null {
	const plan = planOf(timeline, pass);
	const material = materialOf(timeline, pass);
	const coat = plan && material?.coats[plan.kind];
	if (!material || !coat) return null;
	return dry ? dryUnder(timeline, pass) + coat.dry_um : wanted_um(material, plan.kind);
}

/** Dry film that the coats under a pass should have built, µm: a dry gauge reads them all. */
function dryUnder(timeline: Timeline, pass: Pass): number {
	const coats = faceOf(timeline, pass.face)?.coats.slice(0, pass.coat - 1) ?? [];
	return coats.reduce(
		(sum, plan) => sum + (timeline.job.materials[plan.material]?.coats[plan.kind]?.dry_um ?? 0),
		0,
	);
}

/** Film, as read or as the pulls of a trigger line have it; seconds between two keys are walking and talk as well. */
export const film =
	(way: 'heavy' | 'light'): OfPass =>
	({ timeline, habits }, pass) => {
		const read = timeline.films.get(coatKey(pass))?.at(-1)?.record;
		const wanted = read ? filmWanted(timeline, pass, read.dry_um !== undefined) : null;
		const value = read?.wet_um ?? read?.dry_um;
		if (wanted && value)
			return [measured(`film ${way}`, value / wanted, habits.number, filmSaid(value, wanted))];
		const { pulled_s, estimated, extent, start } = pass;
		const coat = planOf(timeline, pass);
		if (pulled_s === null || estimated || extent !== 'all' || !coat) return [];
		const planned_s = plannedPull_s(start.spray_s, coat, dayOf(timeline, pass).rates?.[coat.material]?.time);
		const share = Math.max(0.05, pulled_s / planned_s);
		const text = `the trigger was pulled ${Math.round(pulled_s)} s for ${Math.round(planned_s)} s, not measured`;
		return [measured(`pull ${way}`, share, habits.eye, text)];
	};

const filmSaid = (value: number, wanted: number) => `film read ${figure(value)} µm, ${figure(wanted)} wanted`;

function measured(curve: string, share: number, h: number, text: string): Soft {
	const one = says(measuredOdds(curve, Math.log(share), h), text);
	return { ...one, isRecord: one.isRecord && Math.abs(Math.log(share)) > Math.log(longPull) };
}

/** A coat that was sanded off is laid again by right. */
const reworked = ({ reworks }: Timeline, first: Pass, again: Pass): boolean =>
	reworks.get(first.face)?.some(({ at }) => at >= first.ended && at <= again.began) === true;

/** Gone over again from its start within one coat, or a coat beyond the plan. */
export const twice: OfPass = ({ timeline }, pass) => {
	const planned = faceOf(timeline, pass.face)?.coats.length ?? pass.coat;
	if (pass.coat > planned) return [says(recorded.is, `coat ${pass.coat} of ${planned}`)];
	if (pass.start.from !== 'start') return [silent];
	const before = timeline.coats
		.get(coatKey(pass))
		?.find(
			one =>
				one !== pass &&
				one.day === pass.day &&
				one.ended <= pass.began &&
				one.extent !== 'none' &&
				!reworked(timeline, one, pass),
		);
	return [before ? says(recorded.is, 'gone over again from its start') : silent];
};

/** Left in part, or nothing laid. */
export const missed: OfPass = ({ timeline }, pass) => {
	const last = timeline.coats.get(coatKey(pass))?.at(-1) ?? pass;
	if (last.extent === 'part') return [says(recorded.is, 'it was ended in part and not taken up again')];
	return [last.extent === 'none' ? says(recorded.is, 'nothing was laid') : silent];
};

/** Preparation that the plan asks for before a coat and that no record ticks. */
export const prepared: OfPass = ({ timeline, habits }, pass) => {
	const plan = planOf(timeline, pass);
	if (!plan || plan.prep.length === 0 || pass.start.from === 'part') return [];
	const since = under(timeline, pass)?.ended ?? 0;
	const done = (timeline.stages.get(pass.face) ?? [])
		.filter(({ at }) => at >= since && at <= pass.began)
		.map(({ record: { stage, place } }) => ({ step: stage, place }));
	const left = plan.prep.filter(({ step }, place) => !done.some(one => isAt(one, step, place)));
	if (left.length > 0)
		return [says(recorded.is, `not recorded: ${left.map(({ step }) => step).join(', ')} on ${pass.face}`)];
	return [says(rightOdds(habits.eye), `ticks say that ${pass.face} was clean, no reading does`)];
};

/** Unmasked late: of the last coat of a face. */
export const handled: OfPass = ({ timeline }, pass) => {
	const off = timeline.stages
		.get(pass.face)
		?.find(({ at, record: { stage } }) => stage === 'unmask' && at >= pass.ended);
	const hours = off ? (off.at - pass.ended) / 3_600_000 : 0;
	return hours > lateUnmask_h ? [says(recorded.is, `unmasked after ${Math.round(hours)} h`)] : [];
};
