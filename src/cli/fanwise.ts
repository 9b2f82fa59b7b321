#!/usr/bin/env node
import { inert } from '../job/inert.ts';
import type { Io } from './command.ts';
import { commands } from './commands.ts';
import { keepCompiled } from './compiled.ts';

/** The help of the program itself. */
export function help(): string {
	const width = Math.max(...commands.map(({ name }) => name.length));
	return [
		'fanwise: the checklist and guard of a spray day',
		'',
		'  fanwise                in a terminal: carry on an open day, or pick a job sheet; else the demo',
		'  fanwise COMMAND --help what a command does',
		'',
		...commands.map(({ name, summary }) => `  ${name.padEnd(width)}  ${summary}`),
		'',
		'  --help, -h     this',
		'  --version, -v  the version',
		'',
		'Examples',
		'  fanwise new',
		'  fanwise example my-cart.yaml',
		'  fanwise rehearse my-cart.yaml',
		'  fanwise work mix --ratio 2:1:1 --make "16 fl oz"',
		'',
		'Isocyanates, solvent vapour, fire and pressure kill. The data sheet, local codes and licensed practice',
		'come before anything that stands on this screen. The terminal stays outside the spray area.',
		'',
	].join('\n');
}

async function run(argv: string[], io: Io): Promise<number> {
	const [word, ...rest] = argv;
	if (word === '--help' || word === '-h' || word === 'help') {
		io.stdout.write(help());
		return 0;
	}
	if (word === '--version' || word === '-v') {
		const { version } = await import('./package.ts');
		io.stdout.write(`${version()}\n`);
		return 0;
	}
	keepCompiled(io.env);
	if (word === undefined)
		return (await import('./start.ts')).startCommand.run({ positionals: [], options: {} }, io);
	const found = commands.find(command => command.name === word);
	if (found) {
		const { runCommand } = await import('./command.ts');
		return runCommand(await found.load(), rest, io);
	}
	const { nearest } = await import('../trade/nearest.ts');
	const { workCommand } = await import('./work.ts');
	const sums = (workCommand.parts ?? []).map(({ name }) => name);
	const near = nearest(word, [...commands.map(({ name }) => name), ...sums]) ?? '';
	const like = sums.includes(near) ? `work ${near}` : near;
	io.stderr.write(
		`fanwise: unknown command "${word.slice(0, 40)}": the nearest is "${like}" (fanwise --help)\n`,
	);
	return 2;
}

/** Errors hold words from outside, arguments and names of files among them: no terminal obeys any of them. */
const errors = { write: (text: string) => process.stderr.write(text.split('\n').map(inert).join('\n')) };

/**
 * What nobody foresaw ends the program in one line, its terminal given back before: a stack is read by nobody at a
 * bench. `FANWISE_STACK=1` shows it.
 */
function unforeseen(error: unknown): never {
	const says = error instanceof Error ? error.message : String(error);
	errors.write(`fanwise: a fault of the program itself: ${says} (FANWISE_STACK=1 shows where)\n`);
	if (process.env.FANWISE_STACK && error instanceof Error) errors.write(`${error.stack}\n`);
	process.exit(2);
}
process.on('uncaughtException', unforeseen);

/** A reader that goes away, as `head` does, ends the program quietly; output that is not taken is said. */
process.stdout.on('error', ({ code }: NodeJS.ErrnoException) => {
	if (code !== 'EPIPE')
		errors.write(`fanwise: its output was not written (${code}): write it somewhere else\n`);
	process.exit(code === 'EPIPE' ? 0 : 2);
});
process.exitCode = await run(process.argv.slice(2), {
	stdin: process.stdin,
	stdout: process.stdout,
	stderr: errors,
	env: process.env,
}).catch(unforeseen);
