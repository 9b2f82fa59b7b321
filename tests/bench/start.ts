import { mkdtempSync, rmSync } from 'node:fs';
import * as nodeModule from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { built } from '../built.ts';
import { builtProgram, root } from './built.ts';
import { beside, type Figure, inPairs } from './figure.ts';
import { timeToText } from './in-pty.ts';

const pairs = 15;
const fanwise = join(root, built());
const sheet = join(root, 'checklists/example/coffee-cart.yaml');

const goal = 1.5;
/**
 * A Node that keeps what it has compiled meets the goal on a quiet machine. One that cannot compiles what reads the
 * sheet, checks it and keeps the day anew at every start, which alone takes a third of what bare Ink does. A day that
 * is begun is also synced to the disk before its prompt is shown.
 */
const limitOf = (kept: number, anew: number): number => ('enableCompileCache' in nodeModule ? kept : anew);

type Start = { name: string; words: string[]; prompt: string; limit: number };
const starts: Start[] = [
	{ name: 'fanwise to its first prompt', words: [], prompt: 'Job sheet: choose one.', limit: goal },
	{
		name: 'fanwise rehearse JOB',
		words: ['rehearse', sheet],
		prompt: 'parts: wipe',
		limit: limitOf(1.7, 2),
	},
	{
		name: 'fanwise spray JOB, a day begun',
		words: ['spray', sheet],
		prompt: 'parts: wipe',
		limit: limitOf(2, 2.3),
	},
];

/** From the start of the process to the first prompt, in a terminal, against a bare Ink program bundled alike. */
export async function measure(): Promise<Figure[]> {
	const folder = mkdtempSync(join(tmpdir(), 'fanwise-bench-'));
	try {
		const bare = await builtProgram('bare-prompt.tsx', folder, 'bare');
		let started = 0;
		// Each finds a home without days, so that each begins one; what Node keeps compiled is there from the second on.
		const start = (words: string[], prompt: string) => () => {
			const env = { FANWISE_HOME: join(folder, `home-${started++}`), XDG_CACHE_HOME: join(folder, 'cache') };
			return timeToText(words, prompt, { cwd: folder, env });
		};
		const figures: Figure[] = [];
		for (const { name, words, prompt, limit } of starts) {
			await start([fanwise, ...words], prompt)();
			const plain = start([bare], 'Job sheet: choose one.');
			const found = await inPairs(pairs, plain, start([fanwise, ...words], prompt));
			figures.push({ ...beside(name, 'ms', 'a bare Ink program', found, limit), goal });
		}
		return figures;
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}
