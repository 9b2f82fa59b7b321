import { type Command, helpOf, type Io } from './command.ts';
import { bashCompletion } from './completion/bash.ts';
import { fishCompletion } from './completion/fish.ts';
import { allWords, type Words } from './completion/words.ts';
import { zshCompletion } from './completion/zsh.ts';

type Load = () => Promise<Command[]>;

const shell = (name: string, write: (all: readonly Words[]) => string, example: string) => (load: Load) => ({
	name,
	summary: `words for ${name} to complete`,
	usage: [`completion ${name}`],
	options: {},
	examples: [example],
	async run(_args: unknown, io: Io) {
		io.stdout.write(write(allWords(await load())));
		return 0;
	},
});

const shells = [
	shell('bash', bashCompletion, 'completion bash >> ~/.bashrc'),
	shell('zsh', zshCompletion, 'completion zsh >> ~/.zshrc'),
	shell('fish', fishCompletion, 'completion fish | source'),
];

/**
 * The words of every command for a shell to complete, from the tables that the help is made of.
 * @param load reads every command, this one among them
 */
export function completionCommand(load: Load): Command {
	const command: Command = {
		name: 'completion',
		summary: 'has a shell complete commands and options: bash, zsh or fish',
		usage: ['completion bash|zsh|fish'],
		options: {},
		examples: ['completion bash >> ~/.bashrc', 'completion fish | source'],
		parts: shells.map(make => make(load)),
		run(_args, io) {
			io.stderr.write('fanwise completion: say for which shell: bash, zsh or fish\n');
			io.stderr.write(helpOf(command));
			return 2;
		},
	};
	return command;
}
