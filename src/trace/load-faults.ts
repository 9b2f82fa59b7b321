import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type FaultData, FaultsError, joinFaults, readFaults } from './faults.ts';

/** Where the lists that come with the program lie: beside the bundle, or beside the sources. */
function builtInPath(): string {
	const places = ['../checklists/faults.yaml', '../../checklists/faults.yaml'];
	const found = places.map(place => fileURLToPath(new URL(place, import.meta.url))).find(existsSync);
	if (!found) throw new FaultsError('checklists/faults.yaml is missing: install fanwise again');
	return found;
}

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
	return joinFaults([builtInPath(), ...own].map(path => readFaults(readText(path), path)));
}
