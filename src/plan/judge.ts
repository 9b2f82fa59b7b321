import type { Job } from '../job/job.ts';
import { duration, faceName } from '../words/say.ts';
import { type DayPlan, type PlanOptions, passesIn, planDay } from './day-plan.ts';
import { type OrderName, orderFor, type StageOrder } from './order.ts';
import { paintOf_mL } from './pace.ts';
import type { Missed } from './timeline.ts';

export type Verdict = {
	plan: DayPlan;
	feasible: boolean;
	/** Which window cannot be kept and by how much, a sentence for each kind of trouble; then the smallest change. */
	reasons: string[];
	/** The smallest change found that mends it, tried and found to do so; null: none is needed, or none found. */
	mend: Mend | null;
};

export type Mend =
	| { change: 'order'; to: OrderName }
	| { change: 'day'; longer_min: number }
	| { change: 'air'; cooler_C: number }
	| { change: 'leave-out'; parts: string[] };

/**
 * Plans a stage and says whether it can be kept. Where it cannot, changes are tried from the smallest up: the other
 * order, a longer day (in steps of 5 min), a cooler shop (in steps of 1 °C, 8 at most), parts left for another day
 * (from the end of the row). The first that mends it is named.
 * @throws RangeError where a material has no times for the shop's temperature
 */
export function judgeStage(
	job: Job,
	stage: number,
	which: OrderName = job.order,
	options: PlanOptions = {},
): Verdict {
	const plan = planDay(job, orderFor(job, stage, which, options.on), options);
	const troubles = [...plan.missed, ...tooMuch(job, plan, options)];
	if (troubles.length === 0) return { plan, feasible: true, reasons: [], mend: null };
	const mend = smallestMend(job, stage, plan, options);
	const reasons = [...grouped(troubles).map(say), sayMend(mend)];
	return { plan, feasible: false, reasons, mend };
}

type Trouble = Omit<Missed, 'why'> & { why: Missed['why'] | 'cup'; by_mL?: number };

/** Faces that want more paint than the gun's cup holds. */
function tooMuch(job: Job, plan: DayPlan, options: PlanOptions): Trouble[] {
	return passesIn(job, plan.order).flatMap(pass => {
		const by_mL = paintOf_mL(pass, options.rates) - job.gun.cup_mL;
		const trouble = { face: pass.face.id, coat: pass.count, why: 'cup' as const };
		return by_mL > 0 ? [{ ...trouble, by_s: 0, night_s: null, by_mL }] : [];
	});
}

const kept = (job: Job, order: StageOrder, options: PlanOptions): boolean => {
	const plan = planDay(job, order, options);
	return plan.missed.length === 0 && tooMuch(job, plan, options).length === 0;
};

function smallestMend(job: Job, stage: number, { order, laid }: DayPlan, options: PlanOptions): Mend | null {
	for (const to of ['fewest-turns', 'wettest-edge', 'sheet'] as const)
		if (to !== order.name && kept(job, orderFor(job, stage, to, options.on), options))
			return { change: 'order', to };
	const row = [...new Set(laid.map(each => each.part))];
	return longerDay(job, order, options) ?? cooler(job, order, options) ?? fewer(job, order, row, options);
}

function longerDay(job: Job, order: StageOrder, options: PlanOptions): Mend | null {
	const { hours } = job.shop;
	if (hours === null) return null;
	const works = (steps: number) =>
		kept({ ...job, shop: { ...job.shop, hours: hours + 5 * steps } }, order, options);
	const most = Math.floor((24 * 60 - hours) / 5);
	if (!works(most)) return null;
	let [short, long] = [0, most];
	while (long - short > 1) {
		const middle = Math.floor((short + long) / 2);
		if (works(middle)) long = middle;
		else short = middle;
	}
	return { change: 'day', longer_min: 5 * long };
}

function cooler(job: Job, order: StageOrder, options: PlanOptions): Mend | null {
	for (let kelvin = 1; kelvin <= 8; kelvin += 1) {
		const air_C = job.shop.air_C - kelvin;
		const allowed = Object.values(job.materials).every(({ limits }) => air_C >= limits.air_C[0]);
		if (!allowed) return null;
		try {
			if (kept({ ...job, shop: { ...job.shop, air_C } }, order, options))
				return { change: 'air', cooler_C: kelvin };
		} catch (error) {
			if (!(error instanceof RangeError)) throw error;
		}
	}
	return null;
}

function fewer(job: Job, order: StageOrder, row: readonly string[], options: PlanOptions): Mend | null {
	for (let left = 1; left < row.length; left += 1) {
		const parts = row.slice(-left);
		const faces = job.faces.filter(face => !parts.includes(face.part));
		const rest = { ...job, faces };
		if (kept(rest, orderFor(rest, order.stage, order.name, options.on), options))
			return { change: 'leave-out', parts };
	}
	return null;
}

/** One trouble for each kind and coat, the worst, and how many faces share it. */
function grouped(troubles: readonly Trouble[]): { worst: Trouble; faces: number }[] {
	const groups = new Map<string, { worst: Trouble; faces: number }>();
	for (const trouble of troubles) {
		const key = `${trouble.why} ${trouble.coat}`;
		const group = groups.get(key);
		if (!group) groups.set(key, { worst: trouble, faces: 1 });
		else {
			group.faces += 1;
			if (trouble.by_s > group.worst.by_s) group.worst = trouble;
		}
	}
	return [...groups.values()];
}

function say({ worst, faces }: { worst: Trouble; faces: number }): string {
	const where = `${faceName(worst.face)}, coat ${worst.coat}`;
	const others =
		faces > 1 ? `; ${faces - 1} more ${faces === 2 ? 'face' : 'faces'} of this coat likewise` : '';
	const night =
		worst.night_s === null ? '' : `, with a night between; the day is ${duration(worst.night_s)} short`;
	if (worst.why === 'window')
		return `${where}: the window closes ${duration(worst.by_s)} before the face can be begun${night}${others}`;
	if (worst.why === 'never') return `${where}: no window ever opens for it; sand or scuff before it${others}`;
	if (worst.why === 'day') return `${where}: does not fit into a day, by ${duration(worst.by_s)}${others}`;
	if (worst.why === 'life')
		return `${where}: a fresh batch dies ${duration(worst.by_s)} before the face is done${others}`;
	return `${where}: wants ${Math.ceil(worst.by_mL ?? 0)} mL more than the cup holds; split the face${others}`;
}

const orderWords: Record<OrderName, string> = {
	'fewest-turns': 'fewest turns',
	'wettest-edge': 'wettest edge',
	sheet: 'as written',
};

function sayMend(mend: Mend | null): string {
	if (!mend) return 'no single change of order, day, temperature or parts mends it: change the sheet';
	const smallest = 'the smallest change that mends it:';
	if (mend.change === 'order') return `${smallest} the order "${orderWords[mend.to]}"`;
	if (mend.change === 'day') return `${smallest} a day ${duration(mend.longer_min * 60)} longer`;
	if (mend.change === 'air') return `${smallest} a shop ${mend.cooler_C} °C cooler`;
	return `${smallest} ${mend.parts.map(faceName).join(', ')} left for another day`;
}
