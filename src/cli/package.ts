import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The folder that the program was installed in, found from the source and from the built file alike. */
export function packageFolder(from = import.meta.dirname): string {
	if (existsSync(join(from, 'package.json')) && existsSync(join(from, 'checklists'))) return from;
	const above = dirname(from);
	if (above === from) throw new Error('the folder that fanwise was installed in is gone: install it again');
	return packageFolder(above);
}

/** The program's version, as its package says. */
export function version(): string {
	const text = readFileSync(join(packageFolder(), 'package.json'), 'utf8');
	return (JSON.parse(text) as { version: string }).version;
}

/** The job sheet that comes with the program. */
export const exampleSheet = (): string => join(packageFolder(), 'checklists', 'example', 'coffee-cart.yaml');
