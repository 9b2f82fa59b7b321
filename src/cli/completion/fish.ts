import { quoted, type Words } from './words.ts';

/** Holds where the words so far lead to a place, and no word after it has been said. */
function condition({ path, next }: Words): string {
	if (path === '') return '__fish_use_subcommand';
	const seen = path.split(' ').map(word => `__fish_seen_subcommand_from ${word}`);
	const names = next.map(({ name }) => name).join(' ');
	const open = names === '' ? [] : [`not __fish_seen_subcommand_from ${names}`];
	return [...seen, ...open].join('; and ');
}

function linesOf(words: Words): string[] {
	const begin = `complete -c fanwise -n ${quoted(condition(words))}`;
	const files = words.next.length === 0 ? [`${begin} -F`] : [];
	return [
		...words.next.map(({ name, summary }) => `${begin} -f -a ${name} -d ${quoted(summary)}`),
		...files,
		...words.options.map(
			({ name, says, takesValue }) => `${begin} -l ${name}${takesValue ? ' -r -F' : ''} -d ${quoted(says)}`,
		),
	];
}

/** Completion for fish. */
export const fishCompletion = (all: readonly Words[]): string =>
	['# fanwise in fish: fanwise completion fish | source', ...all.flatMap(linesOf), ''].join('\n');
