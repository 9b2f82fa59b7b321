import { readFileSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import { savedViews } from '../screen/saved.ts';
import { bundled, inTerminal } from './pty.ts';

/** The saved screens, as a real terminal shows the bytes that the program writes to it. */

let program = '';

beforeAll(async () => {
	program = await bundled('saved-screens.ts');
});

/** What a file of saved screens has under a name, without the edge drawn for blanks. */
function savedAt(size: string, name: string): string {
	const sheets = readFileSync(`tests/screen/fixtures/${size}.txt`, 'utf8').split('\n== ');
	const sheet = sheets.find(one => one.replace(/^== /, '').split('\n')[0] === name) ?? '';
	const rows = sheet.split('\n').filter(row => row.startsWith('|'));
	return rows.map(row => row.slice(1)).join('\n');
}

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
	'at %i by %i every kind of screen stands in a real terminal as it is saved, the last row free',
	async (columns, rows) => {
		const real = inTerminal([process.execPath, program], { columns, rows });
		const kinds = Object.keys(savedViews());
		for (const [index, kind] of kinds.entries()) {
			if (index > 0) real.kill('SIGUSR2');
			const saved = savedAt(`${columns}x${rows}`, kind);
			expect(saved).not.toBe('');
			await real.until(screen => trimmed(screen) === saved).catch(() => {});
			expect(`${kind}\n${trimmed(real.screen())}`).toBe(`${kind}\n${saved}`);
			expect(real.screen().split('\n').at(-1)?.trim()).toBe('');
		}
		expect(kinds.length).toBeGreaterThan(70);
		real.kill('SIGKILL');
		await real.ended;
	},
);
