import type { AnyStateMachine } from 'xstate';
import { batchMachine } from '../../machines/batch.ts';
import { dayMachine } from '../../machines/day.ts';
import { faceMachine } from '../../machines/face.ts';
import { gunMachine } from '../../machines/gun.ts';
import { gunCheckMachine } from '../../machines/gun-check.ts';
import { ladder } from '../../machines/stops.ts';
import { windowMachine } from '../../machines/window.ts';
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

/** What each rung of the ladder is, and what puts it right. */
const rungs: Readonly<Record<(typeof ladder)[number], string>> = {
	account: 'a face was broken off: how much of it is on is told',
	'one-go': 'a pass ran late: whether it went through in one go is told',
	aside: 'its part is set aside: the next step of its own line is done',
	coats: 'all planned coats are on: one more takes a reason',
	'window wait': 'its recoat window is waited for, or passed over with a reason',
	prep: 'the next step of the sheet is done, or left out with a reason',
	'window scuff': 'it is scuffed, as its window asks',
	'window sand': 'it is sanded, as its window asks',
	touch: 'the tape tab is touched',
	list: 'the list before spraying is gone through',
	'air none': 'the air is read',
	'air stale': 'the air is read again',
	'air out': 'the air is out of its limits: it is read again, or passed over with a reason',
	'cup dead': 'the cup is emptied: its paint is past its life',
	'cup other-material': 'the cup is emptied: another material is in it',
	'cup other-mix': 'the cup is emptied: it is thinned for another coat',
	'cup stood': 'the cup is emptied: paint stood too long in the gun',
	'cup dying': 'the cup is emptied: its paint dies before the face is done',
	'cup empty': 'a batch is mixed, and the cup filled',
	'cup short': 'the cup is filled up',
	tack: 'the last step before the gun: it is tacked, or left out with a reason',
	'gun unknown': 'the gun is checked',
	'gun horns': 'the cap is turned; the short check follows',
	'gun fan': 'the fan is set; the short check follows',
	'gun aged': 'the last check is too old: the short check',
};

type Node = {
	key: string;
	always?: readonly Transition[] | undefined;
	transitions: Map<string, readonly Transition[]>;
	states: Record<string, Node>;
};

/** A chart as a diagram: which events lead from which state to which. What leads there from anywhere starts at `any`. */
function diagramOf(machine: AnyStateMachine): string {
	const root = machine.root as unknown as Node;
	const arrows = new Map<string, string[]>();
	const draw = (from: string, type: string, { target }: Transition) => {
		const to = target?.[0]?.key;
		if (to === undefined || to === from) return;
		const key = `${from} --> ${to}`;
		const types = arrows.get(key) ?? [];
		arrows.set(key, types.includes(type) ? types : [...types, type]);
	};
	for (const [type, ways] of root.transitions) for (const way of ways) draw('any', type, way);
	for (const { key, always = [], transitions } of Object.values(root.states)) {
		for (const way of always) draw(key, 'by itself', way);
		for (const [type, ways] of transitions) for (const way of ways) draw(key, type, way);
	}
	return [
		'```mermaid',
		'stateDiagram-v2',
		...[...arrows].map(([arrow, types]) => `    ${arrow}: ${types.join(', ')}`),
		'```',
	].join('\n');
}

const charts: readonly [name: string, machine: AnyStateMachine, says: string][] = [
	['The day', dayMachine, 'Which of list, mixing, check, ready, spraying, wait and hold the painter is in.'],
	[
		'The gun',
		gunMachine,
		'Known since its last check, or which check is due. Nothing but a passed check leads to known.',
	],
	['A gun check', gunCheckMachine, 'Item by item, in order; broken off, it begins anew.'],
	['A face', faceMachine, 'How many coats are on it, and what the next one still needs.'],
	['Its recoat window', windowMachine, 'What its last coat allows. The day tells it when one has moved.'],
	['A batch', batchMachine, 'From the first can to the last drop.'],
];

/** What is said of the charts beside them, in Markdown. */
export const readmeOfCharts = (): string => `# The charts

They refuse what breaks a rule; what comes next is worked out in \`src/day/next.ts\`. \`npm run table\` writes this from the
charts, and a test holds it to them.

## What stands between a face and its coat

\`stops.ts\` lists it, in this order; the day puts the first one right and asks again. Where nothing is left the face may be
started.

${ladder.map((rung, at) => `${at + 1}. *${rung}*: ${rungs[rung]}`).join('\n')}

${charts.map(([name, machine, says]) => `## ${name}\n\n${says}\n\n${diagramOf(machine)}`).join('\n\n')}

## What each state of the day accepts

A word is the state that an event leads to, \`=\` stays, \`?\` asks a guard first, an empty cell refuses. A list gone
through, and a batch mixed, lead to the bench by themselves.

${tableOfStates()}
`;
