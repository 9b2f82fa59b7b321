import { expect, test } from 'vitest';
import { example, folder, program, run } from '../cli/run.ts';
import { fakePrograms, until } from '../voice/fake-program.ts';
import { inTerminal } from './pty.ts';

test('in a terminal the program speaks its first question, says it again on Tab, and is still once it is left', async () => {
	const home = folder();
	run(['settings', 'voice', 'true'], { home });
	const system = fakePrograms();
	system.add('espeak-ng', { takes_ms: 30_000 });
	const shell = inTerminal([process.execPath, program, 'rehearse', example], {
		env: { FANWISE_HOME: home, ...system.env },
	});
	await until(() => system.log().length === 1, 15_000);
	const [first] = system.log();
	expect(first).toMatch(/^begins espeak-ng --stdin\|\S/);
	shell.type('\t');
	await until(() => system.log().length === 2);
	expect(system.log()[1]).toBe(first);
	shell.type('\u0003');
	expect(await shell.ended).toBe(0);
	expect(system.log().filter(line => line.startsWith('ends'))).toEqual([]);
});
