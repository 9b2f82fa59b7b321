import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Everything that tests write goes into one folder, which goes when they are done. */
export function setup(): () => void {
	const folder = mkdtempSync(join(tmpdir(), 'fanwise-tests-'));
	process.env.TMPDIR = folder;
	return () => rmSync(folder, { recursive: true, force: true });
}
