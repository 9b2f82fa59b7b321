import { highestHeld } from '../trade/time.ts';
import type { LaidCoat } from './book.ts';
import { atMost_s, type Instant } from './instant.ts';
import type { Moment } from './moment.ts';

/** The highest surface temperature that a coat was held at since `from`, °C: what earlier days read counts on. */
export function rulingSurface_C(
	{ state, now }: Moment,
	{ carried_C }: Pick<LaidCoat, 'carried_C'>,
	from: Instant,
): number {
	const at_ms = (at: Instant) => -1000 * atMost_s(at, now);
	const readings = state.book.airs.map(({ at, surfaceC }) => ({ at_ms: at_ms(at), C: surfaceC }));
	const held = highestHeld(readings, at_ms(from), 0) ?? readings[0]?.C;
	const known = [held, carried_C ?? undefined].filter(C => C !== undefined);
	return known.length > 0 ? Math.max(...known) : state.book.opened.sheet.shop.air_C;
}
