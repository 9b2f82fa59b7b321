import type { DayRecord } from '../day/records.ts';
import type { RecordOf } from '../records/of-type.ts';
import { passesOf } from '../records/passes.ts';
import { tookSaid } from './took.ts';

const ms = (record: { at: string }): number => Date.parse(record.at);

/**
 * How long a face that was late took, against what was planned or is usual.
 * @returns null where it has no time of its own: broken off, one of a stretch, not ended
 */
export function lateSaid(day: readonly DayRecord[], late: RecordOf<'face.late'>): string | null {
	const [opened] = day;
	const pass = passesOf(day).find(one => one.late === late);
	if (opened?.type !== 'day.opened' || !pass?.end || pass.broken || pass.estimated) return null;
	const { face, coat, start, end } = pass;
	const material = opened.sheet.faces.find(({ id }) => id === face)?.coats[coat - 1]?.material;
	const isUsual = (opened.rates?.[material ?? '']?.time ?? null) !== null;
	return tookSaid((ms(end) - ms(start)) / 1000, start.spray_s, isUsual);
}
