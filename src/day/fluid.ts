import { gunNext, gunSetFor } from './guns.ts';
import { type Moment, nextCoat } from './moment.ts';

/** The fluid knob: one setting for a kind of coat under a fan. */

/** A setting of the knob as records have it. */
export const fluidOf = (flow_mL_per_min: number): string => `${flow_mL_per_min.toFixed(1)} mL/min`;

/** The flow that a face's next coat is sprayed at: the gun's own where its plan says none. */
export const flowFor_mL_per_min = (moment: Moment, id: string): number =>
	nextCoat(moment, id).flow_mL_per_min ?? gunNext(moment, id).flow_mL_per_min;

/** Whether the knob must be turned for a face: it is not as it was set last, or was not set since the gun was cleaned. */
export const turnsFluid = (moment: Moment, id: string): boolean =>
	fluidOf(flowFor_mL_per_min(moment, id)) !== gunSetFor(moment, id).fluid;
