import type { Face, PlannedCoat } from '../job/job.ts';
import { paintOf_mL, sprayOf_s } from '../plan/pace.ts';
import type { EventOf } from './records.ts';

type Opened = Pick<EventOf<'day.opened'>, 'rates'>;

/**
 * Paint and time that a coat of a face takes: what the shop's own days have shown, else what the sheet works out.
 * @returns mL as sprayed, and s
 */
export function takes({ rates = {} }: Opened, face: Face, coat: PlannedCoat) {
	return { volume_mL: paintOf_mL({ face, coat }, rates), spray_s: sprayOf_s({ face, coat }, rates) };
}

/** Whether the shop's own days have shown how long a material takes. */
export const isTimed = ({ rates = {} }: Opened, material: string): boolean =>
	(rates[material]?.s_per_m2 ?? null) !== null;
