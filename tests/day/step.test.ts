import { expect, test } from 'vitest';
import { initialTransition, transition as ofLibrary } from 'xstate';
import { dayMachine } from '../../machines/day.ts';
import { transition } from '../../machines/step.ts';
import { dayInput } from '../../src/day/state.ts';
import { rehearsed } from './rehearsed.ts';

test('a step is the step that the library takes, over every record of a day with a break in it', () => {
	const day = rehearsed();
	day.toState('spraying');
	day.send('hold', 'wait 2 min');
	day.pick('back');
	day.toEnd();
	const [opened] = day.ofType('day.opened');
	if (!opened) throw new Error('no day');
	let [state] = initialTransition(dayMachine, dayInput(opened));
	for (const record of day.records().slice(1)) {
		const [next] = transition(dayMachine, state, record);
		const [theirs, actions] = ofLibrary(dayMachine, state, record);
		expect(actions.filter(({ type }) => type.startsWith('xstate.'))).toEqual([]);
		expect(next.toJSON()).toEqual(theirs.toJSON());
		state = next;
	}
	expect(state.value).toBe('closed');
});
