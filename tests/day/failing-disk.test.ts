import { expect, test } from 'vitest';
import { failEachCall, happenings, states } from './each-call.ts';

test.each(states)(
	'in %s no call that fails as the terminal goes ends the program or harms the file',
	state => {
		const { cases, says } = failEachCall(state, 'hangup', false);
		expect(says).toEqual([]);
		expect(cases).toBeGreaterThan(12);
	},
);

test.each(['spraying', 'wait'] as const)('in %s no call that fails while nobody keys does', state => {
	expect(failEachCall(state, 'wait 3 h', false).says).toEqual([]);
});

test.each(states)('in %s a disk that fails for good leaves the day in hold, and says so', state => {
	for (const happening of happenings) expect(failEachCall(state, happening, true, 1).says).toEqual([]);
});
