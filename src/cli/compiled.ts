import * as nodeModule from 'node:module';
import { homedir } from 'node:os';
import { join } from 'node:path';

/** From Node 22.1 on; what the oldest Node does not have stays undefined. */
const { enableCompileCache } = nodeModule as typeof nodeModule & {
	enableCompileCache?: (folder: string) => unknown;
};

/**
 * Has Node keep what it has compiled of the program, in the user's own folder for such things, so that the next start
 * need not compile it again. A Node that cannot, or a folder that cannot be written, costs time and nothing else.
 */
export function keepCompiled(env: Record<string, string | undefined>): void {
	enableCompileCache?.(join(env.XDG_CACHE_HOME || join(homedir(), '.cache'), 'fanwise'));
}
