/** Deviations within which 95 cases of 100 lie below: the upper end of what may have left the gun and landed. */
const upperEnd = 1.645;

/**
 * The most of a pass's film that can have been laid between two keys: no more than flow × the seconds between them left
 * the gun. It tells when a pass cannot be whole; of what was laid it tells nothing.
 * @param between_s from START to FINISHED
 * @param trigger_s the trigger time that the pass is planned with
 * @param transfer what is unsure of it, ± ÷ itself; `flow` the same
 * @returns share of the film wanted, at the upper end
 */
export function mostLaid(
	between_s: number,
	trigger_s: number,
	{ transfer, flow }: { transfer: number; flow: number },
): number {
	return (between_s / trigger_s) * Math.exp(upperEnd * Math.hypot(transfer, flow));
}

/** A pass that can have got less than this share of its film is asked about. */
export const leastUnasked = 0.8;
