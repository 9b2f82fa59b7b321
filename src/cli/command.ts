import { parseArgs } from 'node:util';
import { nearest } from '../trade/nearest.ts';

export type Option = { type: 'string' | 'boolean'; value?: string; says: string; short?: string };
export type Args = { positionals: string[]; options: Record<string, string | boolean | undefined> };
export type Io = {
	/** Lines to answer with, where a command reads them. */
	stdin?: NodeJS.ReadableStream;
	stdout: { write(text: string): unknown };
	stderr: { write(text: string): unknown };
	env: Record<string, string | undefined>;
	/** The setting in force, where there is one; `--units` goes before it. */
	units?: 'us' | 'metric';
};

/** A command: its table of options feeds the parser, the help and the documents. */
export type Command = {
	name: string;
	summary: string;
	usage: string[];
	options: Record<string, Option>;
	examples: string[];
	/** Words that may stand beside the options; left out, the command judges them itself. */
	words?: number;
	/** Commands that the first word after the name chooses from. */
	parts?: Command[];
	run(args: Args, io: Io): Promise<number> | number;
};

export type Parsed = { ok: true; args: Args } | { ok: false; message: string };

const help: Option = { type: 'boolean', says: 'say what the command does', short: 'h' };
const withHelp = (command: Command): Record<string, Option> => ({ ...command.options, help });

type Token = ReturnType<typeof tokens>[number];

function tokens(options: Record<string, Option>, argv: string[]) {
	const table = Object.fromEntries(
		Object.entries(options).map(([name, { type, short }]) => [name, short ? { type, short } : { type }]),
	);
	return parseArgs({ args: argv, options: table, strict: false, allowPositionals: true, tokens: true })
		.tokens;
}

/** What is wrong with one word of the line, or undefined. A value may begin with a minus: `--air "-5 °C"`. */
function wrong(token: Token, options: Record<string, Option>): string | undefined {
	if (token.kind !== 'option') return undefined;
	const option = options[token.name];
	if (!option) {
		const like = nearest(
			token.rawName,
			Object.keys(options).map(name => `--${name}`),
		);
		return `unknown option ${token.rawName}: the nearest is ${like}`;
	}
	if (option.type === 'boolean')
		return token.value === undefined
			? undefined
			: `${token.rawName} takes no value: leave out "${token.value}"`;
	const value = token.inlineValue ? token.value : token.value?.replace(/^--.*$/, '');
	return value ? undefined : `${token.rawName} needs ${option.value ?? 'a value'}`;
}

/**
 * Reads the words after a command's name.
 * @returns positionals and options, or one line that says what is wrong and names the nearest right word
 */
export function parse(command: Command, argv: string[]): Parsed {
	const options = withHelp(command);
	const found = tokens(options, argv);
	for (const token of found) {
		const message = wrong(token, options);
		if (message) return { ok: false, message };
	}
	const given: Args = { positionals: [], options: {} };
	for (const token of found) {
		if (token.kind === 'positional') given.positionals.push(token.value);
		if (token.kind !== 'option') continue;
		if (token.name in given.options && token.value !== undefined)
			return { ok: false, message: `${token.rawName} is there twice: leave one out` };
		given.options[token.name] = token.value ?? true;
	}
	return { ok: true, args: given };
}

/** One option's line of help: `--make AMOUNT   how much …`. */
function optionLine([name, { short, value, says }]: [string, Option], width: number): string {
	const words = `${short ? `-${short}, ` : ''}--${name}${value ? ` ${value}` : ''}`;
	return `  ${words.padEnd(width)}  ${says}`;
}

/** The help of a command, from its table. */
export function helpOf(command: Command, path = command.name): string {
	const options = Object.entries(withHelp(command));
	const width = 26;
	const section = (title: string, lines: string[]) => (lines.length > 0 ? ['', title, ...lines] : []);
	return [
		`fanwise ${path}: ${command.summary}`,
		...section(
			'Usage',
			command.usage.map(line => `  fanwise ${line}`),
		),
		...section(
			'Commands',
			(command.parts ?? []).map(part => `  ${part.name.padEnd(width)}  ${part.summary}`),
		),
		...section(
			'Options',
			options.map(option => optionLine(option, width)),
		),
		...section(
			'Examples',
			command.examples.map(line => `  fanwise ${line}`),
		),
		'',
	].join('\n');
}

/**
 * Runs a command on the words after its name.
 * @returns exit status: what the command says, or 2 for a line that cannot be used (one line on stderr)
 */
export async function runCommand(
	command: Command,
	argv: string[],
	io: Io,
	path = command.name,
): Promise<number> {
	const refuse = (message: string): number => {
		io.stderr.write(`fanwise ${path}: ${message} (fanwise ${path} --help)\n`);
		return 2;
	};
	const [word] = argv;
	if (command.parts && word !== undefined && !word.startsWith('-')) {
		const part = command.parts.find(({ name }) => name === word);
		if (part) return runCommand(part, argv.slice(1), io, `${path} ${part.name}`);
		const like = nearest(
			word,
			command.parts.map(({ name }) => name),
		);
		return refuse(`unknown command "${word}": the nearest is "${like}"`);
	}
	const parsed = parse(command, argv);
	if (!parsed.ok) return refuse(parsed.message);
	if (parsed.args.options.help) {
		io.stdout.write(helpOf(command, path));
		return 0;
	}
	const [extra] = parsed.args.positionals.slice(command.words);
	if (command.words !== undefined && extra !== undefined)
		return refuse(`"${extra.slice(0, 40)}" is a word too many: leave it out`);
	return command.run(parsed.args, io);
}
