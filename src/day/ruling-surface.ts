import { coldestHeld, highestHeld } from '../trade/time.ts';
import type { LaidCoat } from './book.ts';
import { atMost_s, type Instant } from './instant.ts';
import type { Moment } from './moment.ts';

/** Surfaces as they were read, ms before now, and the moment that counts from. */
function readSince({ state, now }: Moment, from: Instant) {
	const at_ms = (at: Instant) => -1000 * atMost_s(at, now);
	const readings = state.book.airs.map(({ at, surfaceC }) => ({ at_ms: at_ms(at), C: surfaceC }));
	return { readings, from_ms: at_ms(from) };
}

/** The highest surface temperature that a coat was held at since `from`, °C: what earlier days read counts on. */
export function rulingSurface_C(
	moment: Moment,
	{ carried_C }: Pick<LaidCoat, 'carried_C'>,
	from: Instant,
): number {
	const { readings, from_ms } = readSince(moment, from);
	const held = highestHeld(readings, from_ms, 0) ?? readings[0]?.C;
	const known = [held, carried_C ?? undefined].filter(C => C !== undefined);
	return known.length > 0 ? Math.max(...known) : moment.state.book.opened.sheet.shop.air_C;
}

/** The coldest that a coat was read at since `from`, °C: what earlier days read counts on. A coat hardens by this. */
export function coldestSurface_C(
	moment: Moment,
	coat: Pick<LaidCoat, 'carried_C' | 'carriedLeast_C'> | null,
	from: Instant,
): number {
	const { readings, from_ms } = readSince(moment, from);
	const held = coldestHeld(readings, from_ms, 0) ?? readings[0]?.C;
	const known = [held, coat?.carriedLeast_C ?? coat?.carried_C ?? undefined].filter(C => C !== undefined);
	return known.length > 0 ? Math.min(...known) : moment.state.book.opened.sheet.shop.air_C;
}
