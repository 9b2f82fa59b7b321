import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The folder of the lists that come with the program, found from the source and from the built file alike. */
export function checklistsFolder(from = import.meta.dirname): string {
	const folder = join(from, 'checklists');
	if (existsSync(join(folder, 'gun-check.yaml'))) return folder;
	const above = dirname(from);
	if (above === from)
		throw new Error('the folder "checklists" that comes with fanwise is gone: install it again');
	return checklistsFolder(above);
}

/** The job sheet that comes with the program. */
export const exampleSheet = (): string => join(checklistsFolder(), 'example', 'coffee-cart.yaml');
