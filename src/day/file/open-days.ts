import { isoAt } from '../instant.ts';
import { daysFolder, listDays } from './folder.ts';
import { glimpseDay } from './glimpse.ts';
import { asWritten } from './line-ends.ts';
import { disk, type FilePort } from './port.ts';
import { readSums } from './sums.ts';

/** A day that was begun and not closed; when it began, as words. */
export type OpenDay = { path: string; name: string; began: string };

/**
 * Days that were begun on the real clock and never closed, the newest first, told without their schemas so that nothing
 * heavy is loaded. Whether such a day is whole is found when it is carried on.
 */
export function openDays(folder: string = daysFolder(), port: FilePort = disk): OpenDay[] {
	return listDays(folder, port).flatMap(({ path, size }) => {
		const day = readSums(path, port, size)?.glimpse ?? glimpseDay(asWritten(port.read(path)));
		if (day?.clock !== 'real' || day.closed) return [];
		return [{ path, name: day.job, began: isoAt(Date.parse(day.began)).slice(0, 16).replace('T', ' ') }];
	});
}
