import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { checklistsFolder } from '../job/checklists-folder.ts';
import { type FaultData, FaultsError, joinFaults, readFaults } from './faults.ts';

function readText(path: string): string {
	try {
		return readFileSync(path, 'utf8');
	} catch {
		throw new FaultsError(`${path}: the faults file cannot be read: name one that can`);
	}
}

/**
 * Fault kinds in force: the built-in ones and the shop's own.
 * @param own files of the shop's, later ones before earlier ones
 * @throws FaultsError for a file that is missing or wrong
 */
export function loadFaults(own: readonly string[] = []): FaultData {
	return joinFaults(
		[join(checklistsFolder(), 'faults.yaml'), ...own].map(path => readFaults(readText(path), path)),
	);
}
