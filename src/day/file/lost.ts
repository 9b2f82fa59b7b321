import { basename, dirname, join } from 'node:path';
import { disk, type FilePort } from './port.ts';
import { readDay } from './read.ts';
import { readBytes } from './store.ts';

/**
 * Bytes that are no part of a day and once stood in its file. `torn`: behind a record, no whole key, as a crash or a
 * power cut leaves them; `other`: written by something else while the day was open.
 */
export type Lost = {
	what: 'torn' | 'other';
	/** Number of the record that they stood behind; 0: there was none. */
	behind: number;
	bytes: number;
	/** Name of the file beside the day that they were moved to; null: they still stand at its end. */
	kept: string | null;
};

const asideName = /\.(torn|other)-(\d+)(?:-\d+)?$/;

/** Everything that was set aside beside a day, and what would be if it were opened now, in the order of the records. */
export function lostOf(path: string, port: FilePort = disk): Lost[] {
	const name = basename(path);
	const beside = port.list(dirname(path)).flatMap((one): Lost[] => {
		const [, what, seq] = one.startsWith(`${name}.`) ? (asideName.exec(one) ?? []) : [];
		const found = what ? port.stat(join(dirname(path), one)) : null;
		if (!found?.isFile) return [];
		const isTorn = what === 'torn';
		const behind = Math.max(0, Number(seq) - (isTorn ? 1 : 0));
		return [{ what: isTorn ? 'torn' : 'other', behind, bytes: found.size, kept: one }];
	});
	const { torn, records } = readDay(readBytes(path, port));
	const still: Lost[] = torn
		? [{ what: 'torn', behind: records.at(-1)?.seq ?? 0, bytes: torn.bytes, kept: null }]
		: [];
	return [...beside, ...still].sort((one, other) => one.behind - other.behind);
}
