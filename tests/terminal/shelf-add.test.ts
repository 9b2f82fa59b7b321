import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { inTerminal } from './pty.ts';

test('what is asked for the shelf ends with its last answer, and the shell is back', async () => {
	const home = mkdtempSync(join(tmpdir(), 'fanwise-shelf-add-'));
	const terminal = inTerminal([process.execPath, 'dist/fanwise.js', 'shelf', 'add', 'shop', 'ours'], {
		env: { FANWISE_HOME: home },
	});
	for (const [nth, answer] of ['metric', '20 °C', '50%', '9 h'].entries()) {
		await terminal.until(`${nth + 1} of 4`);
		terminal.type(`${answer}\r`);
	}
	await terminal.until(screen => screen.replaceAll('\n', '').includes('Sheets can name it.'));
	expect(await terminal.ended).toBe(0);
}, 30_000);
