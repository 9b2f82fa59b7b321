import type { Quantity } from '../trade/quantity.ts';

export type Bounds = { above?: number; least?: number; most: number; allowed: string };

/** What can be meant of a kind of quantity, in its base unit, and how that is said. */
export const boundsOf: Partial<Record<Quantity, Bounds>> = {
	volume: { above: 0, most: 200_000, allowed: 'more than 0, up to 200 L' },
	area: { above: 0, most: 1000, allowed: 'more than 0, up to 1000 m2' },
	film: { above: 0, most: 5000, allowed: 'more than 0, up to 5000 um' },
	temperature: { least: -40, most: 150, allowed: '-40 °C to 150 °C' },
	temperatureDifference: { least: 0, most: 30, allowed: '0 K to 30 K' },
	pressure: { above: 0, most: 2000, allowed: 'more than 0, up to 2000 kPa' },
	length: { above: 0, most: 100_000, allowed: 'more than 0, up to 100 m' },
	time: { least: 0, most: 31_536_000, allowed: '0 to 365 d' },
	speed: { above: 0, most: 10_000, allowed: 'more than 0, up to 10 m/s' },
	flow: { above: 0, most: 20_000, allowed: 'more than 0, up to 20 L/min' },
	share: { least: 0, most: 1, allowed: '0% to 100%' },
	density: { least: 0.5, most: 5, allowed: '0.5 kg/L to 5 kg/L' },
	vapour: { above: 0, most: 5, allowed: 'more than 0, up to 5 m3/L' },
};

/** Says what is allowed where a value is none of it. */
export function outOf(limits: Bounds | undefined, value: number): string | null {
	if (!limits) return null;
	const low = limits.above !== undefined ? value <= limits.above : value < (limits.least ?? 0);
	return low || value > limits.most ? `allowed: ${limits.allowed}` : null;
}
