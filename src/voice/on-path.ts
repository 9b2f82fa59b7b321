import { accessSync, constants, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';

export type Environment = Record<string, string | undefined>;

/** Where a program is found by its name, or null; relative folders of the path are passed over. */
export function onPath(name: string, env: Environment): string | null {
	for (const folder of (env.PATH ?? env.Path ?? '').split(delimiter)) {
		if (!/^([/\\]|[a-zA-Z]:)/.test(folder)) continue;
		const path = join(folder, name);
		try {
			accessSync(path, constants.X_OK);
			if (statSync(path).isFile()) return path;
		} catch {}
	}
	return null;
}
