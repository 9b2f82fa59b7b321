import { highestHeld } from '../trade/time.ts';
import type { LaidCoat } from './book.ts';
import type { Instant } from './instant.ts';
import type { Moment } from './moment.ts';

/** The highest surface temperature that a coat was held at since `from`, °C: what earlier days read counts on. */
export function rulingSurface_C(
	{ state, now }: Moment,
	{ carried_C }: Pick<LaidCoat, 'carried_C'>,
	from: Instant,
): number {
	const readings = state.book.airs.map(({ at, surfaceC }) => ({ at_ms: at.wall, C: surfaceC }));
	const held = highestHeld(readings, from.wall, now.wall) ?? readings[0]?.C;
	const known = [held, carried_C ?? undefined].filter(C => C !== undefined);
	return known.length > 0 ? Math.max(...known) : state.book.opened.sheet.shop.air_C;
}
