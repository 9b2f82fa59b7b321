import { quoted, type Words } from './words.ts';

const caseOf = ({ path, next, options }: Words): string => {
	const words = [...next.map(({ name }) => name), ...options.map(({ name }) => `--${name}`)];
	return `\t\t${quoted(path)}) words=${quoted(words.join(' '))} ;;`;
};

/** Completion for bash. Where nothing of ours fits, files are offered. */
export function bashCompletion(all: readonly Words[]): string {
	const paths = all.filter(({ path }) => path !== '').map(({ path }) => quoted(path));
	const values = all.flatMap(({ path, options }) =>
		options.filter(({ takesValue }) => takesValue).map(({ name }) => quoted(`${path} --${name}`)),
	);
	return `# fanwise in bash: eval "$(fanwise completion bash)"
_fanwise() {
	local current=\${COMP_WORDS[COMP_CWORD]} place= words= word
	for word in "\${COMP_WORDS[@]:1:COMP_CWORD-1}"; do
		case "\${place:+$place }$word" in
			${paths.join('|')}) place="\${place:+$place }$word" ;;
		esac
	done
	COMPREPLY=()
	case "$place \${COMP_WORDS[COMP_CWORD-1]}" in
		${values.join('|')}) return ;;
	esac
	case "$place" in
${all.map(caseOf).join('\n')}
	esac
	COMPREPLY=($(compgen -W "$words" -- "$current"))
}
complete -o default -F _fanwise fanwise
`;
}
