import { join } from 'node:path';
import { checklistsFolder } from '../job/checklists-folder.ts';
import { errorLine } from '../job/errors.ts';
import { readText } from '../job/read-text.ts';
import { type FaultData, FaultsError, joinFaults, readFaults } from './faults.ts';

function textOf(path: string): string {
	const read = readText(path, 'name one that is there');
	if (read.ok) return read.text;
	throw new FaultsError(read.errors.map(errorLine).join('; '));
}

/**
 * Fault kinds in force: the built-in ones and the shop's own.
 * @param own files of the shop's, later ones before earlier ones
 * @throws FaultsError for a file that is missing or wrong
 */
export function loadFaults(own: readonly string[] = []): FaultData {
	return joinFaults(
		[join(checklistsFolder(), 'faults.yaml'), ...own].map(path => readFaults(textOf(path), path)),
	);
}
