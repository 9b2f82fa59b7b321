import type { Command, Option } from '../command.ts';

/** What can be typed after a word: read from the tables that the parser and the help read. */
export type Words = {
	/** The words so far, as a path: `work mix`; empty for the program itself. */
	path: string;
	next: { name: string; summary: string }[];
	options: { name: string; says: string; takesValue: boolean }[];
};

const optionOf = ([name, { type, says }]: [string, Option]) => ({
	name,
	says,
	takesValue: type === 'string',
});

const helpOption = { name: 'help', says: 'say what the command does', takesValue: false };

function wordsOf(command: Command, path: string): Words[] {
	const parts = command.parts ?? [];
	return [
		{
			path,
			next: parts.map(({ name, summary }) => ({ name, summary })),
			options: [...Object.entries(command.options).map(optionOf), helpOption],
		},
		...parts.flatMap(part => wordsOf(part, `${path} ${part.name}`)),
	];
}

/** Every place in a line, the program itself first. */
export const allWords = (commands: readonly Command[]): Words[] => [
	{
		path: '',
		next: commands.map(({ name, summary }) => ({ name, summary })),
		options: [helpOption, { name: 'version', says: 'the version', takesValue: false }],
	},
	...commands.flatMap(command => wordsOf(command, command.name)),
];

/** A text in single quotes, as every one of the shells reads it. */
export const quoted = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`;
