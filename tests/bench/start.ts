import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { builtProgram, root } from './built.ts';
import { type Figure, inPairs } from './figure.ts';
import { timeToText } from './in-pty.ts';

const pairs = 11;

/** From the start of the process to the first prompt, in a terminal, against a bare Ink program bundled alike. */
export async function measure(): Promise<Figure[]> {
	const folder = mkdtempSync(join(tmpdir(), 'fanwise-bench-'));
	const fanwise = join(root, 'dist/fanwise.js');
	const sheet = join(root, 'checklists/example/coffee-cart.yaml');
	const starts: [name: string, words: string[], prompt: string, limit: number][] = [
		['fanwise to its first prompt', [fanwise], 'Job sheet: choose one.', 1.5],
		[
			'fanwise rehearse, its sheet read, to its first prompt',
			[fanwise, 'rehearse', sheet],
			'Breathing gear',
			4,
		],
	];
	try {
		const bare = await builtProgram('bare-prompt.tsx', folder);
		const start = (words: string[], prompt: string) => () =>
			timeToText(words, prompt, { cwd: folder, env: { FANWISE_HOME: join(folder, 'home') } });
		const figures: Figure[] = [];
		for (const [name, words, prompt, limit] of starts) {
			const found = await inPairs(pairs, start([bare], 'Job sheet: choose one.'), start(words, prompt));
			const against = { what: 'a bare Ink program', value: found.bare };
			figures.push({ name, unit: 'ms', ours: found.ours, against, ratio: found.ratio, limit });
		}
		return figures;
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}
