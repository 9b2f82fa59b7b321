import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { builtProgram, root } from './built.ts';
import { type Figure, under } from './figure.ts';

/** Three busy days and nights on a moved clock: what the program grows by, and what a key takes at their end. */
export async function measure(): Promise<Figure[]> {
	const folder = mkdtempSync(join(root, '.bench-'));
	try {
		const program = await builtProgram('busy-days.ts', folder, 'ours');
		const words = ['--expose-gc', program, folder];
		const { stdout, stderr, status } = spawnSync(process.execPath, words, { encoding: 'utf8', cwd: root });
		if (status !== 0) throw new Error(`the busy days ended with ${status}:\n${stderr}`);
		const { keys, grown, pace } = JSON.parse(stdout);
		const name = `72 h, ${Math.floor(keys / 1000)} thousand keys`;
		return [
			under(`${name}: memory grown`, 'MB', Math.max(0, grown.MB), 15),
			under(`${name}: files left open`, '', grown.files, 0.5),
			under(`${name}: a key on the last day, to one on the second`, '', pace.last_ms / pace.first_ms, 1.5),
		];
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}
