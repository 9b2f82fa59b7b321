import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { keyTimes } from '../../src/screen/keys/thresholds.ts';
import { builtProgram } from './built.ts';
import { beside, type Figure, inPairs } from './figure.ts';
import { openPty, pause } from './in-pty.ts';

const pairs = 31;
/** Longer than a new screen is deaf. */
const look_ms = 700;

/**
 * From a key to the frame that it leads to, in a terminal, against a bare Ink program that draws the same. The time
 * for which a corner waits for a second one, a glove across two blocks, is ours on purpose and counted apart.
 */
export async function measure(): Promise<Figure[]> {
	const folder = mkdtempSync(join(tmpdir(), 'fanwise-bench-'));
	const open = async (program: string, how: 'ours' | 'bare') =>
		openPty([await builtProgram(program, folder, how)], 'Pattern on paper');
	const bare = await open('screens-bare.tsx', 'bare');
	const ours = await open('screens-ours.ts', 'ours');
	try {
		const frame = (of: typeof bare, apart_ms: number) => async () => {
			await pause(look_ms);
			return (await of.answer('e')) - apart_ms;
		};
		for (const of of [bare, ours]) await frame(of, 0)();
		const found = await inPairs(pairs, frame(bare, 0), frame(ours, keyTimes.chord_ms));
		const name = `key to frame, less ${keyTimes.chord_ms} ms for a chord`;
		return [beside(name, 'ms', 'the same by bare Ink', found, 1.3)];
	} finally {
		bare.kill();
		ours.kill();
		rmSync(folder, { recursive: true, force: true });
	}
}
