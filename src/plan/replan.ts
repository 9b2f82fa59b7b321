import type { Job } from '../job/job.ts';
import { duration, faceName, sentence } from '../words/say.ts';
import type { Cup } from './batches.ts';
import { type DayPlan, type PlanOptions, planDay, wasThere } from './day-plan.ts';
import type { GunState } from './gun.ts';
import { leftOf, orderCoats, type StageOrder } from './order.ts';

/** What has become of a planned stage by now. Seconds as in the plan: from the start of its first day. */
export type Progress = {
	/** Coats that faces have by now, counted on each face, and when the last of each ended. */
	on: Readonly<Record<string, number>>;
	ends: Readonly<Record<string, number>>;
	aside: readonly string[];
	at_s: number;
	/** How the gun is set, where known. */
	gun: GunState | null;
	/** What is in the gun's cup and alive; null: nothing that can be used. */
	cup: Cup | null;
	/** Pots with paint left, that one's own among them. */
	pots: readonly Cup[];
	/** Batches begun so far on the job, for the letters. */
	letters: number;
};

export type Replanned = {
	plan: DayPlan;
	/** One sentence: what changed, the gravest first. */
	changed: string;
};

/**
 * Plans the rest of a stage again after a break or a delay. The order in force is kept unless another of its kind
 * turns the gun less often from here on, or keeps a window that the one in force would miss.
 * @param old the plan in force
 * @throws RangeError where a material has no times for the shop's temperature
 */
export function replan(job: Job, old: DayPlan, so: Progress, options: PlanOptions = {}): Replanned {
	const here = { ...job, faces: job.faces.filter(face => !so.aside.includes(face.id)) };
	const { stage, name } = old.order;
	const more = {
		...options,
		...{
			on: so.on,
			ends: so.ends,
			start_s: so.at_s,
			gun: so.gun,
			...{ cup: so.cup, pots: so.pots },
			letters: so.letters,
			begun: true,
		},
	};
	const kept = planDay(here, rest(here, old.order, so), more);
	const left = leftOf(here, stage, so.on);
	const fresh = planDay(here, orderCoats(here, stage, left, name, so.gun), more);
	const better =
		fresh.missed.length < kept.missed.length ||
		(fresh.missed.length === kept.missed.length && fresh.order.turns < kept.order.turns);
	const plan = better ? fresh : kept;
	return { plan, changed: whatChanged(old, plan, so, better) };
}

/** The order in force without what is done. */
function rest(job: Job, order: StageOrder, so: Progress): StageOrder {
	const left = leftOf(job, order.stage, so.on);
	const open = new Map(left.map(({ coat, passes }) => [coat, passes]));
	const coats = order.coats.map(({ coat, faces }) => ({
		coat,
		passes: faces.flatMap(id => open.get(coat)?.find(pass => pass.face.id === id) ?? []),
	}));
	const asIs = orderCoats(job, order.stage, coats, 'given', so.gun);
	return { ...asIs, name: order.name };
}

function whatChanged(old: DayPlan, plan: DayPlan, so: Progress, reordered: boolean): string {
	const [missed] = plan.missed;
	if (missed) {
		const by = missed.by_s > 0 ? `, by ${duration(missed.by_s)}` : '';
		return sentence(`${faceName(missed.face)}, coat ${missed.coat}: too late for its window${by}.`);
	}
	const parts: string[] = [];
	const gone = so.aside.filter(face => old.laid.some(each => each.face === face && each.to_s > so.at_s));
	if (gone.length > 0) parts.push(`${gone.map(faceName).join(', ')} left out`);
	if (reordered) {
		const first = plan.laid[0];
		parts.push(`the order changed${first ? `, ${faceName(first.face)} comes next` : ''}`);
	}
	const toMix = ({ batches }: DayPlan) =>
		batches.filter(batch => batch.mix_s >= so.at_s && !wasThere(so, batch.letter));
	const batches = toMix(plan).length - toMix(old).length;
	if (batches > 0) parts.push(`${batches} more ${batches === 1 ? 'pot' : 'pots'} to mix`);
	const nights = plan.nights - old.nights;
	if (nights > 0) parts.push('the rest tomorrow');
	const later = plan.end_s - old.end_s;
	if (Math.abs(later) >= 60) parts.push(`${duration(Math.abs(later))} ${later > 0 ? 'lost' : 'gained'}`);
	return parts.length === 0 ? 'Nothing changed.' : sentence(`${parts.join('; ')}.`);
}
