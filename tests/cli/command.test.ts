import { describe, expect, test } from 'vitest';
import { type Command, parse, runCommand } from '../../src/cli/command.ts';

const pour: Command = {
	name: 'pour',
	summary: 'pours',
	usage: ['pour [--make AMOUNT]'],
	options: {
		make: { type: 'string', value: 'AMOUNT', says: 'how much' },
		json: { type: 'boolean', says: 'as JSON' },
	},
	examples: ['pour --make "16 fl oz"'],
	run: ({ options }, io) => {
		io.stdout.write(`poured ${options.make}\n`);
		return 0;
	},
};
const bench: Command = { ...pour, name: 'bench', parts: [pour] };

async function ran(argv: string[]) {
	let out = '';
	let err = '';
	const status = await runCommand(bench, argv, {
		stdout: { write: text => (out += text) },
		stderr: { write: text => (err += text) },
		env: {},
	});
	return { status, out, err };
}

describe('the words after a command', () => {
	test('options and positionals are told apart', () => {
		expect(parse(pour, ['one', '--make', '16 fl oz', '--json', '--', '--two'])).toEqual({
			ok: true,
			args: { positionals: ['one', '--two'], options: { make: '16 fl oz', json: true } },
		});
	});

	test('an option given twice is refused: nobody knows which was meant', () => {
		expect(parse(pour, ['--make', '1 L', '--make', '2 L'])).toEqual({
			ok: false,
			message: '--make is there twice: leave one out',
		});
	});

	test('a value may begin with a minus', () => {
		expect(parse(pour, ['--make', '-5 °C'])).toMatchObject({
			ok: true,
			args: { options: { make: '-5 °C' } },
		});
	});

	test.each([
		[['--mak', '3'], 'unknown option --mak: the nearest is --make'],
		[['-x'], 'unknown option -x'],
		[['--make'], '--make needs AMOUNT'],
		[['--make', '--json'], '--make needs AMOUNT'],
		[['--make='], '--make needs AMOUNT'],
		[['--json=yes'], '--json takes no value'],
	])('%j is refused', (argv, says) => {
		const parsed = parse(pour, argv);
		expect(parsed.ok ? '' : parsed.message).toContain(says);
	});
});

describe('a command with parts', () => {
	test('runs the part that the first word names', async () => {
		expect(await ran(['pour', '--make', '1 L'])).toEqual({ status: 0, out: 'poured 1 L\n', err: '' });
	});

	test('refuses a word it does not know with one line and the nearest one', async () => {
		const { status, err } = await ran(['puor']);
		expect(status).toBe(2);
		expect(err).toBe('fanwise bench: unknown command "puor": the nearest is "pour" (fanwise bench --help)\n');
	});

	test('refuses an unknown option with one line', async () => {
		const { status, err, out } = await ran(['pour', '--jsn']);
		expect({ status, out }).toEqual({ status: 2, out: '' });
		expect(err.trimEnd().split('\n')).toHaveLength(1);
	});

	test('says what it does, from the table', async () => {
		const { status, out } = await ran(['pour', '--help']);
		expect(status).toBe(0);
		expect(out).toContain('fanwise bench pour: pours');
		expect(out).toMatch(/--make AMOUNT +how much/);
		expect((await ran(['--help'])).out).toMatch(/Commands\n +pour +pours/);
	});
});

test('a word too many is refused with status 2, and nothing is done', async () => {
	let err = '';
	const io = { stdout: { write: () => {} }, stderr: { write: (text: string) => (err += text) }, env: {} };
	const one: Command = { ...pour, words: 1 };
	expect(await runCommand(one, ['a.yaml', 'b.yaml'], io)).toBe(2);
	expect(err).toBe('fanwise pour: "b.yaml" is a word too many: leave it out (fanwise pour --help)\n');
	expect(await runCommand(one, ['a.yaml'], io)).toBe(0);
});
