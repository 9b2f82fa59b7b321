import { type GuardEvent, type GuardState, guard, guardStart } from '../../../src/screen/keys/guard.ts';

/**
 * Whether the second of two hits in the same corner comes through the key guard, where the first one brought a new
 * question. The guard itself decides.
 * @param apart_ms between the hits
 */
export function secondHitCounts(apart_ms: number): boolean {
	const hit = (at: number): GuardEvent => ({ is: 'corner', corner: 'topLeft', repeat: false, at });
	const events: GuardEvent[] = [hit(0), { is: 'time', at: 60 }, { is: 'screen', at: 61 }];
	const later: GuardEvent[] = [hit(apart_ms), { is: 'time', at: apart_ms + 60 }];
	let state: GuardState = guardStart;
	let given = 0;
	for (const event of [...events, ...later].sort((one, two) => one.at - two.at)) {
		const step = guard(state, event);
		state = step.state;
		given += step.out.filter(({ give }) => give === 'corner').length;
	}
	return given > 1;
}
