import { layoutOf } from '../../../src/screen/keys/layouts.ts';
import { runScreen } from '../../../src/screen/run.ts';
import { portOf, processPorts } from '../../../src/screen/show-day.ts';
import { playedDay } from './played-day.ts';

/** The example day in a flash wait, shown, its clock going as clocks do. */
const day = await playedDay();
const long = () => day.session.view().timers.some(({ left_s }) => left_s > 120);
while (!(day.session.view().ask === 'wait' && long()))
	if (!day.step()) throw new Error('no wait was come to');
await runScreen(
	{ ...processPorts(), session: portOf(day.session) },
	{ layout: layoutOf('us', null), oneKey: false, style: 'half' },
);
