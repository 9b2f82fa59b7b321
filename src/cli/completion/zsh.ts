import { quoted, type Words } from './words.ts';

const described = (name: string, says: string): string =>
	quoted(`${name.replaceAll(':', '\\:')}:${says.replaceAll(':', '\\:')}`);

const caseOf = ({ path, next, options }: Words): string =>
	[
		`\t\t${quoted(path)})`,
		`\t\t\tnext=(${next.map(({ name, summary }) => described(name, summary)).join(' ')})`,
		`\t\t\toptions=(${options.map(({ name, says }) => described(`--${name}`, says)).join(' ')}) ;;`,
	].join('\n');

/** Completion for zsh. Where nothing of ours fits, files are offered. */
export function zshCompletion(all: readonly Words[]): string {
	const paths = all.filter(({ path }) => path !== '').map(({ path }) => quoted(path));
	const values = all.flatMap(({ path, options }) =>
		options.filter(({ takesValue }) => takesValue).map(({ name }) => quoted(`${path} --${name}`)),
	);
	return `#compdef fanwise
# fanwise in zsh: eval "$(fanwise completion zsh)"
_fanwise() {
	local place= word
	local -a next options
	for word in "\${(@)words[2,CURRENT-1]}"; do
		case "\${place:+$place }$word" in
			${paths.join('|')}) place="\${place:+$place }$word" ;;
		esac
	done
	case "$place \${words[CURRENT-1]}" in
		${values.join('|')}) _files; return ;;
	esac
	case "$place" in
${all.map(caseOf).join('\n')}
	esac
	if [[ $PREFIX == -* ]]; then _describe option options; return; fi
	if (( \${#next} )); then _describe command next; return; fi
	_files
}
compdef _fanwise fanwise
`;
}
