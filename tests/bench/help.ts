import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { root } from './built.ts';
import { type Figure, inPairs } from './figure.ts';

const pairs = 25;

/** `--help` against a start of Node that does nothing. */
export async function measure(): Promise<Figure[]> {
	const run = (words: string[]) => () => {
		const from = performance.now();
		const { status, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8' });
		if (status !== 0) throw new Error(`${words.join(' ')}: ${stderr}`);
		return performance.now() - from;
	};
	const found = await inPairs(pairs, run(['-e', '0']), run([join(root, 'dist/fanwise.js'), '--help']));
	const against = { what: 'node -e 0', value: found.bare };
	return [{ name: 'fanwise --help', unit: 'ms', ours: found.ours, against, ratio: found.ratio, limit: 1.4 }];
}
