import { expect, test } from 'vitest';
import { teachKeys } from '../../src/screen/teach-keys.ts';
import { fakeTerminal } from './harness.ts';

test('the keys are asked for corner by corner, and shown as they are learned', async () => {
	const terminal = fakeTerminal();
	const taught = teachKeys(terminal.ports, 'us', 'half');
	expect(await terminal.shown()).toContain('Press the keys for top left');
	await terminal.type('qq');
	expect(await terminal.shown()).toContain('Press the keys for top right');
	await terminal.type('wp');
	expect(await terminal.shown()).toContain('Press the keys for top right');
	await terminal.type('pzz\u001b[6~\u001b[6~');
	expect(await terminal.shown()).toContain('Hold: press a second key');
	await terminal.type('\r');
	expect(await taught).toEqual({
		topLeft: ['q'],
		topRight: ['p'],
		bottomLeft: ['z'],
		bottomRight: ['page-down'],
		hold: [],
	});
	expect(terminal.stdin.raw).toBe(false);
});

test('a key that touches another corner is refused on the screen', async () => {
	const terminal = fakeTerminal();
	void teachKeys(terminal.ports, 'us', 'half');
	await terminal.type('qqa');
	expect(await terminal.shown()).toContain('too near to another corner');
	await terminal.type('\u0003');
});

test('Escape begins again; Ctrl-C leaves everything as it was', async () => {
	const terminal = fakeTerminal();
	const taught = teachKeys(terminal.ports, 'us', 'half');
	await terminal.type('qq\u001b');
	terminal.clock.pass(60);
	expect(await terminal.shown()).toContain('Press the keys for top left');
	await terminal.type('\u0003');
	expect(await taught).toBeNull();
});
