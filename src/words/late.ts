import type { DayRecord, EventOf } from '../day/records.ts';
import { tookSaid } from './took.ts';

type Late = DayRecord & EventOf<'face.late'>;

const ms = (record: { at: string }): number => Date.parse(record.at);

/**
 * How long a face that was late took, against what was planned or is usual.
 * @returns null where it has no time of its own: broken off, one of a stretch, not ended
 */
export function lateSaid(day: readonly DayRecord[], { face, coat, seq }: Late): string | null {
	const [opened] = day;
	const start = day.findLast(
		one => one.type === 'face.started' && one.face === face && one.coat === coat && one.seq < seq,
	);
	const next = day.find(
		one => one.seq > seq && (one.type === 'break.began' || (one.type === 'face.ended' && one.face === face)),
	);
	if (opened?.type !== 'day.opened' || start?.type !== 'face.started') return null;
	if (next?.type !== 'face.ended' || next.estimated) return null;
	const material = opened.sheet.faces.find(({ id }) => id === face)?.coats[coat - 1]?.material;
	const isUsual = (opened.rates?.[material ?? '']?.time ?? null) !== null;
	return tookSaid((ms(next) - ms(start)) / 1000, start.spray_s, isUsual);
}
