import { isoAt } from '../instant.ts';
import { daysFolder, listDays } from './folder.ts';
import { disk, type FilePort } from './port.ts';

/** A day that was begun and not closed; when it began, as words. */
export type OpenDay = { path: string; name: string; began: string };

const closes = '"type":"day.closed"';
/** Length of the checksum and the blank before the JSON of a line. */
const beforeJson = 9;

/** The first record of a day, as far as it can be told without its schema. */
function opening(text: string): Partial<Record<'type' | 'clock' | 'job' | 'at', unknown>> {
	try {
		const raw: unknown = JSON.parse(text.slice(beforeJson, text.indexOf('\n')));
		return typeof raw === 'object' && raw !== null ? raw : {};
	} catch {
		return {};
	}
}

/**
 * Days that were begun on the real clock and never closed, the newest first, told from their first line so that
 * nothing heavy is loaded. Whether such a day is whole is found when it is carried on.
 */
export function openDays(folder: string = daysFolder(), port: FilePort = disk): OpenDay[] {
	return listDays(folder, port).flatMap(({ path }) => {
		const text = Buffer.from(port.read(path)).toString('utf8');
		const { type, clock, job, at } = opening(text);
		if (type !== 'day.opened' || clock !== 'real' || text.includes(closes)) return [];
		if (typeof job !== 'string' || typeof at !== 'string') return [];
		const began = Date.parse(at);
		return Number.isNaN(began)
			? []
			: [{ path, name: job, began: isoAt(began).slice(0, 16).replace('T', ' ') }];
	});
}
