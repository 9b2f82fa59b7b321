import type { View } from '../../src/day/view.ts';
import { nothingElse } from '../../src/screen/nothing-else.ts';

/** One view of every kind, from an invented day on a market coffee cart. */

const base: View = {
	at: '2027-03-02T09:14:05.000Z',
	state: 'none',
	ask: 'choose',
	say: '',
	lines: [],
	corners: {},
	...nothingElse(),
};

const choices = (
	topLeft: string,
	topRight: string,
	bottomLeft: string,
	bottomRight: string,
): View['corners'] => ({
	topLeft: { code: topLeft.toLowerCase(), text: topLeft },
	topRight: { code: topRight.toLowerCase(), text: topRight },
	bottomLeft: { code: bottomLeft.toLowerCase(), text: bottomLeft },
	bottomRight: { code: bottomRight.toLowerCase(), text: bottomRight },
});

const onDoor = { face: 'left door/edges', coat: 2, coats: 3 };
const timer = (code: string, left_s: number, face: string | null = null) => ({
	code,
	face,
	due: '2027-03-02T09:40:00.000Z',
	left_s,
});

export const views: Record<string, View> = {
	item: {
		...base,
		state: 'before-spraying.extractor',
		ask: 'item',
		say: 'Extractor: hold a paper strip at the filter. What does it do?',
		corners: choices('PULLED IN', 'HANGS', 'BLOWN OFF', 'NO STRIP'),
	},
	number: {
		...base,
		state: 'air.airC',
		ask: 'number',
		of: 'airC',
		say: 'Air beside the work: read the thermometer.',
		unit: '°C',
		min: -10,
		max: 50,
	},
	pattern: {
		...base,
		...onDoor,
		state: 'gunCheck.pattern',
		ask: 'pattern',
		say: 'Pattern on paper, gun held as for this face. What do you see?',
		corners: choices('TALL', 'WIDE', 'ROUND', 'BAD'),
		cup: ['B'],
	},
	do: {
		...base,
		...onDoor,
		state: 'gunCheck.do',
		ask: 'do',
		say: 'Air cap: turn the horns upright, look, then done.',
		corners: { topLeft: { code: 'done', text: 'DONE' }, bottomRight: { code: 'trouble', text: 'TROUBLE' } },
		do: [{ code: 'set-horns', to: 'upright' }],
	},
	ready: {
		...base,
		...onDoor,
		state: 'ready',
		ask: 'go',
		say: 'Left door, edges: press start, then start again across.',
		lines: ['fan wide, up and down', 'full coat'],
		corners: { topLeft: { code: 'start', text: 'START' }, bottomRight: { code: 'start', text: 'START' } },
		cup: ['B'],
		gun: { horns: 'upright', tilt: 0, stroke: 'up-and-down' },
	},
	spraying: {
		...base,
		...onDoor,
		state: 'spraying',
		ask: 'spraying',
		say: 'Side to side is over: now up and down.',
		corners: {
			topLeft: { code: 'finished', text: 'FINISHED' },
			bottomRight: { code: 'trouble', text: 'TROUBLE' },
		},
		cup: ['A', 'B'],
		gun: { horns: 'level', tilt: 90, stroke: 'up-and-down' },
	},
	wait: {
		...base,
		state: 'wait.flash',
		ask: 'wait',
		say: 'Flash: the counter lid is next.',
		lines: ['dress at 10 min', 'stir and mix at 2 min'],
		timers: [timer('flash', 754, 'counter lid/top'), timer('pot-life', 5400)],
		corners: { topRight: { code: 'trouble', text: 'TROUBLE' } },
	},
	'wait-end': {
		...base,
		state: 'wait.flash',
		ask: 'wait',
		say: 'Flash: the counter lid is next.',
		timers: [timer('flash', 75, 'counter lid/top')],
		corners: { topRight: { code: 'trouble', text: 'TROUBLE' } },
	},
	hold: {
		...base,
		...onDoor,
		state: 'hold',
		ask: 'hold',
		say: 'Left door, edges: come back when the visitor is gone.',
		lines: [
			'You were spraying left door, edges.',
			'Away 4 min 10 s.',
			'Last done: right door, outside, coat 2.',
		],
		corners: { topLeft: { code: 'back', text: 'GO ON' } },
		timers: [timer('wet-tip', 312)],
	},
	touch: {
		...base,
		state: 'touch',
		ask: 'touch',
		say: 'Tape tab by the right door: touch it. What does it do?',
		corners: {
			topLeft: { code: 'strings', text: 'STRINGS' },
			topRight: { code: 'tacky', text: 'TACKY' },
			bottomLeft: { code: 'dry', text: 'DRY' },
		},
	},
	trouble: {
		...base,
		...onDoor,
		state: 'trouble',
		ask: 'trouble',
		say: 'Left door, edges: what happened?',
		corners: choices('BREATHING AIR OFF', 'PAINT', 'GUN', 'OTHER'),
	},
	'which-face': {
		...base,
		state: 'stretch.which-face',
		ask: 'which-face',
		say: 'Stretch: which face was the last one sprayed?',
		corners: choices('LID TOP', 'LID FRONT EDGE', 'CORNER BOX OUTSIDE', 'MORE'),
	},
	text: {
		...base,
		state: 'override.air.words',
		ask: 'text',
		say: 'Air outside the limits: why go on?',
		lines: ['It is logged and marks the faces.'],
		corners: { bottomRight: { code: 'not', text: 'DO NOT' } },
	},
	closed: {
		...base,
		state: 'closed',
		ask: 'closed',
		say: 'Day closed: the log is kept.',
		lines: ['18 faces sprayed, 1 part set aside', 'next: look at every face tomorrow'],
	},
	'rehearsal-list': {
		...base,
		...onDoor,
		state: 'gunCheck.batch',
		ask: 'batch',
		say: 'Batch letter on the cup: read it.',
		corners: choices('A', 'B', 'C', 'NONE'),
		open: ['earth'],
		rehearsal: true,
	},
};

export function viewOf(name: string): View {
	const view = views[name];
	if (!view) throw new Error(`no view is named ${name}`);
	return view;
}
