import type { FaceHistory } from '../day/records.ts';
import { type Face, type Job, leavesOut, type PlannedCoat, withGunOf } from '../job/job.ts';
import { isAt, placeOf } from '../job/places.ts';
import { driesAt_h, flashAt_h } from '../job/process-clocks.ts';
import { type DayPlan, type PlanOptions, planDay, slack_s } from './day-plan.ts';
import { judgeStage, type Verdict } from './judge.ts';
import { atWork, day_s } from './opening-hours.ts';
import { type OrderName, orderFor } from './order.ts';
import { paintOf_mL, standardPace } from './pace.ts';
import type { PlayedBench } from './played-bench.ts';
import { openings } from './windows.ts';

/** When a stage may be done to a face, and when the plan does it. Seconds from the start of the first day. */
export type FaceStage = { face: string; earliest_s: number; latest_s: number | null; planned_s: number };

export type StagePlan = {
	stage: number;
	name: string;
	kind: 'coats' | 'prep' | 'wait';
	faces: FaceStage[];
	/** A spray stage, played through. */
	verdict: Verdict | null;
};

export type StagesInput = {
	job: Job;
	which?: OrderName;
	/** Days already done; faces set aside are left to their own line. */
	history?: Readonly<Record<string, FaceHistory>>;
	/** Start of the first day that can be worked in, ms since 1970; later days begin at the same hour. */
	start: number;
	options?: Omit<PlanOptions, 'ends' | 'start_s'>;
};

/** Where a face stands while the stages are gone through. */
type Standing = { face: Face; coats: number; ended: number | null; ready: number };

const tries = 4;

/**
 * Spreads a job's stages over days: prime, fill, seal, cure, sand, wipe, tack, topcoat, cure, unmask. Each stage is
 * planned as early as the one before allows; a spray stage that cannot be kept at the first moment is tried again
 * on the mornings after. Preparation takes no time of its own in the plan.
 * @throws RangeError where a material has no times for the shop's temperature
 */
export function planStages(input: StagesInput): StagePlan[] {
	const { job, history = {}, start } = input;
	const played: Played[] = [];
	const standings = job.faces
		.filter(face => !history[face.id]?.aside)
		.map((face): Standing => {
			const last = history[face.id]?.coats.at(-1);
			const ended = last ? (Date.parse(last.ended) - start) / 1000 : null;
			const prepared = (history[face.id]?.prep ?? []).map(each => (Date.parse(each.at) - start) / 1000);
			return { face, coats: last?.coat ?? 0, ended, ready: Math.max(0, ended ?? 0, ...prepared) };
		});
	let letters = input.options?.letters ?? 0;
	const plans = job.stages.flatMap((stage, index): StagePlan[] => {
		const here = standings.filter(standing => waitsFor(job, standing, index, history[standing.face.id]));
		if (here.length === 0) return [];
		const plan = { stage: index, name: stage.name, kind: stage.kind };
		if (stage.kind === 'coats') {
			const ends = endsOf(here);
			const sprayed = spray(input, index, here, letters, played.at(-1)?.plan);
			letters += sprayed.verdict.plan.batches.length;
			played.push({ plan: sprayed.verdict.plan, ends });
			return [{ ...plan, ...sprayed }];
		}
		const faces = here.map(standing => {
			const earliest_s =
				stage.kind === 'wait'
					? cured(job, standing, stage.hours)
					: Math.max(prepared(job, standing, stage, standings), freeFor(stage, played));
			standing.ready = stage.kind === 'wait' ? earliest_s : atWork(job, earliest_s);
			return { face: standing.face.id, earliest_s, latest_s: null, planned_s: standing.ready };
		});
		return [{ ...plan, faces, verdict: null }];
	});
	return plans.map(plan => servedLater(input, boundByLater(job, plan, played), played));
}

/** When the hands are free for a step: parts are turned over once the spraying before it has ended, the gun cleaned. */
const freeFor = ({ step }: Pick<PlannedCoat['prep'][number], 'step'>, played: readonly Played[]): number =>
	step === 'turn over' ? (played.at(-1)?.plan.end_s ?? 0) : 0;

/** A spray stage as played, with what its faces had before it. */
type Played = { plan: DayPlan; ends: Readonly<Record<string, number>> };

const endsOf = (here: readonly Standing[]): Record<string, number> =>
	Object.fromEntries(here.flatMap(({ face, ended }) => (ended === null ? [] : [[face.id, ended]])));

/** A stage begun later moves the spray stages after it on the same day: they have to keep their windows and the day too. */
function boundByLater(job: Job, stage: StagePlan, played: readonly Played[]): StagePlan {
	const { verdict } = stage;
	if (!verdict || verdict.plan.nights > 0) return stage;
	const { start_s, latestStart_s: own_s } = verdict.plan;
	const dayOf = (at_s: number) => Math.floor(at_s / day_s);
	const later = played
		.filter(({ plan }) => plan.start_s > start_s && dayOf(plan.start_s) === dayOf(start_s))
		.flatMap(({ plan, ends }) => {
			const still = Object.keys(ends).filter(face => (ends[face] ?? 0) < start_s);
			const slack = slack_s(job, plan, still);
			return slack === null ? [] : [start_s + slack];
		});
	const bounds = own_s === null ? later : [own_s, ...later];
	const latestStart_s = bounds.length === 0 ? null : Math.min(...bounds);
	return { ...stage, verdict: { ...verdict, plan: { ...verdict.plan, latestStart_s } } };
}

/** What another stage left in cup and pots: a night between, it is all poured away. */
const benchAt = (before: DayPlan | undefined, start_s: number): PlayedBench | null =>
	before && Math.floor(before.end_s / day_s) === Math.floor(start_s / day_s) ? before.bench : null;

/** A batch serves the faces of later stages too that it is in the cup for. */
function servedLater({ job, options }: StagesInput, stage: StagePlan, played: readonly Played[]): StagePlan {
	const { verdict } = stage;
	if (!verdict) return stage;
	const later = played.filter(({ plan }) => plan.start_s > verdict.plan.start_s);
	const batches = verdict.plan.batches.map(batch => {
		const laid = later.flatMap(({ plan }) => plan.laid.filter(({ cup }) => cup.includes(batch.letter)));
		const last = laid.at(-1);
		const takes = laid.flatMap(({ face, coat: count }) => {
			const coat = job.faces.find(({ id }) => id === face)?.coats[count - 1];
			return coat ? [paintOf_mL({ coat }, options?.rates)] : [];
		});
		const needed_mL = takes.reduce((sum, take) => sum + take, batch.needed_mL);
		const serves = [...batch.serves, ...laid.map(({ face, coat }) => ({ face, coat }))];
		return last ? { ...batch, needed_mL, serves, to_s: last.to_s, last: last.face } : batch;
	});
	return { ...stage, verdict: { ...verdict, plan: { ...verdict.plan, batches } } };
}

/** Whether a stage is still to come for a face. */
function waitsFor(
	job: Job,
	{ face, coats }: Standing,
	index: number,
	history: FaceHistory | undefined,
): boolean {
	const stage = job.stages[index];
	if (stage && leavesOut(stage, face.id)) return false;
	const next = face.coats.slice(coats);
	if (stage?.kind === 'coats') return next.some(coat => coat.stage === index);
	const lastDone = face.coats[coats - 1]?.stage ?? -1;
	if (index < lastDone) return false;
	if (stage?.kind !== 'prep') return true;
	const following = next.find(coat => coat.stage > index);
	const place = placeOf(job, face.id, index);
	if (following && following.prep[place]?.step !== stage.step) return false;
	return following !== next[0] || !history?.prep.some(each => isAt(each, stage.step, place));
}

/** When the flash of a face's last coat is over. */
function flashed(job: Job, { face, coats, ended }: Standing): number {
	const last = face.coats[coats - 1];
	const material = last && job.materials[last.material];
	return material && ended !== null ? ended + flashAt_h(material, last, job.shop.air_C).least_h * 3600 : 0;
}

/** A wait counts from the coat, or from the morning of what was done or waited for since. */
function cured(job: Job, { ended, ready }: Standing, hours: number): number {
	const from_s = ready > Math.max(0, ended ?? 0) ? atWork(job, ready) : (ended ?? 0);
	return Math.max(ready, from_s + hours * 3600);
}

/** When a coat is dry enough for a step, s; a part is turned by all of its coats, beside none that is wet. */
function prepared(
	job: Job,
	own: Standing,
	{ step, dry }: Pick<PlannedCoat['prep'][number], 'step' | 'dry'>,
	all: readonly Standing[],
): number {
	const touched = step === 'turn over' ? all.filter(({ face }) => face.part === own.face.part) : [own];
	const dues = touched.map(({ face, coats, ended }) => {
		const material = job.materials[face.coats[coats - 1]?.material ?? ''];
		if (ended === null || !material) return 0;
		const { sandAfter, dryTo } = material;
		const to = step === 'sand' ? sandAfter : step === 'mask' ? dryTo?.tape : dryTo?.handle;
		const isAsked = step === 'sand' || step === 'mask' || step === 'turn over' || dry !== undefined;
		return isAsked ? ended + (driesAt_h(material, to ?? [], job.shop.air_C) ?? 0) * 3600 : 0;
	});
	const beside = step === 'turn over' ? all.map(one => flashed(job, one)) : [];
	return Math.max(own.ready, ...beside, ...dues);
}

/** Plays a spray stage at the first moment that works, and moves its faces on. */
function spray(
	{ job, which = job.order, options = {} }: StagesInput,
	stage: number,
	here: Standing[],
	letters: number,
	before: DayPlan | undefined,
): { faces: FaceStage[]; verdict: Verdict } {
	const pace = options.pace ?? standardPace;
	const bounds = here.map(standing => boundsOf(job, standing));
	const ready = Math.max(...here.map(each => each.ready));
	const opens = Math.min(...bounds.map(bound => bound.earliest_s));
	const first = atWork(job, Math.max(0, ready, opens - pace.setUp_s));
	const morning = (Math.floor(first / day_s) + 1) * day_s;
	const rest = { ...withGunOf(job, stage), faces: here.map(({ face }) => face) };
	const more = {
		...options,
		letters,
		ends: endsOf(here),
		on: Object.fromEntries(here.map(({ face, coats }) => [face.id, coats])),
	};
	const order = orderFor(rest, stage, which, more.on);
	const starts = [first, ...Array.from({ length: tries }, (_, days) => morning + days * day_s)];
	const from = (start_s: number) => ({ ...more, start_s, bench: benchAt(before, start_s) });
	const keeps = (start_s: number) => planDay(rest, order, from(start_s)).missed.length === 0;
	const start_s = starts.find(keeps) ?? first;
	const verdict = judgeStage(rest, stage, which, from(start_s));
	return {
		verdict,
		faces: here.map(standing => {
			const planned = moveOn(standing, verdict.plan);
			const bound = bounds[here.indexOf(standing)] ?? { earliest_s: 0, latest_s: null };
			return { face: standing.face.id, ...bound, planned_s: planned };
		}),
	};
}

/** When a face's next coat may be begun at the earliest and must be at the latest. */
function boundsOf(
	job: Job,
	{ face, coats, ended, ready }: Standing,
): Pick<FaceStage, 'earliest_s' | 'latest_s'> {
	if (ended === null || coats === 0) return { earliest_s: ready, latest_s: null };
	const spans = openings(job, face, coats, job.shop.air_C);
	const open =
		spans.find(({ until_h }) => until_h === null || ended + until_h * 3600 > ready) ?? spans.at(-1);
	if (!open) return { earliest_s: ready, latest_s: null };
	const latest_s = open.until_h === null ? null : ended + open.until_h * 3600;
	return { earliest_s: Math.max(ready, ended + open.from_h * 3600), latest_s };
}

function moveOn(standing: Standing, plan: DayPlan): number {
	const laid = plan.laid.filter(each => each.face === standing.face.id);
	const last = laid.at(-1);
	standing.coats = last?.coat ?? standing.coats;
	standing.ended = last?.to_s ?? standing.ended;
	standing.ready = last?.to_s ?? standing.ready;
	return laid[0]?.from_s ?? standing.ready;
}
