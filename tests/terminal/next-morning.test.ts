import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { built } from '../built.ts';
import { folder, run } from '../cli/run.ts';
import { playedLines, start, traySheet } from '../cli/three-days.ts';
import { look } from './eyes.ts';
import { inTerminal } from './pty.ts';

const program = built();
/** Longer than a new screen stays deaf. */
const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

/** A rehearsal at a real terminal whose newest day is closed. */
async function closedDay(sheet: string, input: readonly string[]) {
	const path = join(folder(), 'tray.day.jsonl');
	run(['rehearse', sheet, '--json', '--start', start, '--day', path], {
		input: input.map(line => `${line}\n`).join(''),
	});
	const terminal = inTerminal(
		[process.execPath, program, 'rehearse', sheet, '--start', start, '--day', path],
		{
			env: { FANWISE_HOME: folder(), TZ: 'UTC' },
		},
	);
	await terminal.until('Day closed.');
	await pause(700);
	return { terminal, next: path.replace('tray.day', 'tray-2.day') };
}

test('a closed rehearsal offers NEXT MORNING in a corner: its key begins the day after, another leaves', async () => {
	const sheet = traySheet();
	const { days } = await playedLines(sheet);
	const { terminal, next } = await closedDay(sheet, days[0] ?? []);
	expect(look(terminal.screen()).corners).toEqual({ bottomRight: 'NEXT MORNING' });
	expect(terminal.screen()).toContain('any other corner: leave');
	terminal.type(',');
	await terminal.until('Tray: sand with 600 grit, 2 faces.');
	expect(terminal.screen()).toContain('REHEARSAL');
	expect(loadDay(next)[0]).toMatchObject({
		type: 'day.opened',
		clock: 'moved',
		at: '2025-03-05T08:00:00.000Z',
	});
	await pause(700);
	terminal.type(' ');
	await terminal.until(screen => look(screen).corners.topLeft === 'GO ON' || screen.includes('hold'));
	terminal.type('\u0003');
	expect(await terminal.ended).toBe(0);
	expect(loadDay(next).at(-1)).toMatchObject({ type: 'break.began' });

	const left = await closedDay(sheet, days[0] ?? []);
	left.terminal.type('e');
	expect(await left.terminal.ended).toBe(0);
	expect(existsSync(left.next)).toBe(false);
});

test('a job with nothing left offers no morning', async () => {
	const sheet = traySheet();
	const { days } = await playedLines(sheet);
	const all = days.flatMap((keys, index) => (index === 0 ? keys : ['morning', ...keys]));
	const { terminal } = await closedDay(sheet, all);
	expect(look(terminal.screen()).corners).toEqual({});
	terminal.type(',');
	expect(await terminal.ended).toBe(0);
});
