import { readFileSync } from 'node:fs';
import { joinFaults, readFaults } from '../../src/trace/faults.ts';

/** The fault kinds that come with the program. */
export const builtIn = joinFaults([
	readFaults(readFileSync(new URL('../../checklists/faults.yaml', import.meta.url), 'utf8'), 'faults.yaml'),
]);
