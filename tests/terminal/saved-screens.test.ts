import { beforeAll, expect, test } from 'vitest';
import { savedViews } from '../screen/saved.ts';
import { frameOf } from '../screen/show.ts';
import { bundled, inTerminal } from './pty.ts';

/** The screens of the saved views, as a real terminal shows the bytes that the program writes to it. */

let program = '';

beforeAll(async () => {
	program = await bundled('saved-screens.ts');
});

const trimmed = (screen: string) =>
	screen
		.split('\n')
		.map(row => row.trimEnd())
		.slice(0, -1)
		.join('\n');

test.each([
	[80, 24],
	[40, 12],
	[120, 40],
])(
	'at %i by %i every kind of screen stands in a real terminal as it is laid out, the last row free',
	async (columns, rows) => {
		const real = inTerminal([process.execPath, program], { columns, rows });
		const kinds = Object.entries(savedViews());
		for (const [index, [kind, view]] of kinds.entries()) {
			if (index > 0) real.kill('SIGUSR2');
			const saved = frameOf(view, { columns, rows })
				.map(row => row.trimEnd())
				.join('\n');
			await real.until(screen => trimmed(screen) === saved).catch(() => {});
			expect(`${kind}\n${trimmed(real.screen())}`).toBe(`${kind}\n${saved}`);
			expect(real.screen().split('\n').at(-1)?.trim()).toBe('');
		}
		expect(kinds.length).toBeGreaterThan(70);
		real.kill('SIGKILL');
		await real.ended;
	},
);
