import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { checklistsFolder } from '../job/checklists-folder.ts';

/** The program's version, as its package says. */
export function version(): string {
	const text = readFileSync(join(dirname(checklistsFolder()), 'package.json'), 'utf8');
	return (JSON.parse(text) as { version: string }).version;
}
