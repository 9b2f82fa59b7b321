import { dayMachine } from '../../machines/day.ts';
import { eventTypes } from '../../src/day/records.ts';

/** What each state of a day takes, read off its chart: a table for people, made again whenever the chart changes. */

const states = ['bench', 'list', 'mix', 'check', 'ready', 'spraying', 'wait', 'hold', 'closed'] as const;
const types = eventTypes;

type Transition = { target?: readonly { key: string }[] | undefined; guard?: unknown };

const listed = (state: string | null, type: string): readonly Transition[] => {
	const node = state === null ? dayMachine.root : dayMachine.root.states[state];
	return node?.transitions.get(type) ?? [];
};

/** `ready` it goes to ready, `=` it stays; with `?` where a guard is asked first; nothing where it is refused. */
function cell(state: string, type: string): string {
	const everywhere = state === 'closed' && type === 'break.began' ? [] : listed(null, type);
	const ways = [...listed(state, type), ...everywhere].map(({ target, guard }) => {
		const to = target?.[0]?.key;
		const isAsked = guard !== undefined && type !== 'break.began';
		return `${to === undefined || to === state ? '=' : to}${isAsked ? '?' : ''}`;
	});
	return [...new Set(ways)].join(' ');
}

const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;

/** The whole table, in Markdown. */
export const tableOfStates = (): string =>
	[
		line(['', ...states]),
		line(['---', ...states.map(() => '---')]),
		...types.map(type => line([`\`${type}\``, ...states.map(state => cell(state, type))])),
	].join('\n');

/** What is said of the charts beside them, in Markdown. */
export const readmeOfCharts = (): string => `# The charts

They refuse what breaks a rule; what comes next is worked out in \`src/day/next.ts\`. \`npm run table\` writes this from the
chart of the day, and a test holds it to it.

## What each state accepts

A word is the state that an event leads to, \`=\` stays, \`?\` asks a guard first, an empty cell refuses. A list gone
through, and a batch mixed, lead to the bench by themselves.

${tableOfStates()}
`;
