import { count } from '../added-up.ts';
import { type AsTold, mostShort } from '../as-told/days.ts';
import type { OnePaint } from './days.ts';
import type { PaintMutant } from './mutants.ts';

const verdict = (holds: boolean) => (holds ? 'holds' : 'FALLS');

/**
 * The lines of `npm run prove` on paint: one figure in plan, day, cup and report, the changes of it that are caught, and the
 * batches of a painter who sprays as told.
 */
export function paintProved(
	paint: OnePaint,
	caught: readonly { mutant: PaintMutant; says: string | null }[],
	told: AsTold,
): { lines: string[]; holds: boolean } {
	const isOne = paint.says.length === 0;
	const most = mostShort(told);
	const isKept = told.short <= most;
	const lines = [
		'',
		`21 one figure of paint in plan, day, cup and report, worked out from flow × time: ${count(paint.sheets)} sheets, ${count(paint.figures)} figures, ${count(paint.starts)} starts, ${count(paint.cups)} cups: ${verdict(isOne)}`,
		...paint.says.slice(0, 10).map(says => `      ${says}`),
		...caught.map(({ mutant, says }) => `${mutant.file} ${mutant.what} → ${says?.slice(0, 90) ?? 'ALIVE'}`),
		`a painter who sprays as told, paint by the sheet's ±: ${count(told.days)} days, ${count(told.passes)} passes, ${told.short} of ${count(told.batches)} batches short inside a face, ${most.toFixed(1)} allowed at the sheets' risks: ${verdict(isKept)}`,
	];
	return { lines, holds: isOne && isKept && caught.every(({ says }) => says !== null) };
}
