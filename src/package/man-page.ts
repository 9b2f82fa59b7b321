import type { Command, Option } from '../cli/command.ts';

/** A text as roff takes it: nothing in it is a request or an escape. */
const roff = (text: string): string =>
	text
		.replaceAll('\\', '\\e')
		.replaceAll('-', '\\-')
		.replace(/^([.'])/gm, '\\&$1')
		.replace(/[^\n -~]/gu, named);

/** A letter outside ASCII by its number. */
const named = (letter: string): string =>
	`\\[u${(letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}]`;

const optionLines = ([name, { short, value, says }]: [string, Option]): string[] => [
	'.TP',
	`${short ? `\\fB\\-${roff(short)}\\fR, ` : ''}\\fB\\-\\-${roff(name)}\\fR${value ? ` \\fI${roff(value)}\\fR` : ''}`,
	roff(says),
];

function commandLines(command: Command, path: string): string[] {
	return [
		`.SS ${roff(path)}`,
		`${roff(command.summary)}.`,
		'.PP',
		...command.usage.flatMap(line => [`\\fBfanwise\\fR ${roff(line)}`, '.br']),
		...Object.entries(command.options).flatMap(optionLines),
		...command.examples.flatMap((line, at) => [
			at === 0 ? '.PP' : '.br',
			`\\fIExample:\\fR fanwise ${roff(line)}`,
		]),
		...(command.parts ?? []).flatMap(part => commandLines(part, `${path} ${part.name}`)),
	];
}

const section = (title: string, ...lines: string[]): string[] => [`.SH ${title}`, ...lines];
const item = (name: string, says: string): string[] => ['.TP', `\\fB${roff(name)}\\fR`, roff(says)];

/** The manual page of the program, from the tables that the parser and the help read; man(7) macros. */
export function manPage(commands: readonly Command[], version: string): string {
	return [
		`.TH FANWISE 1 "" "fanwise ${roff(version)}"`,
		...section('NAME', 'fanwise \\- checklist and guard of a day of spraying two\\-part finishes'),
		...section('SYNOPSIS', '\\fBfanwise\\fR', '.br', '\\fBfanwise\\fR \\fICOMMAND\\fR [\\fIOPTIONS\\fR]'),
		...section(
			'DESCRIPTION',
			'Steps a refinisher through a spray day. After every break the gun and the batch are read again before the',
			'next pass. Without a command: in a terminal an open day is carried on, or a job sheet picked; elsewhere the',
			'example day is played as text. Every command has \\fB\\-\\-help\\fR.',
			'.PP',
			'Isocyanates, solvent vapour, fire and pressure kill. The data sheet, local codes and licensed practice come',
			'before anything that the program says. The terminal stays outside the spray area.',
		),
		...section('COMMANDS', ...commands.flatMap(command => commandLines(command, command.name))),
		...section(
			'EXIT STATUS',
			...item('0', 'done'),
			...item('1', 'the answer is no: do not spray, window shut, log damaged'),
			...item('2', 'the input cannot be used'),
		),
		...section(
			'ENVIRONMENT',
			...item('FANWISE_HOME', 'where days and settings are kept'),
			...item('XDG_DATA_HOME', 'where data are kept; the program has a folder of its own in it'),
			...item('XDG_CACHE_HOME', 'where compiled code is kept, on Node 22.1 or later; it may be deleted'),
			...item('NO_COLOR', 'no colour is ever used; every state is told by words and reverse video'),
		),
		'',
	].join('\n');
}
