import type { View } from '../../../src/day/view.ts';
import { layoutOf } from '../../../src/screen/keys/layouts.ts';
import { runScreen } from '../../../src/screen/run.ts';
import type { Session } from '../../../src/screen/session-port.ts';
import { viewOf } from '../../screen/views.ts';

/** A day that only pretends: each answer leads to the next of a few screens. What it heard goes to stderr. */

const order = ['pattern', 'ready', 'number', 'closed'];
let step = 0;
let held = false;

const hear = (what: unknown) => process.stderr.write(`heard ${JSON.stringify(what)}\n`);
const view = (): View => viewOf(held ? 'hold' : (order[step] ?? 'closed'));

const session: Session = {
	tick() {},
	view: () => {
		if (process.env.FAKE_DAY === 'throws' && step > 0) throw new Error('the day broke down');
		return view();
	},
	answer(answer) {
		hear(answer);
		if ('key' in answer && answer.key === 'hold') held = true;
		else if (held) held = false;
		else step++;
		return { accepted: true };
	},
	onChange: () => () => {},
	break: kind => hear(kind),
	close: () => hear('close'),
};

const left = await runScreen(
	{
		stdin: process.stdin,
		stdout: process.stdout,
		signals: process,
		session,
		clock: {
			mono: () => performance.now(),
			after(wait_ms, then) {
				const timer = setTimeout(then, wait_ms);
				return () => clearTimeout(timer);
			},
		},
		stop: () => process.kill(process.pid, 'SIGSTOP'),
	},
	{ layout: layoutOf('us', null), oneKey: false, style: 'half' },
);
hear(left);
process.exitCode = left.status;
