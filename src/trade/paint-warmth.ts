import type { Stretch } from './process-clock.ts';

/** What is known of a batch in its pot. `read_C`: at the flow cup, °C; null: it was not read. */
export type Pot = { make_mL: number; read_C: number | null };

/** A pot of solvent-borne paint warms itself: by so much up to this amount, by so much more above. This project's own choice. */
const warms = { little_mL: 300, little_K: 1, much_K: 2 };

/** How much warmer a batch is than what stands around it, K. Paint without solvent warms itself far more. */
export const warmsItself_K = (make_mL: number): number =>
	make_mL > warms.little_mL ? warms.much_K : warms.little_K;

/** The coldest that a batch can have been: in the air around it, or as it was read; its own warmth is not counted on. */
export function asColdPaint(air: readonly Stretch[], read_C: number | null): Stretch[] {
	const paint_C = (air_C: number) => Math.min(air_C, read_C ?? air_C);
	return air.map(stretch => ({ ...stretch, from_C: paint_C(stretch.from_C), to_C: paint_C(stretch.to_C) }));
}

/** The warmest that a batch can have been: in the air around it, or as it was read, and by its own warmth. */
export function asPaint(air: readonly Stretch[], { make_mL, read_C }: Pot): Stretch[] {
	const own_K = warmsItself_K(make_mL);
	const paint_C = (air_C: number) => Math.max(air_C, read_C ?? air_C) + own_K;
	return air.map(stretch => ({ ...stretch, from_C: paint_C(stretch.from_C), to_C: paint_C(stretch.to_C) }));
}
