import { expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** A face that goes `after` another waits for it, or the screen says why it does not. */

const [first, second] = ['left door/edges', 'right door/flat'];

const ordered = (): Job => {
	const job = smallJob();
	return {
		...job,
		faces: job.faces.map(face => (face.id === second ? { ...face, after: [first] } : face)),
	};
};

/** Coat 1 of the first face broken off, away until its edge is dry. */
function brokenOff() {
	const day = rehearsed({ job: ordered() });
	day.until(({ state, face }) => state === 'spraying' && face === first);
	day.send('wait 20 s', 'hold', 'wait 10 min');
	day.pick('back');
	day.pick('part');
	day.send('number 2');
	day.toState('edge');
	return day;
}

test('a face waits for the one before it, which was broken off and has to flash', () => {
	const day = brokenOff();
	day.pick('wait-flash');
	day.until(({ state, face }) => state === 'spraying' && face === second);
	const on = day.ofType('face.ended').filter(({ face, extent }) => face === first && extent === 'all');
	expect(on.map(({ coat }) => coat)).toEqual([1]);
	expect(day.findings()).toEqual([]);
});

test('where the one before it is set aside, it is not waited for, and ready says so', () => {
	const day = brokenOff();
	day.pick('set-aside');
	day.until(({ state, face }) => state === 'ready' && face === second);
	expect(day.line().lines).toContain('Before left door edges: it is set aside.');
	expect(day.findings()).toEqual([]);
});
