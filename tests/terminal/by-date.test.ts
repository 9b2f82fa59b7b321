import { existsSync, mkdtempSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { inTerminal } from './pty.ts';

const program = 'dist/fanwise.js';
const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

beforeAll(() => {
	if (!existsSync(program)) throw new Error(`${program} is not built: npm run build`);
});

const newHome = () => mkdtempSync(join(tmpdir(), 'fanwise-by-date-'));
const start = (home: string) => inTerminal([process.execPath, program], { env: { FANWISE_HOME: home } });
/** Longer than a new screen stays deaf. */
const strike = async (terminal: ReturnType<typeof start>, keys: string) => {
	await pause(1000);
	for (const key of keys) {
		terminal.type(key);
		await pause(200);
	}
};
/** One key, until the next screen is there: on a busy machine a screen is deaf for longer. */
const leadsTo = async (terminal: ReturnType<typeof start>, key: string, next: string) => {
	const isThere = () => terminal.screen().includes(next);
	for (let tries = 0; tries < 5 && !isThere(); tries++) {
		await strike(terminal, key);
		await terminal.until(isThere, 4000).catch(() => {});
	}
	await terminal.until(next);
};

test('what is due is asked where a sheet is picked to be sprayed; the answers stay out of settings and day', async () => {
	const home = newHome();
	const first = start(home);
	await first.until('Job sheet: choose one.');
	await leadsTo(first, 'e', 'spray it, or rehearse it?');
	await leadsTo(first, 'e', 'Compressor: filters and alarm');
	await first.until('Tight chest or cough');
	await strike(first, '0\r');
	await first.until('Fit test of your mask');
	await strike(first, '15\r');
	await first.until('Medical clearance');
	await leadsTo(first, 'e', 'Biological monitoring');
	await leadsTo(first, 'i', "Painter's certificate");
	await leadsTo(first, 'x', 'parts: wipe');
	first.type('\u0003');
	await first.ended;

	const kept = JSON.parse(readFileSync(join(home, 'by-date.json'), 'utf8'));
	expect(Object.keys(kept)).toEqual(['compressor', 'fit-test', 'medical-clearance', 'biological-monitoring']);
	expect(statSync(join(home, 'by-date.json')).mode & 0o777).toBe(0o600);
	const days = readdirSync(join(home, 'days')).map(name => readFileSync(join(home, 'days', name), 'utf8'));
	expect(days.join('\n')).toContain('day.opened');
	expect(days.join('\n')).not.toMatch(/fit.?test|clearance for|biological|certificate/i);
	expect(existsSync(join(home, 'settings.json'))).toBe(false);

	const again = start(home);
	await again.until('Overdue: fit test, medical clearance.');
	await leadsTo(again, 'e', 'The program was started again.');
	again.type('\u0003');
	await again.ended;
}, 120_000);
