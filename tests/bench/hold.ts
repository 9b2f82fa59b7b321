import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { built } from '../built.ts';
import { root } from './built.ts';
import { type Figure, median, under } from './figure.ts';
import { openPty, pause } from './in-pty.ts';

const holds = 15;
/** Only a held screen is in reverse video. */
const reversed = '\u001b[7m';

/** From the space bar to the held screen, in a day that is kept in a file on the disk that the project lies on. */
export async function measure(): Promise<Figure[]> {
	const home = mkdtempSync(join(root, '.bench-'));
	const words = [join(root, built()), 'spray', join(root, 'checklists/example/coffee-cart.yaml')];
	const day = await openPty(words, 'parts: wipe', { env: { FANWISE_HOME: home } });
	const times: number[] = [];
	try {
		for (let held = 0; held < holds; held++) {
			await pause(700);
			times.push(await day.answer(' ', reversed));
			await pause(700);
			day.type('e');
		}
		return [under('hold to frame, written to the disk', 'ms', median(times), 100)];
	} finally {
		day.kill();
		await pause(200);
		rmSync(home, { recursive: true, force: true });
	}
}
