import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { builtProgram, root } from './built.ts';
import { type Figure, under } from './figure.ts';

/** Memory after garbage collection in hour 12 of a day on a moved clock, over that in hour 1. */
export async function measure(): Promise<Figure[]> {
	const folder = mkdtempSync(join(root, '.bench-'));
	try {
		const words = ['--expose-gc', await builtProgram('long-day.ts', folder, 'ours')];
		const { stdout, stderr, status } = spawnSync(process.execPath, words, { encoding: 'utf8', cwd: root });
		if (status !== 0) throw new Error(`the long day ended with ${status}:\n${stderr}`);
		const { first_MB, last_MB } = JSON.parse(stdout);
		return [under('memory grown from hour 1 to hour 12', 'MB', last_MB - first_MB, 15)];
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}
