import { spawnSync } from 'node:child_process';
import { built } from '../built.ts';
import { beside, type Figure, inPairs, time_ms } from './figure.ts';

const pairs = 25;

/** `--help` against a start of Node that does nothing. */
export async function measure(): Promise<Figure[]> {
	const run = (words: string[]) => () =>
		time_ms(() => {
			const { status, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8' });
			if (status !== 0) throw new Error(`${words.join(' ')}: ${stderr}`);
		});
	const found = await inPairs(pairs, run(['-e', '0']), run([built(), '--help']));
	return [beside('fanwise --help', 'ms', 'node -e 0', found, 1.4)];
}
