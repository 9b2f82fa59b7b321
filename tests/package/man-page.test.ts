import { expect, test } from 'vitest';
import type { Command } from '../../src/cli/command.ts';
import { everyCommand } from '../../src/cli/commands.ts';
import { manPage } from '../../src/package/man-page.ts';

test('the manual page has every command, every part and every option', async () => {
	const commands = await everyCommand();
	const page = manPage(commands, '1.2.3');
	const named = (text: string) => text.replaceAll('-', '\\-');
	for (const command of commands) {
		expect(page).toContain(`\n.SS ${named(command.name)}\n`);
		for (const part of command.parts ?? [])
			expect(page).toContain(`\n.SS ${named(`${command.name} ${part.name}`)}\n`);
		for (const option of Object.keys(command.options))
			expect(page).toContain(`\\fB\\-\\-${named(option)}\\fR`);
	}
	expect(page).toMatch(/^\.TH FANWISE 1 "" "fanwise 1\.2\.3"\n/);
});

test('no text of a command is taken for a request or an escape, and no letter outside ASCII is left', () => {
	const odd: Command = {
		name: 'odd',
		summary: '.so /etc/motd',
		usage: ["'odd"],
		options: { at: { type: 'string', value: 'T', says: '.br 20 °C \\fBbold' } },
		examples: [],
		run: () => 0,
	};
	const page = manPage([odd], '1.0.0');
	expect(page).not.toMatch(/^\.(so|br 20)/m);
	expect(page).toContain('\\&.br 20 \\[u00B0]C \\efBbold');
	expect([...page].filter(letter => letter > '~')).toEqual([]);
});
