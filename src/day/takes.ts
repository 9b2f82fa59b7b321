import type { PlannedCoat } from '../job/job.ts';
import { paintOf_mL, sprayOf_s } from '../plan/pace.ts';
import type { EventOf } from './records.ts';

type Opened = Pick<EventOf<'day.opened'>, 'rates' | 'sheet'>;

/**
 * Paint and time that a face's coat takes, as the plan counts them: what the shop's own days have shown, else what the
 * sheet works out. More than the gun's cup holds is what it takes all the same; it is sprayed from a full cup.
 * @returns mL as sprayed, and s
 */
export const takes = ({ rates = {} }: Pick<Opened, 'rates'>, coat: PlannedCoat) => ({
	volume_mL: paintOf_mL({ coat }, rates),
	spray_s: sprayOf_s({ coat }, rates),
});

/** Elapsed time that a material usually takes in this shop ÷ the sheet's time; null: its own days have not shown it. */
export const usualOf = ({ rates = {} }: Pick<Opened, 'rates'>, material: string): number | null =>
	rates[material]?.time ?? null;

/** Whether the shop's own days have shown how long a material takes. */
export const isTimed = (opened: Pick<Opened, 'rates'>, material: string): boolean =>
	usualOf(opened, material) !== null;
